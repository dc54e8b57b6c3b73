#!/usr/bin/env bash
# Draws every screen of the window in each state a notebook can be in, to be looked at.
# usage: every_state.sh OUT [STATE...]
#   STATE: empty, one (one thing of each kind), names (long names, and names in other writings),
#   demo, many (100,000 photos; takes minutes); without any, all of them.
# Pictures go to OUT/STATE in the usual sizes and to OUT/STATE/large-letters: a small window with
# letters of 175 %. SIZES="1280x800 ..." draws those sizes alone. BIN is where the programs are;
# without it the release build is brought up to date first.
set -euo pipefail
umask 022
[ $# -gt 0 ] || { sed -n 's/^# usage: //p' "$0" >&2; exit 2; }
out=$(realpath -m "$1")
shift
states=("$@")
[ ${#states[@]} -gt 0 ] || states=(empty one names demo many)
cd "$(dirname "$0")/../.."

if [ -z "${BIN:-}" ]; then
  BIN=build/release/bin
  cmake --preset release >/dev/null
  cmake --build --preset release --target fettlebook fill_book -- --quiet
fi
books=$(mktemp -d)
trap 'rm -rf "$books"' EXIT
on() { "$BIN/fettlebook" --notebook "$book" "$@" >/dev/null; }

fill_empty() { "$BIN/fettlebook" start "$book" --vehicle "Quernmore Drover 1936" >/dev/null; }

fill_one() {
  fill_empty
  on position add F5 "Shackle pin" --group "Front suspension" --quantity 4 --spec "3/4 in"
  on part add "Shackle pin" --tag SP1 --position F5 --origin original --cost "4 GBP"
  on part add "Shackle plate" --tag PL1
  on take-in assets/demo/photos/P2026_0110_140211.jpg
  on tie 1 --part SP1 --stage "as found"
  on mark 1 --region 100,100,200,120 --reading "OV" --maker "Overbeck" --part SP1
  on task add "Ream the bushes" --hours 3
  on log "Measured the pin." --hours 1.5 --part SP1 --photo 1 --task 1 --on 2026-02-07
  on calc shim.stack --entry 1
  on send PL1 --to "Hollin Works" --for blasting --on 2026-02-08 --without-evidence "bare metal"
  on cost add "12.50 GBP" "Paraffin" --on 2026-02-08 --task 1
  on people "A neighbour" --lent "an arbor press" --on 2026-02-07
}

# Each kind of thing under a name that is long, cannot be broken, or is written from the right.
fill_names() {
  local long="Shackle pin with a head turned down, cross-drilled for the greaser, taken off the near side"
  local unbroken=ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-ABCD
  local hebrew="פין שרשרת קדמי" arabic="مسمار الزنبرك الأمامي" chinese="前钢板弹簧销子及衬套总成" japanese="前ばねシャックルピン"
  "$BIN/fettlebook" start "$book" --vehicle "$long" >/dev/null
  local n=0 name
  for name in "$long" "$unbroken$unbroken" "$hebrew" "$arabic" "$chinese" "$japanese"; do
    n=$((n + 1))
    on position add "${unbroken:0:40}$n" "$name" --group "$name" --quantity 1234 --spec "$name"
    on part add "$name" --tag "${unbroken:0:15}$n" --position "${unbroken:0:40}$n" --place "$name" \
      --from "$name" --maker "$name" --cost "1234567.89 GBP" --note "$name"
    on task add "$name" --hours 1234 --waits-for "$name" --position "${unbroken:0:40}$n=fitted"
    on log "**$name** and *$name*" --hours 12.25 --part "${unbroken:0:15}$n" --task "$n"
    on send "${unbroken:0:15}$n" --to "$name" --for machining --carrier "$name" --number "$unbroken"
    on cost add "1234567.89 GBP" "$name" --task "$n" --paid-to "$name"
    on people "$name" --helped "$name"
    cp assets/demo/photos/P2026_0110_140211.jpg "$books/$name.jpg"
    printf %s "$n" >>"$books/$name.jpg" # another file, as the same one is taken in once
    on take-in "$books/$name.jpg"
    on tie "$n" --part "${unbroken:0:15}$n"
    on mark "$n" --region 100,100,200,120 --reading "$name" --maker "$name" --part "${unbroken:0:15}$n"
  done
}

fill_demo() { "$BIN/fettlebook" demo "$book" >/dev/null; }
fill_many() { "$BIN/fill_book" "$book" 100000; }

draw() {
  xvfb-run -a -s "-screen 0 1280x800x24" "$BIN/fettlebook" "$book" --pictures "$@"
}
sizes=()
for size in ${SIZES:-}; do sizes+=(--size "$size"); done
for state in "${states[@]}"; do
  declare -F "fill_$state" >/dev/null || { echo "every_state.sh: no state $state" >&2; exit 2; }
  book=$books/$state
  "fill_$state"
  draw "$out/$state" "${sizes[@]}"
  [ -n "${SIZES:-}" ] || draw "$out/$state/large-letters" --size 1024x700 --letters 175
  echo "$state: $(find "$out/$state" -name '*.png' | wc -l) pictures in $out/$state"
done

#!/usr/bin/env bash
# Installs the Debian package on a clean Debian 12 root and works with it there: no source tree, no
# compiler, nothing but what the package asks for. Takes some minutes and fetches a few hundred
# packages from the mirrors this machine takes its own from; wants root rights.
# usage: run.sh [DEB]   without one, a package of the release build, which is brought up to date
set -euo pipefail
umask 022
cd "$(dirname "$0")/../.."
export LC_ALL=C.UTF-8

if [ "${1:-}" != --inside ]; then
  bash third_party/install.sh third_party/packages.txt tests/package/packages.txt
  deb=${1:-}
  if [ -z "$deb" ]; then
    cmake --preset release >/dev/null
    cmake --build --preset release --target fettlebook fettlebook-described -- --quiet
    cpack --config build/release/CPackConfig.cmake -B build/release/package >/dev/null
    deb=$(ls -t build/release/package/*.deb | head -n 1)
  fi
  # Whatever is mounted below the root goes with the namespace, before the root is deleted.
  root=$(mktemp -d "${TMPDIR:-/tmp}/fettlebook-root-XXXXXX")
  trap 'rm -rf --one-file-system "$root"' EXIT
  status=0
  unshare --mount --pid --fork --propagation private bash "$0" --inside "$deb" "$root" || status=$?
  exit "$status"
fi

deb=$2 root=$3
log=$root.log
trap 'rm -f "$log"' EXIT
sources=$(apt-get indextargets --format 'deb $(REPO_URI) $(RELEASE) $(COMPONENT)' \
  'Created-By: Packages' 'Origin: Debian' | grep ' bookworm')
mirror=$(awk '$3 == "bookworm" { print $2; exit }' <<<"$sources")
if ! debootstrap --variant=minbase bookworm "$root" "$mirror" >"$log" 2>&1; then
  tail -n 5 "$log" >&2
  echo "The clean root could not be made." >&2
  exit 1
fi
printf '%s\n' "$sources" >"$root/etc/apt/sources.list"
cp /etc/resolv.conf "$root/etc/resolv.conf"
cp "$deb" "$root/fettlebook.deb"
chmod 755 "$root"
mount -t proc proc "$root/proc"
[ -c "$root/dev/null" ] || mount --rbind /dev "$root/dev"

as_root() { chroot "$root" env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin LC_ALL=C.UTF-8 DEBIAN_FRONTEND=noninteractive "$@"; }
as_user() { chroot --userspec=1000:1000 "$root" env -i PATH=/usr/bin:/bin LC_ALL=C.UTF-8 HOME=/home/user bash -c "cd; $1"; }

passed=0 failed=0
check() { # what it says, command ...
  local says=$1
  shift
  if "$@" >"$log" 2>&1; then
    echo "passed: $says"
    passed=$((passed + 1))
  else
    echo "failed: $says"
    tail -n 20 "$log" | sed 's/^/    /'
    failed=$((failed + 1))
  fi
}

as_root apt-get update -qq
as_root useradd --create-home --uid 1000 user
check "apt installs it with what it depends on" \
  as_root apt-get install -y -qq --no-install-recommends /fettlebook.deb
check "the program tells its version" as_user 'fettlebook --version | grep "^fettlebook [0-9]"'
check "the demo notebook is made, all its photos read" \
  as_user "fettlebook demo drover --json | grep '\"photos\": $(ls assets/demo/photos | wc -l)'"
check "the tasks of the demo are told" as_user 'fettlebook bench --notebook drover | grep "^can be done now"'
# 20 + 8 + 3.5 is the only sum of single shims of this tin that makes 31.5.
check "a stack of shims is worked" \
  as_user 'fettlebook calc shim.stack target="31.5 thou" tin="20 8 3.5 thou" | grep -F 31.5'
check "no plugin is refused" \
  as_user 'fettlebook calc --list 2>refused | grep spring.pack && [ ! -s refused ]'
check "tag cards are written as PDF" \
  as_user 'fettlebook tags cards.pdf --notebook drover && head -c 5 cards.pdf | grep %PDF-'
check "what a desktop brings comes beside it" \
  as_root apt-get install -y -qq --no-install-recommends xvfb xauth shared-mime-info desktop-file-utils \
  hicolor-icon-theme libfile-mimeinfo-perl man-db bash-completion
check "a notebook's file has a type of its own" \
  as_user 'mimetype --brief drover/notebook.db | grep -x application/x-fettlebook-notebook'
check "that type is opened by the program" \
  as_root grep -x 'application/x-fettlebook-notebook=fettlebook.desktop;' /usr/share/applications/mimeinfo.cache
check "every screen is drawn, in the faces that were asked for" \
  as_user 'xvfb-run -a fettlebook drover/notebook.db --pictures drawn 2>said; cat said >&2
           [ ! -s said ] && [ -s drawn/bench-1280x800.png ] && [ -s drawn/photos-dark-1920x1080.png ] &&
           [ "$(ls drawn | wc -l)" -gt 60 ]'
check "the manual page is found" as_user 'man -w fettlebook'
check "it goes away whole" as_root bash -c \
  'apt-get purge -y -qq fettlebook && [ -z "$(find / -xdev -path /home -prune -o -path /proc -prune -o -iname "*fettlebook*" -not -path /fettlebook.deb -not -path "/var/log/*" -print)" ]'
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]

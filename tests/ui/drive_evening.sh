#!/bin/sh
# Runs under xvfb-run with a window manager: an evening in the real program. A photo is dropped, an entry
# begun, the letters made larger, the window resized, put away and fetched, and closed in the middle of the
# entry; the next evening it opens as it was left and the entry is written.
# Arguments: program, desktop_hand, notebook folder, photo. Writes the kept state of the window to stdout.
set -e
program=$1 hand=$2 book=$3 photo=$4
export XDG_STATE_HOME="$book.state"
openbox &
manager=$!
trap 'kill "$manager" "$running" 2> /dev/null || true' EXIT
wait_for() { # until the command succeeds, a minute at most
    tries=0
    until "$@" > /dev/null 2>&1; do
        tries=$((tries + 1))
        if [ "$tries" -gt 600 ]; then echo "in vain: $*" >&2; exit 3; fi
        sleep 0.1
    done
}
start() {
    "$program" "$book" &
    running=$!
    wait_for xdotool search --name '^Fettlebook$'
    window=$(xdotool search --name '^Fettlebook$' | tail -n 1)
    # Keys pressed before the first frame would be lost: wait until there is paper in the window.
    wait_for sh -c "import -window $window -depth 8 -crop 1x1+4+400 txt:- | grep -qi F4EFE6"
    xdotool windowactivate --sync "$window"
}
close() {
    "$hand" close "$window"
    wait "$running"
}
start
"$hand" drop "$window" "$photo"
wait_for sh -c "'$program' --notebook '$book' photos | grep -q '$(basename "$photo")'"
xdotool key --delay 60 F5
# Folding the entry away and back puts the caret into its text.
xdotool key --delay 60 F9 F9
xdotool type --delay 25 'Half of the story'
xdotool key --delay 200 ctrl+equal ctrl+equal
sleep 1
xdotool windowsize --sync "$window" 1100 760
xdotool windowminimize "$window"
wait_for sh -c "xprop -id $window WM_STATE | grep -q Iconic"
xdotool windowmap "$window"
xdotool windowactivate --sync "$window"
close
start
# Letters this large leave this window room for the screen or the entry, not for both.
xdotool key --delay 60 F9
xdotool type --delay 25 ', and the rest.'
xdotool key --delay 60 ctrl+Return
wait_for sh -c "'$program' --notebook '$book' log --list | grep -q 'Half of the story, and the rest.'"
close
cat "$XDG_STATE_HOME/fettlebook/window.json"

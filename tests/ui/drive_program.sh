#!/bin/sh
# Runs under xvfb-run: writes one entry in the real program, begins another, and kills the program
# in the middle of it. Arguments: program, notebook folder.
set -e
export XDG_STATE_HOME="$2.state"
"$1" "$2" &
program=$!
wait_for() { # until the command succeeds, a minute at most
    tries=0
    until "$@" > /dev/null 2>&1; do
        tries=$((tries + 1))
        if [ "$tries" -gt 600 ]; then kill -9 "$program"; exit 3; fi
        sleep 0.1
    done
}
wait_for xdotool search --name '^Fettlebook$'
# Keys pressed before the first frame would be lost: wait until paper is on the screen.
wait_for sh -c "import -window root -depth 8 -crop 1x1+4+700 txt:- | grep -qi F4EFE6"
xdotool search --name '^Fettlebook$' windowfocus
# Folding the entry away and back puts the caret into its text.
xdotool key --delay 60 F9 F9
xdotool type --delay 25 'Spring down, 5/16 in worn.'
xdotool key --delay 60 ctrl+Return
wait_for sh -c "'$1' --notebook '$2' log --list | grep -q 'Spring down, 5/16 in worn.'"
xdotool key --delay 60 F9 F9
xdotool type --delay 25 'Second half'
wait_for sh -c "cat '$2'/notebook.db* | grep -aq 'Second half'"
kill -9 "$program"
wait "$program" || true

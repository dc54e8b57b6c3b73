#!/bin/sh
# Runs under xvfb-run: drives window_probe as a person would. Arguments: probe, folder.
set -e
"$1" form "$2" &
probe=$!
tries=0
while [ ! -f "$2/places" ]; do
    tries=$((tries + 1))
    if [ "$tries" -gt 300 ]; then kill "$probe"; exit 3; fi
    sleep 0.1
done
place() { awk -v key="$1" '$1 == key { print $2, $3 }' "$2/places"; }
xdotool search --name '^window probe$' windowfocus
# shellcheck disable=SC2046
xdotool mousemove $(place name "$2") click 1
xdotool type --delay 25 'Hanger H7, 5/16 in'
# shellcheck disable=SC2046
xdotool mousemove $(place count "$2") click --repeat 10 --delay 5 1
# shellcheck disable=SC2046
xdotool mousemove $(place save "$2") click 1
wait "$probe"

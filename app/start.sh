#!/usr/bin/env bash
# Installs what is missing, builds, and opens the demo notebook in a window. Without a display it
# draws the same screens into picture files and says where they are.
# usage: start.sh [NOTEBOOK]   a notebook of your own instead of the demo
set -euo pipefail
umask 022 # plugins in a folder that others may write to are refused
cd "$(dirname "$0")/.."

bash third_party/install.sh third_party/packages.txt
cmake --preset release >/dev/null
cmake --build --preset release --target fettlebook -- --quiet

program=build/release/bin/fettlebook
notebook=${1:-build/demo-notebook}
if [ $# -eq 0 ] && [ ! -f "$notebook/notebook.db" ]; then
  "$program" demo "$notebook"
fi

if [ -n "${DISPLAY:-}" ]; then
  exec "$program" "$notebook"
fi

bash third_party/install.sh <(printf '%s\n' xvfb xauth)
pictures=build/pictures
rm -rf "$pictures"
xvfb-run -a -s "-screen 0 1280x800x24" "$program" "$notebook" --pictures "$pictures"
echo "There is no display here, so the window was drawn into files instead."
echo "pictures: $PWD/$pictures"
echo "notebook: $PWD/$notebook"

#!/usr/bin/env bash
# Installs what is missing, builds and runs every test, and ends with `N passed, N failed`.
# usage: run.sh [PRESET]   release (the default), sanitize or threads
set -euo pipefail
umask 022 # plugins in a folder that others may write to are refused
cd "$(dirname "$0")/.."
preset=${1:-release}

bash third_party/install.sh third_party/packages.txt tests/packages.txt
cmake --preset "$preset" >/dev/null
cmake --build --preset "$preset" -- --quiet

# Libraries that ThreadSanitizer did not compile lock in ways that it cannot see.
export TSAN_OPTIONS=ignore_noninstrumented_modules=1:second_deadlock_stack=1
results=build/$preset/test-results.xml
status=0
ctest --preset "$preset" --parallel 2 --output-junit "$PWD/$results" || status=$?

count() { tr '\n\t' '  ' <"$results" | grep -o '<testsuite [^>]*' | grep -o " $1=\"[0-9]*\"" | tr -dc 0-9; }
tests=$(count tests)
failed=$(count failures)
echo "$((tests - failed)) passed, $failed failed"
[ "$tests" -gt 0 ] || status=1
exit "$status"

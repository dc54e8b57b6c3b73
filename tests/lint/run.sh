#!/usr/bin/env bash
# The long look at the code: cppcheck, then clang-tidy at every file of the program, the plugins and the
# tests by itself, by the checks of /.clang-tidy and the static analyzer of clang. It takes long; the tests
# of the sanitize build (ctest -L lint) have cppcheck, and clang-tidy over the program and the plugins.
set -euo pipefail
cd "$(dirname "$0")/../.."
bash third_party/install.sh third_party/packages.txt tests/packages.txt
cmake --preset sanitize >/dev/null
bash tests/lint/cppcheck.sh
python3 tests/lint/tidy.py build/sanitize --each --checks=clang-analyzer-* app plugins tests

#!/usr/bin/env bash
# cppcheck over all C++ of the tree; fails when it finds anything.
set -euo pipefail
cd "$(dirname "$0")/../.."
cppcheck -j2 --quiet --std=c++20 --language=c++ --enable=warning,performance,portability \
  --suppressions-list=tests/lint/cppcheck.txt --error-exitcode=1 app plugins tests

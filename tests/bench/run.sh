#!/usr/bin/env bash
# Installs what is missing, builds the benchmarks and runs them; figures go to the screen.
set -euo pipefail
umask 022
cd "$(dirname "$0")/../.."
bash third_party/install.sh third_party/packages.txt tests/packages.txt tests/bench/packages.txt
cmake --preset release >/dev/null
cmake --build --preset release --target bench -- --quiet
for program in build/release/bin/*_bench; do
  "$program" --benchmark_repetitions=5 --benchmark_report_aggregates_only=true
done

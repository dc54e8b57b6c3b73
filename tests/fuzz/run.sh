#!/usr/bin/env bash
# Coverage-guided fuzzing of every reader: `bash tests/fuzz/run.sh [SECONDS [TARGET...]]`, five minutes
# each unless told otherwise. What breaks a reader is kept in build/fuzz/TARGET/: put it, made small,
# into tests/fuzz/corpus/TARGET/found-WHAT and mend the reader. Needs clang and libclang-rt.
set -euo pipefail
cd "$(dirname "$0")/../.."
seconds=${1:-300}
shift || true
targets=("$@")
[ ${#targets[@]} -gt 0 ] || targets=(picture exif tag csv xmp number message data archive carried marked)
cmake -S tests/fuzz/build -B build/fuzz -G Ninja -DCMAKE_C_COMPILER=clang-19 \
  -DCMAKE_CXX_COMPILER=clang++-19 >/dev/null
cmake --build build/fuzz --target fuzz

export ASAN_OPTIONS=detect_leaks=0:allocator_may_return_null=1 # leaks of libraries are not ours to find
[ -w /dev/shm ] && export TMPDIR=/dev/shm # the readers of files write them first
export UBSAN_OPTIONS=print_stacktrace=1
status=0
for target in "${targets[@]}"; do
  grown=build/fuzz/$target
  mkdir -p "$grown/corpus"
  echo "== $target, $seconds s"
  FUZZ_TARGET=$target build/fuzz/fuzz -max_total_time="$seconds" -timeout=20 -rss_limit_mb=3000 \
    -max_len=20000 -artifact_prefix="$grown/" -print_final_stats=1 "$grown/corpus" \
    "tests/fuzz/corpus/$target" >"$grown/log" 2>&1 || status=1
  grep -E ' DONE |stat::number_of_executed_units|ERROR|SUMMARY|runtime error|Test unit written' "$grown/log" || true
done
exit $status

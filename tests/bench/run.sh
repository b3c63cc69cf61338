#!/usr/bin/env bash
# Measures the core and weighs the page: builds what is timed, runs it natively and in
# Node.js in turns, prints one table of ratios and writes it to docs/performance.md.
set -euo pipefail

usage='usage: ./tests/bench/run.sh [--rounds N] [--soak MINUTES]
  --rounds N      rounds of about two seconds for each program (7 when not given)
  --soak MINUTES  how long the page is used while its memory is watched (1 when not given)'

rounds=7
soak=1
while (($#)); do
  case $1 in
    --rounds) rounds=${2:-}; shift || true ;;
    --rounds=*) rounds=${1#*=} ;;
    --soak) soak=${2:-}; shift || true ;;
    --soak=*) soak=${1#*=} ;;
    -h | --help) printf '%s\n' "$usage"; exit 0 ;;
    *) printf 'error: unknown option %s\n%s\n' "$1" "$usage" >&2; exit 2 ;;
  esac
  shift || true
done
if ! [[ $rounds =~ ^[1-9][0-9]{0,2}$ ]]; then
  printf 'error: --rounds wants a number from 1 to 999.\n%s\n' "$usage" >&2
  exit 2
fi
if ! [[ $soak =~ ^[0-9]{1,3}$ ]]; then
  printf 'error: --soak wants a number from 0 to 999.\n%s\n' "$usage" >&2
  exit 2
fi

. "$(dirname "${BASH_SOURCE[0]}")/../../web/setup.sh"
cd "$project"

lock_builds
install_missing missing_build_packages missing_test_packages
fetch_sources
say "Building what is measured"
(build_native bench)
(build_wasm all bench_wasm bench_simd_wasm bare bare_lean)
unlock_builds

out=$cache/results/bench
rm -rf "$out"
mkdir -p "$out"
say "Measuring in $rounds rounds"
measured=(-r xml --benchmark-samples 100 --benchmark-warmup-time 50 --benchmark-no-analysis)
for ((round = 1; round <= rounds; ++round)); do
  build/native/bench "${measured[@]}" >"$out/native.$round.txt"
  node build/wasm/bench_wasm.js "${measured[@]}" >"$out/wasm.$round.txt"
  node build/wasm/bench_simd_wasm.js "${measured[@]}" >"$out/simd.$round.txt"
done
say "Opening the page in $rounds rounds, and using it for $soak minutes"
node tests/bench/page.mjs --site "$build/site" --bare "$build/wasm" --out "$out/page.json" \
  --rounds "$rounds" --soak "$soak"
node tests/bench/report.mjs "$out" "$build" docs/performance.md

#!/usr/bin/env bash
# Measures the core and weighs the page: builds what is timed, runs it natively and in
# Node.js, prints one table of ratios and writes it to docs/performance.md.
#   ./tests/bench/run.sh [SECONDS]   time for each program (default 4)
set -euo pipefail
seconds=${1:-4}
. "$(dirname "${BASH_SOURCE[0]}")/../../web/setup.sh"
cd "$project"

lock_builds
install_missing missing_build_packages missing_test_packages
fetch_sources
(build_native flight_bench)
(build_wasm all flight_bench_wasm bare bare_lean)
unlock_builds

out=$cache/results/bench
mkdir -p "$out"
build/native/flight_bench "$seconds" >"$out/native.txt"
node build/wasm/flight_bench_wasm.js "$seconds" >"$out/wasm.txt"
node tests/bench/report.mjs "$out" build docs/performance.md

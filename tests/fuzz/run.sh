#!/usr/bin/env bash
# Builds the fuzz targets and runs them. The last line of each says what was reached; not
# zero where one found something. Findings and new corpus lie under build/fuzzing.
set -euo pipefail

usage='usage: ./tests/fuzz/run.sh [--seconds N | --runs N] [--fast] [--random] [TARGET...]
  --seconds N  so long for each target (8 where nothing is said)
  --runs N     so many executions of each
  --fast       without the address sanitizer: for millions of executions
  --random     another seed each time; otherwise the same, and the kept corpus is left out
  TARGET       link, clearance, wind, set, progress, evaluate, session; all where none is named'

die_of_use() {
  printf 'error: %s\n%s\n' "$1" "$usage" >&2
  exit 2
}
# whole NAME VALUE: stops unless VALUE is a whole number above zero.
whole() { [[ ${2:-} =~ ^[1-9][0-9]{0,11}$ ]] || die_of_use "$1 wants a whole number, not \"${2:-}\""; }

limit=-max_total_time=8 kind=fuzz seed=7 keep=no weigh=1 targets=()
while (($#)); do
  case $1 in
    --seconds) whole "$1" "${2:-}"; limit=-max_total_time=$2; shift ;;
    --runs) whole "$1" "${2:-}"; limit=-runs=$2; shift ;;
    # Weighing inputs by their rarity took a fifth of the time.
    --fast) kind=fuzz-fast weigh=0 ;;
    --random) seed=0 keep=yes ;;
    -h | --help) printf '%s\n' "$usage"; exit 0 ;;
    -*) die_of_use "unknown option $1" ;;
    *) targets+=("$1") ;;
  esac
  shift
done

. "$(dirname "${BASH_SOURCE[0]}")/../../web/setup.sh"
cd "$project"
fuzz=tests/fuzz
known=("$fuzz"/*_fuzz.cpp)
known=("${known[@]##*/}")
known=("${known[@]%_fuzz.cpp}")
((${#targets[@]})) || targets=("${known[@]}")
for target in "${targets[@]}"; do
  [ -e "$fuzz/${target}_fuzz.cpp" ] || die_of_use "no target \"$target\"; there are: ${known[*]}"
done

# Inside tests/run.sh what is wanted is there and locked already.
if [ -z "${HOLD_LOCKED:-}" ]; then
  lock_builds
  install_missing missing_build_packages missing_check_packages
  fetch_sources
  build_checked "$kind" "${targets[@]/%/_fuzz}"
  unlock_builds
fi

# Leaks and over-long inputs are findings too. A run of 10 s is taken for one without end.
export ASAN_OPTIONS=${ASAN_OPTIONS:-detect_leaks=1:detect_stack_use_after_return=0}
status=0
for target in "${targets[@]}"; do
  place=$build/fuzzing/$target
  mkdir -p "$place/corpus" "$place/findings"
  rm -rf "$place/run"
  mkdir "$place/run"
  corpora=("$place/run" "$fuzz/corpus/$target")
  if [ $keep = yes ]; then corpora=("$place/corpus" "$fuzz/corpus/$target"); fi
  log=$place/$kind.log
  began=$SECONDS
  code=0
  "$build/$kind/${target}_fuzz" -seed=$seed $limit -max_len=4096 -timeout=10 -rss_limit_mb=1024 \
    -entropic=$weigh -dict="$fuzz/$target.dict" -artifact_prefix="$place/findings/" -print_final_stats=1 \
    -verbosity=1 "${corpora[@]}" >"$log" 2>&1 || code=$?
  executions=$(sed -n 's/^stat::number_of_executed_units: *//p' "$log" | tail -n 1)
  edges=$(sed -n 's/.* cov: \([0-9]*\) .*/\1/p' "$log" | tail -n 1)
  took=$((SECONDS - began))
  say "$target: ${executions:-0} executions, $((${executions:-0} / (took > 0 ? took : 1))) a second, ${edges:-0} edges, $took s"
  if ((code == 72)); then
    say "$target: interrupted; --random goes on from the corpus"
    exit 1
  elif ((code != 0)); then
    status=1
    grep -E -A 12 'does not hold|ERROR|runtime error|SUMMARY|Assertion' "$log" | head -n 30 >&2 || true
    say "$target: found something; the input lies in $place/findings, all of the words in $log"
  elif ((${executions:-0} == 0)); then
    say "$target: nothing was run"
    status=1
  fi
done
exit $status

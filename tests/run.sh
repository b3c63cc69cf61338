#!/usr/bin/env bash
# Sets up what is missing, builds everything and runs every test. The last line counts
# them: "N passed, N failed". Not zero where a test failed or a suite ran none.
set -euo pipefail

usage='usage: ./tests/run.sh [--quick | --long]
  --quick  leave out clang-format, clang-tidy, cppcheck, the type check of the JavaScript,
           fuzzing, counted steps, sanitizers and checked memory
  --long   besides: fuzz each target for five minutes, hold properties and words to a million
           scenarios, run all tests as WebAssembly that checks its memory, build the page
           twice and compare; takes hours'

quick=no long=no
while (($#)); do
  case $1 in
    --quick) quick=yes ;;
    --long) long=yes ;;
    -h | --help) printf '%s\n' "$usage"; exit 0 ;;
    *) printf 'error: unknown option %s\n%s\n' "$1" "$usage" >&2; exit 2 ;;
  esac
  shift
done

. "$(dirname "${BASH_SOURCE[0]}")/../web/setup.sh"
cd "$project"
browser_tests=tests/browser
results=$cache/results
passed=0 failed=0 skipped=0

# count NAME PASSED FAILED [SKIPPED]: a suite that ran nothing has failed.
count() {
  local name=$1 p=$2 f=$3 s=${4:-0}
  if ((p + f == 0)); then
    say "$name: no test ran"
    f=1
  fi
  say "$name: $p passed, $f failed$( ((s == 0)) || printf ', %s skipped' "$s") (${SECONDS}s since the start)"
  passed=$((passed + p)) failed=$((failed + f)) skipped=$((skipped + s))
}

# check NAME COMMAND...: one test that passes where the command does.
check() {
  local name=$1
  shift
  if "$@"; then count "$name" 1 0; else count "$name" 0 1; fi
}

# --- set-up of the tests alone ---------------------------------------------------

install_node_modules() {
  local want have_now
  want=$(sha256sum <"$browser_tests/package-lock.json")
  have_now=$(cat "$browser_tests/node_modules/.pin" 2>/dev/null || true)
  [ "$want" != "$have_now" ] || return 0
  say "Installing the test tools that $browser_tests/package-lock.json pins"
  need_space 300
  npm ci --prefix "$browser_tests" --ignore-scripts --no-audit --no-fund --loglevel=error ||
    die "npm could not install the test tools: is there a network connection?"
  printf '%s\n' "$want" >"$browser_tests/node_modules/.pin"
}

# --- lint ------------------------------------------------------------------------

check_format() {
  local files=(core/*.cpp core/*.h web/*.cpp web/*.h tests/*.cpp tests/*.h tests/*/*.cpp tests/*/*.h)
  local file clean=yes
  for file in "${files[@]}"; do
    clang-format "$file" | cmp -s - "$file" || {
      say "not formatted: $file (clang-format -i puts it right)"
      clean=no
    }
  done
  [ $clean = yes ]
}

# tidy FILE: clang-tidy, unless the same text of it and of what it includes was clean before.
tidy() {
  local file=$1 key
  key=$({
    clang-tidy --version
    cat .clang-tidy CMakeLists.txt
    g++ -std=c++20 -I. -Ibuild/native/generated -MM "$file" | tr -d '\\' | tr ' ' '\n' |
      grep -E '\.(cpp|h|inc)$' | sort | xargs cat
  } | sha256sum | cut -c1-40)
  [ ! -e "$cache/tidy/$key" ] || return 0
  clang-tidy --quiet -p build/native "$file" 2>/dev/null && touch "$cache/tidy/$key"
}

check_tidy() {
  mkdir -p "$cache/tidy"
  export -f tidy
  export cache
  local files=() file
  for file in core/*.cpp web/*.cpp; do
    case $file in web/view*) ;; *) files+=("$file") ;; esac
  done
  printf '%s\0' "${files[@]}" | xargs -0 -n 1 -P 2 bash -c 'tidy "$1"' _
}

# cppcheck keeps what it found in each file by the file's content. tests/cppcheck.txt has what is
# let pass, and why.
check_cppcheck() {
  mkdir -p "$cache/cppcheck"
  local files=() file
  for file in web/*.cpp; do
    case $file in web/view*) ;; *) files+=("$file") ;; esac
  done
  nice cppcheck --quiet -j 2 --std=c++20 --language=c++ --inline-suppr --error-exitcode=1 \
    --enable=warning,style,performance,portability --cppcheck-build-dir="$cache/cppcheck" \
    --suppressions-list=tests/cppcheck.txt -I . \
    --template='{file}:{line}: {severity} {id}: {message}' core "${files[@]}"
}

check_types() { node "$browser_tests/node_modules/typescript/bin/tsc" -p "$browser_tests"; }

# --- suites ----------------------------------------------------------------------

# run_catch2 NAME COMMAND...: runs a Catch2 program; what it found is left for count_catch2.
run_catch2() {
  local report=$results/$1.xml ended=$results/$1.ended colour=default
  shift
  [ -t 1 ] || colour=none
  rm -f "$report" "$ended"
  if "$@" --colour-mode "$colour" --reporter console --reporter "xml::out=$report"; then
    echo well >"$ended"
  fi
}

# count_catch2 NAME: counts the test cases of a program that ran.
count_catch2() {
  local name=$1 line
  line=$(grep -o '<OverallResultsCases [^>]*>' "$results/$name.xml" 2>/dev/null | tail -n 1) || true
  of_cases() { sed -n "s/.* $1=\"\([0-9]*\)\".*/\1/p" <<<"$line"; }
  if [ -z "$line" ]; then
    say "$name: stopped before its end"
    count "$name" 0 1
  elif [ ! -e "$results/$name.ended" ] && (($(of_cases failures) == 0)); then
    say "$name: ended with an error"
    count "$name" "$(of_cases successes)" 1
  else
    count "$name" "$(($(of_cases successes) + $(of_cases expectedFailures)))" "$(of_cases failures)" "$(of_cases skips)"
  fi
}

# run_browser_tests FILE...: runs those files by Node's own test runner that nobody has begun, one
# after the other. What they found is left for count_browser_tests.
run_browser_tests() {
  local file report
  for file; do
    report=$results/browser/${file##*/}
    mkdir "$report" 2>/dev/null || continue
    if node --test --test-reporter=spec --test-reporter-destination=stdout \
      --test-reporter=tap --test-reporter-destination="$report/tap" "$file"; then
      echo well >"$report/ended"
    fi
  done
}

# count_browser_tests FILE...
count_browser_tests() {
  local file report p=0 f=0 s=0 failures
  of_tests() { sed -n "s/^# $1 \([0-9]*\)$/\1/p" "$report/tap" | tail -n 1; }
  for file; do
    report=$results/browser/${file##*/}
    if ! grep -q '^# cancelled ' "$report/tap" 2>/dev/null; then
      say "${file##*/}: stopped before its end"
      f=$((f + 1))
      continue
    fi
    failures=$(($(of_tests fail) + $(of_tests cancelled)))
    if [ ! -e "$report/ended" ] && ((failures == 0)); then failures=1; fi
    if ((failures > 0)); then say "${file##*/}: $failures failed"; fi
    p=$((p + $(of_tests pass))) f=$((f + failures)) s=$((s + $(of_tests skipped) + $(of_tests todo)))
  done
  count browser $p $f $s
}

# in_background: what needs one core for minutes, beside the browser's tests, and then the last of
# those, so that neither core waits for the other. What it finds is counted by count_background.
in_background() {
  checks_in_background
  local last=() file
  for file in "${browser[@]}"; do last=("$file" "${last[@]}"); done
  run_browser_tests "${last[@]}"
}

checks_in_background() {
  local target
  run_catch2 wasm node build/wasm/core_tests_wasm.js
  [ $quick = no ] || return 0
  # As WebAssembly that checks each load and store: slow, hence not all of them.
  local some=('[link],[session],[json],[golden]')
  [ $long = no ] || some=()
  run_catch2 checked node build/wasm/core_tests_checked.js "${some[@]}"
  run_catch2 sanitized build/sanitized/core_tests
  for target in "${fuzz_targets[@]}"; do
    rm -f "$results/fuzz-$target.ended"
    # Counted, not timed: the same from its seeds wherever it is run.
    local so_far=(--runs "${fuzz_runs[$target]:-1000}")
    [ $long = no ] || so_far=(--seconds 300)
    if HOLD_LOCKED=yes tests/fuzz/run.sh "${so_far[@]}" "$target"; then
      echo well >"$results/fuzz-$target.ended"
    fi
  done
  if [ $long = yes ]; then run_catch2 million build/native/core_tests '[.million]'; fi
}

count_background() {
  local target
  count_catch2 wasm
  [ $quick = no ] || return 0
  count_catch2 checked
  count_catch2 sanitized
  for target in "${fuzz_targets[@]}"; do check "fuzz-$target" test -e "$results/fuzz-$target.ended"; done
  if [ $long = yes ]; then count_catch2 million; fi
}

list_of_sources() { node web/sources.mjs --program build/native/sources_list --check docs/sources.md; }

# --- all of it -------------------------------------------------------------------

lock_builds
install_missing missing_build_packages missing_test_packages missing_check_packages
fetch_sources
install_node_modules
mkdir -p "$results"

if [ $quick = no ]; then
  check clang-format check_format
  check types check_types
fi

say "Building for this machine and for the browser"
native_targets=(core_tests sources_list)
[ $quick = yes ] || native_targets+=(work_tests)
if (build_native "${native_targets[@]}"); then
  # Before the page is built, which writes the file anew.
  check "docs/sources.md is what the tables say" list_of_sources
  HOLD_RESULTS=$results/answers.json HOLD_PICTURES=$results/pictures.json run_catch2 native build/native/core_tests
  count_catch2 native
  if [ $quick = no ]; then
    check clang-tidy check_tidy
    check cppcheck check_cppcheck
    run_catch2 work build/native/work_tests
    count_catch2 work
  fi
else
  count native-build 0 1
fi

# Executions of each fuzz target, some seconds' worth.
declare -A fuzz_runs=([clearance]=12000 [evaluate]=400 [link]=40000 [progress]=10000 [session]=700 [set]=40000 [wind]=40000)
fuzz_targets=()
if [ $quick = no ]; then
  fuzz_targets=(tests/fuzz/*_fuzz.cpp)
  fuzz_targets=("${fuzz_targets[@]##*/}")
  fuzz_targets=("${fuzz_targets[@]%_fuzz.cpp}")
  (build_checked sanitized core_tests && build_checked fuzz) || count checked-build 0 1
fi

# en-XA: the page in the language made up for language.test.mjs.
wasm_targets=(all core_tests_wasm site_en-XA)
[ $quick = yes ] || wasm_targets+=(core_tests_checked core_checked_wasm)
if (build_wasm "${wasm_targets[@]}"); then
  export SITE=$build/site
  browser=(tests/browser/*.test.mjs)
  if [ -n "${BROWSER_TESTS:-}" ]; then # "handles fields": of the browser's only these
    read -ra browser <<<"$BROWSER_TESTS"
    browser=("${browser[@]/#/tests/browser/}")
    browser=("${browser[@]/%/.test.mjs}")
  fi
  rm -rf "$results/browser"
  mkdir "$results/browser"
  in_background >"$results/background.log" 2>&1 &
  background=$!
  check "docs/sources.md is the same from WebAssembly" list_of_sources
  check native-against-module node tests/compare-results.mjs \
    "$results/answers.json" "$build/site/core.mjs" "$results/pictures.json"
  [ $quick = yes ] || check "the core that checks its memory" node tests/checked-core.mjs \
    "$results/answers.json" "$build/site/core.mjs" build/wasm/core-checked.wasm
  [ $quick = yes ] || check "what is linked is what is named" node tests/linked.mjs build/wasm
  run_browser_tests "${browser[@]}"
  wait "$background" || true
  cat "$results/background.log"
  count_browser_tests "${browser[@]}"
  count_background
else
  count wasm-build 0 1
fi
unlock_builds
[ $long = no ] || check "two builds of the page are the same" ./tests/reproducible.sh

((skipped == 0)) || say "$skipped skipped; each says why above"
printf '\n%s\n' "$passed passed, $failed failed"
((failed == 0 && passed > 0))

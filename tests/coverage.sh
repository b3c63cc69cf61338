#!/usr/bin/env bash
# How much of core/ the native tests run: lines, and both ways of every condition. Counted by
# clang in the source as it is written, so optimising changes nothing, and -fno-exceptions
# leaves no branch that nobody wrote. Not zero where a total is below its floor.
set -euo pipefail

usage='usage: ./tests/coverage.sh [--list] [TEST ...]
  --list  and every line and branch that was not run
  TEST    of the tests only these, as Catch2 is told ("[plan]"); no floors then'

floors=(--lines 98 --branches 90)
list=()
tests=()
while (($#)); do
  case $1 in
    --list) list=(--list) ;;
    -h | --help) printf '%s\n' "$usage"; exit 0 ;;
    -*) printf 'error: unknown option %s\n%s\n' "$1" "$usage" >&2; exit 2 ;;
    *) tests+=("$1") floors=() ;;
  esac
  shift
done

. "$(dirname "${BASH_SOURCE[0]}")/../web/setup.sh"
cd "$project"
tree=$build/coverage

# tool NAME: LLVM's program of that name, whatever version Debian has.
tool() {
  local found=("$(command -v "$1" || true)" "/usr/bin/$1"-[0-9]*)
  [ -n "${found[0]}" ] || found=("${found[@]:1}")
  ((${#found[@]})) || die "$1 is missing. Install it: apt-get install clang llvm"
  printf '%s\n' "${found[0]}"
}
clang=$(tool clang)
profdata=$(tool llvm-profdata)
cov=$(tool llvm-cov)

lock_builds
install_missing missing_build_packages missing_test_packages
fetch_sources
need_space 500
CC=$clang CXX=${clang/clang/clang++} configure coverage cmake \
  "-DCORE_MORE_FLAGS=-fprofile-instr-generate;-fcoverage-mapping" -DCMAKE_EXE_LINKER_FLAGS=-fprofile-instr-generate
run_ninja coverage core_tests
unlock_builds

say "Running the tests"
LLVM_PROFILE_FILE=$tree/core.profraw nice "$tree/core_tests" --colour-mode none "${tests[@]}" >"$tree/tests.log" ||
  { tail -n 30 "$tree/tests.log" >&2; die "the tests fail."; }
tail -n 3 "$tree/tests.log"
"$profdata" merge -sparse "$tree/core.profraw" -o "$tree/core.profdata"
"$cov" export "$tree/core_tests" "-instr-profile=$tree/core.profdata" "$project/core" >"$tree/coverage.json" 2>"$tree/cov.log" ||
  { tail "$tree/cov.log" >&2; die "the counts could not be read."; }
node tests/coverage.mjs "$tree/coverage.json" "${floors[@]}" "${list[@]}"

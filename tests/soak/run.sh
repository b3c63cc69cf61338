#!/usr/bin/env bash
# Lets a monkey use the built page for a long time, in each engine after the other, and prints a table:
# gestures by chance, and after each burst of them what must always be so.
set -euo pipefail

usage='usage: ./tests/soak/run.sh [--minutes N] [--engine chromium|firefox|webkit] [--seed N] [--crashes N]
  --minutes N  for each engine (30 when not given)
  --engine E   this one alone
  --seed N     the same gestures again (1 when not given)
  --crashes N  go on when a browser has ended by itself, so often (0 when not given); each is told'

minutes=30 seed=1 engine= crashes=0
while (($#)); do
  case $1 in
    --minutes) minutes=${2:-}; shift || true ;;
    --minutes=*) minutes=${1#*=} ;;
    --engine) engine=${2:-}; shift || true ;;
    --engine=*) engine=${1#*=} ;;
    --seed) seed=${2:-}; shift || true ;;
    --seed=*) seed=${1#*=} ;;
    --crashes) crashes=${2:-}; shift || true ;;
    --crashes=*) crashes=${1#*=} ;;
    -h | --help) printf '%s\n' "$usage"; exit 0 ;;
    *) printf 'error: unknown option %s\n%s\n' "$1" "$usage" >&2; exit 2 ;;
  esac
  shift || true
done
wrong() {
  printf 'error: %s\n%s\n' "$1" "$usage" >&2
  exit 2
}
[[ $minutes =~ ^[1-9][0-9]{0,3}$ ]] || wrong '--minutes wants a whole number from 1 to 9999.'
[[ $seed =~ ^[0-9]{1,9}$ ]] || wrong '--seed wants a whole number from 0 to 999999999.'
[[ $crashes =~ ^[0-9]{1,3}$ ]] || wrong '--crashes wants a whole number from 0 to 999.'
[[ $engine =~ ^(|chromium|firefox|webkit)$ ]] || wrong "--engine: $engine is none of chromium, firefox, webkit."

project=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
[ -e "$project/tests/browser/node_modules" ] || wrong 'the test tools are not there; ./tests/run.sh fetches them.'
[ -e "$project/build/site/index.html" ] || "$project/web/serve.sh" --build-only
exec nice node "$project/tests/soak/monkey.mjs" --minutes "$minutes" --seed "$seed" --crashes "$crashes" ${engine:+--engine "$engine"}

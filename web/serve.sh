#!/usr/bin/env bash
# Sets up what is missing, builds the page and serves it on this machine.
set -euo pipefail

usage='usage: ./web/serve.sh [--build-only] [--lang XX] [--port N]
  --build-only  stop after the build; the page is in build/site/
  --lang XX     the page in the language of assets/words/XX.json, in build/XX/site/
  --port N      port on 127.0.0.1 (8080 when not given)'

port=8080
build_only=no
lang=en
while (($#)); do
  case $1 in
    --build-only) build_only=yes ;;
    --lang) lang=${2:-}; shift || true ;;
    --lang=*) lang=${1#*=} ;;
    --port) port=${2:-}; shift || true ;;
    --port=*) port=${1#*=} ;;
    -h | --help) printf '%s\n' "$usage"; exit 0 ;;
    *) printf 'error: unknown option %s\n%s\n' "$1" "$usage" >&2; exit 2 ;;
  esac
  shift || true
done
if ! [[ $port =~ ^[0-9]{1,5}$ ]] || ((10#$port < 1 || 10#$port > 65535)); then
  printf 'error: --port wants a number from 1 to 65535.\n%s\n' "$usage" >&2
  exit 2
fi

. "$(dirname "${BASH_SOURCE[0]}")/setup.sh"

if ! [[ $lang =~ ^[A-Za-z0-9-]+$ ]] || [ ! -f "$project/assets/words/$lang.json" ]; then
  die "there is no assets/words/$lang.json. Languages: $(cd "$project/assets/words" && echo *.json | sed 's/\.json//g')"
fi
site=site
target=all
if [ "$lang" != en ]; then
  site=$lang/site
  target=site_$lang
fi

# Said before the build, not after it; the server checks again.
if [ $build_only = no ] && (exec 3<>"/dev/tcp/127.0.0.1/$port") 2>/dev/null; then
  die "port $port on 127.0.0.1 is taken. Choose another: ./web/serve.sh --port $((10#$port + 1))"
fi

lock_builds
install_missing missing_build_packages
fetch_sources
build_wasm "$target"
unlock_builds

if [ $build_only = yes ]; then
  say "The page is built: build/$site/"
else
  exec node "$project/web/serve.mjs" --port "$port" "$build/$site"
fi

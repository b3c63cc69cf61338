#!/usr/bin/env bash
# Builds and tests the project on a machine that has nothing of it: a clean Debian 12 root,
# made by debootstrap, with git and certificates besides, and a clone of what is committed
# here. The archive, and what this machine needs to reach it, are taken from its own
# configuration. Wants root, since a root folder of one's own does.
set -euo pipefail

usage='usage: ./tests/fresh-machine.sh [--page | --some | --quick | --all] [--browser "NAME ..."] [--root FOLDER] [--keep]
  --page            build the page and stop
  --some            and run the native tests, and those of the browser that --browser names
  --quick           and run the tests without lint and types
  --all             and run all tests (when nothing is given)
  --browser NAMES   of the browser tests only these, "handles fields" for example
  --root FOLDER     where the clean root is made (build/fresh-machine/root)
  --keep            leave the root there afterwards'

what=all
browser=
root=
keep=no
while (($#)); do
  case $1 in
    --page | --some | --quick | --all) what=${1#--} ;;
    --browser) browser=${2:-}; shift || true ;;
    --root) root=${2:-}; shift || true ;;
    --keep) keep=yes ;;
    -h | --help) printf '%s\n' "$usage"; exit 0 ;;
    *) printf 'error: unknown option %s\n%s\n' "$1" "$usage" >&2; exit 2 ;;
  esac
  shift || true
done

. "$(dirname "${BASH_SOURCE[0]}")/../web/setup.sh"

suite=bookworm
root=${root:-$build/fresh-machine/root}
log=$build/fresh-machine.log
rows=()

((EUID == 0)) || die "this makes a root folder of its own, which needs root."
have debootstrap || die "debootstrap is missing. Install it: apt-get install debootstrap"
have unshare || die "unshare (package util-linux) is missing."
[ ! -e "$root" ] || die "$root is there already. Name another folder with --root, or remove it."
need_space 8000
mkdir -p "$(dirname "$root")"
root=$(cd "$(dirname "$root")" && pwd)/$(basename "$root")

# Mounts are made in a namespace of the commands' own and end with it; the folder is left.
clean_up() {
  if [ $keep = yes ]; then
    say "The root stays: $root"
  elif grep -q " $root/" /proc/self/mounts; then
    say "Something is still mounted under $root: it stays."
  else
    rm -rf --one-file-system "$root"
    rmdir "$build/fresh-machine" 2>/dev/null || true
  fi
}
trap clean_up EXIT

: >"$log"

# step NAME COMMAND...: runs it into the log, and notes how it ended and how long it took.
step() {
  local name=$1 begin=$SECONDS ended=well
  shift
  say "$name ..."
  printf '\n=== %s\n' "$name" >>"$log"
  # Not a condition: inside, a command that fails is to end the step.
  set +e
  (
    set -e
    "$@"
  ) >>"$log" 2>&1 </dev/null
  (($? == 0)) || ended="with an error"
  set -e
  rows+=("$(printf '%-52s %6s s  %s' "$name" "$((SECONDS - begin))" "$ended")")
  [ "$ended" = well ] || {
    tail -n 30 "$log" >&2
    finish 1
  }
}

# finish STATUS: what there is to say at the end.
finish() {
  printf '\nDebian %s, %s processors\n' "$(cat "$root/etc/debian_version" 2>/dev/null || echo '?')" "$(nproc)"
  printf '%s\n' "${rows[@]}"
  grep -E '^[A-Za-z].*: [0-9]+ passed, [0-9]+ failed|^[0-9]+ (passed|skipped)|^(test cases|All tests)|^. (pass|fail|skipped) [0-9]' "$log" || true
  say "The whole log: build/fresh-machine.log"
  exit "$1"
}

# What reaches the archive and the package registry from here: entries, keys, certificates,
# proxies, names of machines. Names of hosts stay on this machine.
make_root() {
  local entry uri key
  entry=$(source_entry "$suite") || die "no Debian entry was found in apt's configuration."
  uri=$(sed -n 's/^URIs: //p' <<<"$entry")
  key=$(sed -n 's/^[Ss]igned-[Bb]y: *//p' <<<"$entry" | head -n 1)
  local options=(--variant=minbase --include=git,ca-certificates)
  [ ! -f "$key" ] || options+=("--keyring=$key")
  debootstrap "${options[@]}" "$suite" "$root" "$uri"

  rm -f "$root/etc/apt/sources.list"
  sed 's/^Types: .*/Types: deb/' <<<"$entry" >"$root/etc/apt/sources.list.d/debian.sources"
  [ ! -f "$key" ] || install -D -m 644 "$key" "$root$key"
  apt-config dump | grep -E '^Acquire::(http|https|ftp)::(Proxy|CAInfo|Verify)' >"$root/etc/apt/apt.conf.d/90-as-outside" || true
  local certificates=(/usr/local/share/ca-certificates/*)
  ((${#certificates[@]} == 0)) || cp -r "${certificates[@]}" "$root/usr/local/share/ca-certificates/"
  chroot "$root" update-ca-certificates
  [ ! -r /etc/ssl/certs/ca-certificates.crt ] ||
    cp -L /etc/ssl/certs/ca-certificates.crt "$root/etc/ssl/certs/ca-certificates.crt"
  for file in /etc/resolv.conf /etc/hosts; do cp -L "$file" "$root$file"; done
}

clone_project() {
  git clone --quiet --no-hardlinks --single-branch "$project" "$root/home/lesson"
  git -C "$root/home/lesson" log -1 --format='commit %h of %cd'
}

# inside COMMAND...: in the clean root, in the clone, as root, with nothing of this shell.
inside() {
  local setting settings=(HOME=/root LANG=C.UTF-8 PATH=/usr/sbin:/usr/bin:/sbin:/bin
    NODE_EXTRA_CA_CERTS=/etc/ssl/certs/ca-certificates.crt SSL_CERT_FILE=/etc/ssl/certs/ca-certificates.crt
    npm_config_cafile=/etc/ssl/certs/ca-certificates.crt)
  for setting in http_proxy https_proxy no_proxy HTTP_PROXY HTTPS_PROXY NO_PROXY; do
    [ -z "${!setting:-}" ] || settings+=("$setting=${!setting}")
  done
  if have npm; then settings+=("npm_config_registry=$(npm config get registry)"); fi
  [ -z "$browser" ] || settings+=("BROWSER_TESTS=$browser")
  # shellcheck disable=SC2016
  unshare --mount --pid --fork --kill-child bash -ec '
    root=$1
    shift
    mount --make-rprivate /
    mount -t proc proc "$root/proc"
    mount --rbind /sys "$root/sys"
    mount --rbind /dev "$root/dev"
    exec chroot "$root" "$@"' _ "$root" env -i "${settings[@]}" \
    bash -c 'cd /home/lesson && exec "$@"' _ "$@"
}

# Parts of tests/run.sh, where all of it would take too long.
native_tests='. web/setup.sh
  lock_builds
  install_missing missing_build_packages missing_test_packages
  build_native core_tests
  nice build/native/core_tests --colour-mode none'
browser_tests='npm ci --prefix tests/browser --ignore-scripts --no-audit --no-fund --loglevel=error
  cd tests/browser
  files=()
  for name; do files+=("$name.test.mjs"); done
  SITE=../../build/site nice node --test --test-reporter=spec "${files[@]}"'

step "A clean Debian root" make_root
step "The clone" clone_project
step "web/serve.sh --build-only" inside ./web/serve.sh --build-only
# Where this machine has built the same commit, both pages are one.
if [ -f "$build/site/index.html" ] && [ -z "$(git -C "$project" status --porcelain)" ]; then
  said=no
  ! diff -rq "$build/site" "$root/home/lesson/build/site" >>"$log" || said=yes
  rows+=("$(printf '%-52s %6s' "The same page as in build/site here" "$said")")
fi
case $what in
  some)
    step "The native tests" inside bash -euc "$native_tests"
    read -ra names <<<"${browser:-contents handles}"
    step "Browser tests: ${names[*]}" inside bash -euc "$browser_tests" _ "${names[@]}"
    ;;
  quick) step "tests/run.sh --quick" inside ./tests/run.sh --quick ;;
  all) step "tests/run.sh" inside ./tests/run.sh ;;
esac
rows+=("$(printf '%-52s %6s MB' "The root at the end" "$(du -smx "$root" | cut -f1)")")
finish 0

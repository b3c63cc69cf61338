#!/usr/bin/env bash
# Builds the page twice, from two clones of what is committed here, and compares byte by byte
# all that leaves the build. The clones lie in folders of different length and depth, and the
# second build has another time zone, language, umask and number of jobs.
set -euo pipefail

usage='usage: ./tests/reproducible.sh [--one] [--keep]
  --one   one clone alone, compared with what is in build/ here, brought up to date
  --keep  leave both builds in build/reproducible/'

keep=no
one=no
while (($#)); do
  case $1 in
    --one) one=yes ;;
    --keep) keep=yes ;;
    -h | --help) printf '%s\n' "$usage"; exit 0 ;;
    *) printf 'error: unknown option %s\n%s\n' "$1" "$usage" >&2; exit 2 ;;
  esac
  shift
done

. "$(dirname "${BASH_SOURCE[0]}")/../web/setup.sh"
place=$build/reproducible
first=$place/a
second=$place/a-much-longer.name/of/a_folder/farther+down
rm -rf "$place"
mkdir -p "$place"
clean_up() { [ $keep = yes ] || rm -rf "$place"; }
trap clean_up EXIT

lock_builds
install_missing missing_build_packages
fetch_sources
unlock_builds
need_space 1500

# clone FOLDER: what is committed, with the sources that were fetched and checked already.
clone() {
  mkdir -p "$(dirname "$1")"
  git clone --quiet --no-hardlinks "$project" "$1"
  mkdir "$1/.cache"
  cp -r "$cache/downloads" "$1/.cache/"
}

# sums FOLDER: all that leaves a build, with checksums.
sums() {
  (cd "$1/build" && find site module lesson-offline.html lesson-scorm12.zip -type f -print0 |
    LC_ALL=C sort -z | xargs -0 sha256sum)
}

# A compiler's cache would hand the second build what the first made.
unset CMAKE_C_COMPILER_LAUNCHER CMAKE_CXX_COMPILER_LAUNCHER SOURCE_DATE_EPOCH
export CCACHE_DISABLE=1

say "Building"
if [ $one = yes ]; then
  [ -z "$(git -C "$project" status --porcelain)" ] || die "with --one, commit first: the clone has what is committed."
  first=$project
else
  clone "$first"
fi
"$first/web/serve.sh" --build-only >/dev/null
clone "$second"
(
  umask 077
  export TZ=Pacific/Kiritimati LC_ALL=C LANG=C NINJA_STATUS=
  . "$second/web/setup.sh"
  lock_builds
  fetch_sources
  use_debian_acorn
  configure wasm emcmake cmake
  run_ninja wasm -j 3
)
sums "$first" >"$place/first.txt"
sums "$second" >"$place/second.txt"
if ! diff "$place/first.txt" "$place/second.txt"; then
  keep=yes
  die "the two builds differ, see above. Both are left in build/reproducible/."
fi
say "$(wc -l <"$place/first.txt") files, the same in both builds"

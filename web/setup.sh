# Shared by web/serve.sh and tests/run.sh (sourced, not run): installs what is
# missing from Debian, fetches and checks the pinned sources, builds.
#
# Everything that is fetched or built lies in .cache/ and build/, which git ignores.
# Each step works in a temporary place and moves its result into position when it is
# whole, so an interrupted run is never taken for a finished one.
# shellcheck shell=bash disable=SC2034

set -euo pipefail
shopt -s nullglob

project=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
cache=$project/.cache
build=$project/build

say() { printf '%s\n' "$*"; }
die() {
  printf 'error: %s\n' "$*" >&2
  exit 1
}

free_mb() { df -Pk "$project" | awk 'NR == 2 { print int($4 / 1024) }'; }

# A step that failed on a full disk says so, whatever the tool's own words were.
explain_failure() {
  local status=$?
  if (($(free_mb) < 50)); then
    printf 'error: the disk that holds %s is full (%s MB left).\n' "$project" "$(free_mb)" >&2
  fi
  exit "$status"
}
trap explain_failure ERR
set -E

# need_space MB: stop before a step that cannot fit.
need_space() {
  local left
  left=$(free_mb)
  ((left >= $1)) || die "this step needs about $1 MB of disk and only $left MB are left on the disk that holds the project."
}

# Two commands started side by side must not build in the same folders at once.
lock_builds() {
  mkdir -p "$cache" || die "cannot write to $project."
  exec 9>"$cache/lock"
  if ! flock -n 9; then
    say "Waiting for another set-up or build of this project to end ..."
    flock 9
  fi
}
unlock_builds() { exec 9>&-; }

# --- Debian packages -----------------------------------------------------------

have() { command -v "$1" >/dev/null 2>&1; }

node_is_new_enough() {
  have node && node -e 'process.exit(parseInt(process.versions.node) >= 18 ? 0 : 1)'
}

# Names of the Debian packages that the build lacks, one a line.
missing_build_packages() {
  have em++ || echo emscripten
  have cmake || echo cmake
  have ninja || echo ninja-build
  have xz || echo xz-utils
  { have wasm-split && have wasm-dis; } || echo binaryen
  have esbuild || echo esbuild
  node_is_new_enough || echo nodejs
}

# What the tests want besides.
missing_test_packages() {
  have g++ || echo g++
  have clang-format || echo clang-format
  have clang-tidy || echo clang-tidy
  [ -e /usr/include/boost/numeric/odeint.hpp ] || echo libboost-dev
  have chromium || echo chromium
  have firefox-esr || echo firefox-esr
  have WebKitWebDriver || echo webkit2gtk-driver
  have Xvfb || echo xvfb
  have xmllint || echo libxml2-utils
  have npm || echo npm
}

# What looks for mistakes: fuzzing, the sanitized tests, the analyser.
missing_check_packages() {
  have clang++ || echo clang
  have llvm-symbolizer || echo llvm
  # The libraries of the sanitizers and the fuzzer lie beside clang's own.
  [ -n "$(find /usr/lib/llvm-*/lib/clang -name 'libclang_rt.fuzzer-*.a' -print -quit 2>/dev/null)" ] ||
    echo libclang-rt-14-dev
  have cppcheck || echo cppcheck
}

# as_root COMMAND...: runs it as it is for root, through sudo for anyone else.
as_root() {
  if ((EUID == 0)); then
    "$@"
  elif have sudo; then
    sudo "$@"
  else
    die "this needs root, and there is no sudo here. As root, run: apt-get install$missing_text"
  fi
}

# install_missing LISTER...: installs what the listers name, saying what beforehand.
install_missing() {
  local lister missing=() still
  for lister in "$@"; do
    mapfile -t -O "${#missing[@]}" missing < <("$lister")
  done
  ((${#missing[@]})) || return 0
  missing_text=$(printf ' %s' "${missing[@]}")
  say "Missing from this machine; to be installed from Debian:$missing_text"
  have apt-get || die "this machine has no apt-get. Install by hand:$missing_text"
  need_space 2500
  local quiet=(-qq -o DPkg::Lock::Timeout=300 -o Acquire::Retries=3)
  as_root apt-get "${quiet[@]}" -o APT::Update::Error-Mode=any update ||
    die "apt-get could not reach the package archive: is there a network connection?"
  as_root env DEBIAN_FRONTEND=noninteractive apt-get "${quiet[@]}" -o Dpkg::Use-Pty=0 \
    install -y --no-install-recommends "${missing[@]}" >"$cache/apt-install.log" 2>&1 || {
    tail -n 15 "$cache/apt-install.log" >&2
    die "apt-get could not install:$missing_text"
  }
  hash -r
  for lister in "$@"; do
    still=$("$lister")
    [ -z "$still" ] || die "still missing after the installation: ${still//$'\n'/ }"
  done
}

# emcc's JavaScript passes need the acorn module. A node that is not Debian's does not
# look for it where Debian's emscripten package puts it.
use_debian_acorn() {
  local folder
  folder=$(dpkg -L node-acorn 2>/dev/null | sed -n 's#/acorn$##p' | head -n 1) || true
  [ -z "$folder" ] || export NODE_PATH=${NODE_PATH:+$NODE_PATH:}$folder
}

# --- Pinned sources ------------------------------------------------------------

# The enabled "deb" entries of apt's configuration for a plain Debian suite with "main",
# one a line: URI, a tab, then its other fields with \001 for each line's end. Reads both
# forms that apt reads.
apt_entries() {
  local list parts
  eval "$(apt-config shell list Dir::Etc::SourceList/f parts Dir::Etc::SourceParts/d)"
  local plain='(^|[ \t:])(bookworm|trixie|forky|sid|(old)?stable|testing|unstable)([ \t]|$)'
  local files=("$parts"/*.sources)
  # Stanzas end with a blank line; a field goes on where a line starts with a space.
  ((${#files[@]} == 0)) || awk -v plain="$plain" '
    function finish() {
      if (deb && suite && main && !off) print uri "\t" keep
      deb = suite = main = off = 0
      keep = uri = field = ""
    }
    FNR == 1 { finish() }
    /^#/ { next }
    /^[ \t]*$/ { finish(); next }
    !/^[ \t]/ { field = tolower($0); sub(/:.*/, "", field) }
    field == "types" { deb = deb || /[ \t:]deb([ \t]|$)/; next }
    field == "suites" { suite = suite || $0 ~ plain; next }
    field == "components" { main = main || /[ \t:]main([ \t]|$)/; next }
    field == "enabled" { off = tolower($0) ~ /:[ \t]*(no|false|off|without|disable|0)/; next }
    field == "uris" && uri == "" { uri = $2 == "" ? $1 : $2; if (uri ~ /:$/) uri = ""; next }
    field ~ /^(uris|architectures|languages|targets)$/ { next }
    { keep = keep $0 "\001" }
    END { finish() }' "${files[@]}"
  # deb [signed-by=KEY other=VALUE] URI SUITE COMPONENT...
  files=("$parts"/*.list)
  [ ! -r "$list" ] || files=("$list" "${files[@]}")
  ((${#files[@]} == 0)) || awk -v plain="$plain" '
    $1 != "deb" { next }
    {
      sub(/#.*/, "")
      sub(/^[ \t]*deb[ \t]+/, "")
      options = keep = ""
      if (/^\[/) {
        options = substr($0, 2, index($0, "]") - 2)
        $0 = substr($0, index($0, "]") + 1)
      }
      if ($1 ~ /^cdrom:/ || $2 !~ plain || !/[ \t]main([ \t]|$)/) next
      n = split(options, option, /[ \t]+/)
      for (i = 1; i <= n; i++) {
        at = index(option[i], "=")
        if (at && option[i] !~ /^(arch|lang|target)/)
          keep = keep substr(option[i], 1, at - 1) ": " substr(option[i], at + 1) "\001"
      }
      print $1 "\t" keep
    }' "${files[@]}"
}

# source_entry SUITES: the machine's own Debian entry, made one for sources of SUITES.
source_entry() {
  local entries entry
  entries=$(apt_entries)
  # Other vendors serve Debian suites too; Debian's own archive ends in "debian".
  entry=$(grep -m 1 -E $'^[^\t]*debian(\.list)?/?\t' <<<"$entries" || head -n 1 <<<"$entries")
  [ -n "$entry" ] || return 1
  printf 'Types: deb-src\nURIs: %s\nSuites: %s\nComponents: main\n' "${entry%%$'\t'*}" "$1"
  tr '\001' '\n' <<<"${entry#*$'\t'}"
}

# pins: the lines of sources.txt without its comments.
pins() { sed '/^#/d; /^[[:space:]]*$/d' "$project/web/sources.txt"; }

# True where every pinned source is unpacked.
sources_are_there() {
  local name package version suite file folder sha
  while read -r name package version suite file folder sha; do
    [ "$(cat "$cache/src/$folder/.pin" 2>/dev/null)" = "$sha" ] || return 1
  done < <(pins)
}

is_intact() { [ -f "$1" ] && printf '%s  %s\n' "$2" "$1" | sha256sum --check --status -; }

# Downloads what is missing through a private apt folder, so that nothing of the
# machine's own configuration changes and no root is needed.
download_sources() {
  local name package version suite file folder sha wanted=()
  while read -r name package version suite file folder sha; do
    is_intact "$cache/downloads/$file" "$sha" || wanted+=("$package=$version")
  done < <(pins)
  ((${#wanted[@]})) || return 0

  say "Fetching sources from the Debian source archive: ${wanted[*]}"
  have apt-get || die "this machine has no apt-get to fetch the sources with."
  local apt=$cache/apt
  rm -rf "$apt"
  mkdir -p "$apt/parts" "$apt/lists" "$apt/archives" "$apt/new"
  local suites
  suites=$(pins | awk '{ print $4 }' | sort -u | xargs)
  source_entry "$suites" >"$apt/parts/debian.sources" ||
    die "no Debian entry was found in apt's configuration to fetch the sources from."
  cat >"$apt/apt.conf" <<CONF
Dir::Etc::SourceList "/dev/null";
Dir::Etc::SourceParts "$apt/parts";
Dir::State::Lists "$apt/lists";
Dir::Cache "$apt";
APT::Sandbox::User "$(id -un)";
APT::Update::Error-Mode "any";
Acquire::Retries "3";
Acquire::Languages "none";
#clear APT::Update::Pre-Invoke;
#clear APT::Update::Post-Invoke;
#clear APT::Update::Post-Invoke-Success;
CONF
  apt-get -qq -c "$apt/apt.conf" update ||
    die "the source archive could not be reached: is there a network connection?"
  (cd "$apt/new" && apt-get -qq -c "$apt/apt.conf" source --download-only --tar-only "${wanted[@]}") ||
    die "these sources could not be fetched: ${wanted[*]}"
  mkdir -p "$cache/downloads"
  while read -r name package version suite file folder sha; do
    [ -f "$apt/new/$file" ] || continue
    is_intact "$apt/new/$file" "$sha" ||
      die "$file does not have the SHA-256 that web/sources.txt expects. Nothing of it was used."
    mv "$apt/new/$file" "$cache/downloads/"
  done < <(pins)
  rm -rf "$apt"
}

# Unpacks every pinned source into .cache/src, from a checked download.
fetch_sources() {
  sources_are_there && return 0
  need_space 700
  download_sources
  local name package version suite file folder sha
  mkdir -p "$cache/src"
  while read -r name package version suite file folder sha; do
    [ "$(cat "$cache/src/$folder/.pin" 2>/dev/null)" != "$sha" ] || continue
    is_intact "$cache/downloads/$file" "$sha" || die "$file was not fetched, or is damaged."
    rm -rf "$cache/unpack"
    mkdir "$cache/unpack"
    tar -xf "$cache/downloads/$file" -C "$cache/unpack" --no-same-owner
    printf '%s\n' "$sha" >"$cache/unpack/$folder/.pin"
    rm -rf "${cache:?}/src/$folder"
    mv "$cache/unpack/$folder" "$cache/src/$folder"
    rm -rf "$cache/unpack"
  done < <(pins)
}

# --- Building ------------------------------------------------------------------

# configure TREE COMMAND...: runs CMake for build/TREE unless it already did; after
# that Ninja itself runs CMake again where a CMake file changed.
configure() {
  local tree=$build/$1
  shift
  [ -f "$tree/build.ninja" ] && [ -f "$tree/.configured" ] && return 0
  rm -rf "$tree"
  mkdir -p "$tree"
  "$@" -S "$project" -B "$tree" -G Ninja -DCMAKE_BUILD_TYPE=Release \
    -DCMAKE_EXPORT_COMPILE_COMMANDS=ON >"$tree/configure.log" 2>&1 || {
    tail -n 30 "$tree/configure.log" >&2
    die "CMake could not set up $tree."
  }
  touch "$tree/.configured"
}

# run_ninja TREE [TARGET...]: one moving line at a terminal, elsewhere only what goes wrong.
run_ninja() {
  local tree=$build/$1
  shift
  if [ -t 1 ]; then
    nice ninja -C "$tree" "$@"
  else
    nice ninja -C "$tree" --quiet "$@" | sed '/^ninja: no work to do/d'
  fi || {
    (($(free_mb) >= 50)) || die "the build failed: the disk that holds the project is full."
    die "the build failed; the messages are above."
  }
}

build_wasm() {
  [ -f "$build/site/index.html" ] || say "Building the page; the first time takes about two minutes"
  use_debian_acorn
  need_space 300
  configure wasm emcmake cmake
  run_ninja wasm "$@"
}

build_native() {
  need_space 300
  configure native cmake
  run_ninja native "$@"
}

# build_checked KIND [TARGET...]: a tree of web/cmake/checked.cmake, build/KIND.
build_checked() {
  local kind=$1
  shift
  need_space 500
  configure "$kind" cmake -DCMAKE_C_COMPILER=clang -DCMAKE_CXX_COMPILER=clang++ -DCHECKED="$kind"
  run_ninja "$kind" "$@"
}

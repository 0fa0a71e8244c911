# shellcheck shell=bash disable=SC2034
# Sourced by the scripts: what building and testing need, and how it gets onto this machine.
# Package names are those of Debian 12 and later, and of Ubuntu.

build_packages=(
  g++ cmake
  libz3-dev libglpk-dev libeigen3-dev libgmp-dev libboost-dev
  libcli11-dev libtomlplusplus-dev nlohmann-json3-dev libfmt-dev
  libpango1.0-dev libcairo2-dev pkg-config fonts-dejavu-core
)
command -v ninja >/dev/null || command -v make >/dev/null || build_packages+=(ninja-build)
test_packages=(
  catch2 python3 python3-jsonschema coinor-cbc cvc5
  python3-pil python3-numpy poppler-utils librsvg2-bin chromium fonts-noto-core fonts-noto-cjk
)
lint_packages=(clang-format clang-tidy)

# need PACKAGE...: all of them are installed afterwards, or the script ends with status 2 and the list of
# those that are wanted.
need() {
  local missing=() package as_root=()
  for package in "$@"; do
    [ "$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null)" = installed ] || missing+=("$package")
  done
  [ ${#missing[@]} -gt 0 ] || return 0

  if [ "$(id -u)" -ne 0 ]; then as_root=(sudo -n); fi
  if ! command -v apt-get >/dev/null || ! "${as_root[@]}" true 2>/dev/null; then
    echo "These Debian packages are wanted, and may not be installed from here:" >&2
    echo "  ${missing[*]}" >&2
    echo "With the right to install: apt-get install ${missing[*]}" >&2
    exit 2
  fi
  echo "Installing ${missing[*]}" >&2
  as_root+=(env DEBIAN_FRONTEND=noninteractive)
  # What the machine knows of packages may be old, or nothing yet; one source that is down need not matter.
  local install=("${as_root[@]}" apt-get -qy --no-install-recommends install "${missing[@]}")
  if ! "${install[@]}" >/dev/null 2>&1 </dev/null; then
    "${as_root[@]}" apt-get -q update >/dev/null 2>&1 </dev/null || true
    quietly "${install[@]}"
  fi
}

# quietly COMMAND...: its output is shown only when it fails, and then the script ends with status 2.
quietly() {
  local log
  log=$(mktemp)
  if ! "$@" >"$log" 2>&1 </dev/null; then
    cat "$log" >&2
    rm -f "$log"
    echo "This did not work: $*" >&2
    exit 2
  fi
  rm -f "$log"
}

# is_set_up ROOT: ROOT/build was made for this place, whole.
is_set_up() {
  local build=$1/build
  { [ -e "$build/build.ninja" ] || [ -e "$build/Makefile" ]; } &&
    grep -qxF "CMAKE_HOME_DIRECTORY:INTERNAL=$1" "$build/CMakeCache.txt" 2>/dev/null
}

# set_up ROOT [CMAKE ARGUMENT...]: makes ROOT/build a Release build, afresh unless it is one already.
set_up() {
  local root=$1 how=()
  shift
  if ! is_set_up "$root"; then
    how=(--fresh)
    if command -v ninja >/dev/null; then how+=(-G Ninja); fi
  fi
  quietly cmake -S "$root" -B "$root/build" "${how[@]}" -DCMAKE_BUILD_TYPE=Release "$@"
}

# build ROOT [CMAKE ARGUMENT...]: builds what has changed.
build() {
  local root=$1
  shift
  quietly cmake --build "$root/build" --parallel "$(nproc)" "$@"
}

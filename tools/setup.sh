# Read by ./run, ./test and .ci/run: finds the Debian packages that are missing and installs them.
# Not for: anything but packages; nothing outside the system's package manager is asked.

build_packages=(cmake ninja-build g++ libfmt-dev nlohmann-json3-dev libcli11-dev libexpected-dev libeigen3-dev
  libdxflib-dev libsuitesparse-dev qt6-base-dev libgl-dev)
test_packages=(libgtest-dev libgmock-dev librapidcheck-dev python3 python3-jsonschema help2man)
check_packages=(clang-16 clang-tidy-16 clang-format-16)

say() { printf '%s\n' "$*" >&2; }

# need PACKAGE ...: installs those that are not there; a sentence and exit 1 where that is not possible.
need() {
  if ! command -v dpkg-query >/dev/null; then
    say "This is no Debian system, so nothing was installed. The build needs what these Debian 12 packages hold:"
    say "  $*"
    return 0
  fi
  local missing=() package
  for package in "$@"; do
    [ "$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null)" = installed ] || missing+=("$package")
  done
  ((${#missing[@]})) || return 0
  local become=()
  if [ "$(id -u)" != 0 ]; then
    if ! command -v sudo >/dev/null; then
      say "Missing packages: ${missing[*]}"
      say "Neither root nor sudo is here; ask an administrator for: apt-get install ${missing[*]}"
      exit 1
    fi
    become=(sudo)
  fi
  say "Installing ${#missing[@]} missing Debian packages: ${missing[*]}"
  # Only what is asked for: recommended packages would triple the download.
  local log
  log=$(mktemp)
  if ! { "${become[@]}" apt-get update -qq &&
    "${become[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends \
      "${missing[@]}"; } >"$log" 2>&1; then
    tail -n 15 "$log" >&2
    rm -f "$log"
    say "The packages could not be installed; the last lines above say why."
    exit 1
  fi
  rm -f "$log"
}

# configure PRESET [OPTION ...]: configures once, quietly; the whole log is shown where it fails.
configure() {
  local preset=$1 log
  shift
  log=$(mktemp)
  if ! cmake --preset "$preset" "$@" >"$log" 2>&1; then
    cat "$log" >&2
    rm -f "$log"
    say "The build could not be configured; the lines above say why."
    exit 1
  fi
  rm -f "$log"
}

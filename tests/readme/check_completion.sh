#!/usr/bin/env bash
# The completion script is valid bash and completes commands and options.
set -euo pipefail
program=$1
eval "$("$program" completion)"
complete_words() {
  COMP_WORDS=("$@")
  COMP_CWORD=$(($# - 1))
  COMPREPLY=()
  _kerfdraft
  printf '%s ' "${COMPREPLY[@]}"
}
expect() {
  local want=$1 got
  shift
  got=$(complete_words "$@")
  [ "$got" = "$want " ] || { echo "\"$*\" completes to \"$got\" instead of \"$want\""; exit 1; }
}
expect "solve" kerfdraft sol
expect "--gate-sets" kerfdraft solve --gat
expect "--search" kerfdraft catalogue --se
echo "completes commands and options"

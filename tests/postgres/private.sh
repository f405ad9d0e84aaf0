#!/bin/bash
# private.sh begin FOLDER   starts a PostgreSQL of the tests' own, reachable by a socket only, without syncing to disk;
#                           its address goes to FOLDER/address. One that was left there is ended first.
# private.sh end FOLDER     ends and removes it
# private.sh again FOLDER   kills it in the middle of whatever it does, and starts it again
set -euo pipefail
what=${1:?begin, end or again}
folder=${2:?a folder}
programs=$(ls -d /usr/lib/postgresql/*/bin | sort -V | tail -n 1)

# PostgreSQL does not run as root.
as_postgres() {
  if [[ $(id -u) == 0 ]]; then runuser -u postgres -- "$@"; else "$@"; fi
}

end() {
  [[ -e $folder/place ]] || return 0
  local place
  place=$(cat "$folder/place")
  as_postgres "$programs/pg_ctl" -D "$place/data" -m immediate -w stop >/dev/null 2>&1 || true
  rm -rf "$place" "$folder/place" "$folder/address"
}

start() {
  as_postgres "$programs/pg_ctl" -D "$1/data" -l "$1/log" -w -o \
    "-k $1 -c listen_addresses='' -c fsync=off -c full_page_writes=off -c max_connections=200" start >>"$folder/log" </dev/null
}

again() {
  local place
  place=$(cat "$folder/place")
  as_postgres "$programs/pg_ctl" -D "$place/data" -m immediate -w stop >>"$folder/log"
  start "$place"
}

begin() {
  mkdir -p "$folder"
  local place
  place=$(mktemp -d /tmp/hw_postgres_XXXXXX)
  echo "$place" >"$folder/place"
  [[ $(id -u) != 0 ]] || chown postgres "$place"
  as_postgres "$programs/initdb" -D "$place/data" -U hourwright -A trust --encoding=UTF8 --locale=C.UTF-8 --no-sync >"$folder/log"
  start "$place"
  chmod 755 "$place"
  as_postgres "$programs/createuser" -h "$place" -U hourwright shop
  echo "postgresql:///postgres?host=$place&user=hourwright" >"$folder/address"
}

case $what in
  begin) end && begin ;;
  again) again ;;
  *) end ;;
esac

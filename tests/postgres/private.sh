#!/bin/bash
# private.sh begin FOLDER   starts a PostgreSQL of the tests' own, reachable by a socket only, without syncing to disk;
#                           its address goes to FOLDER/address. One that was left there is ended first.
# private.sh end FOLDER     ends and removes it
set -euo pipefail
what=${1:?begin or end}
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

begin() {
  mkdir -p "$folder"
  local place
  place=$(mktemp -d /tmp/hw_postgres_XXXXXX)
  echo "$place" >"$folder/place"
  [[ $(id -u) != 0 ]] || chown postgres "$place"
  as_postgres "$programs/initdb" -D "$place/data" -U hourwright -A trust --encoding=UTF8 --locale=C.UTF-8 --no-sync >"$folder/log"
  as_postgres "$programs/pg_ctl" -D "$place/data" -l "$place/log" -w -o \
    "-k $place -c listen_addresses='' -c fsync=off -c full_page_writes=off -c max_connections=200" start >>"$folder/log" </dev/null
  chmod 755 "$place"
  as_postgres "$programs/createuser" -h "$place" -U hourwright shop
  echo "postgresql:///postgres?host=$place&user=hourwright" >"$folder/address"
}

end
if [[ $what == begin ]]; then begin; fi

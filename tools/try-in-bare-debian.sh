#!/bin/bash
# try-in-bare-debian.sh [--keep] [TARGET...]: makes a bare Debian 12 in a folder, clones the last commit into it and
# runs `make TARGET` there as root (default: build, then build again, then test), each with its time. --keep leaves the
# folder for a look.
#
# BARE_ROOT  the folder (default /tmp/hourwright-bare); BARE_BASE  a bare root made before, copied instead of a new one.
set -euo pipefail
cd "$(dirname "$0")/.."

keep=no
if [[ ${1-} == --keep ]]; then
  keep=yes
  shift
fi
targets=("$@")
((${#targets[@]})) || targets=(build build test)
readonly root=${BARE_ROOT:-/tmp/hourwright-bare}

. tools/bare_debian.sh
begin_root git make ca-certificates
echo "bare Debian in $root; git and make are what a person has before the clone"
git clone -q --no-hardlinks . "$root/root/hourwright"

failed=0
for target in "${targets[@]}"; do
  begin=$SECONDS
  inside "cd /root/hourwright && make $target" && result=done || { result=FAILED && failed=1; }
  echo "== make $target: $result after $((SECONDS - begin)) s"
done
exit "$failed"

#!/bin/bash
# Builds app/ into app/dist/, unless nothing that it is made of has changed. Vite writes into a folder that is emptied
# first, so a failed build leaves no digest behind and is made again.
set -euo pipefail
cd "$(dirname "$0")/.."
[[ -e app/package.json ]] || exit 0

digest=$(cd app && find . ../library/drawings.json \( -name node_modules -o -name dist \) -prune -o -type f -print0 |
  sort -z | xargs -0 sha256sum | sha256sum)
readonly stamp=build/app.digest
[[ -e app/dist/index.html && $(cat "$stamp" 2>/dev/null) == "$digest" ]] && exit
rm -f "$stamp"
npm run --prefix app build
mkdir -p build
echo "$digest" >"$stamp"

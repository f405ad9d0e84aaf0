#!/bin/bash
# format.sh --write | --check: lays out all code with clang-format and, for the app, Prettier, or says which is not so.
set -uo pipefail
cd "$(dirname "$0")/.."
cpp() { git ls-files -z --cached --others --exclude-standard -- '*.cpp' '*.h' | xargs -0 -r ls -d 2>/dev/null | tr '\n' '\0'; }
case ${1-} in
  --write)
    cpp | xargs -0 -r clang-format-14 -i
    [[ ! -e app/package.json ]] || (cd app && npm run --silent format)
    ;;
  --check) cpp | xargs -0 -r clang-format-14 --dry-run -Werror ;;
  *)
    echo "format.sh --write | --check" >&2
    exit 2
    ;;
esac

#!/bin/bash
# try-package.sh: installs build/hourwright_*.deb in a bare Debian 12, founds a shop and serves it as the package's user,
# upgrades, removes and purges, and looks at each step whether it is as it should be. As root, with debootstrap.
# BARE_ROOT, BARE_BASE: see tools/bare_debian.sh.
set -euo pipefail
cd "$(dirname "$0")/.."

readonly root=${BARE_ROOT:-/tmp/hourwright-package}
keep=no
. tools/bare_debian.sh

passed=0
# holds WHAT COMMAND: the command, inside, says yes.
holds() {
  inside "$2" >"$root.last" 2>&1 || {
    cat "$root.last" >&2
    refuse "not so: $1"
  }
  passed=$((passed + 1))
  echo "ok  $1"
}

# The package again, as if it were of that version.
package_as() {
  local made=$root/root/made
  rm -rf "$made" && dpkg-deb -R build/hourwright_*.deb "$made"
  sed -i "s/^Version: .*/Version: $1/" "$made/DEBIAN/control"
  dpkg-deb -b "$made" "$root/root/hourwright-$1.deb" >/dev/null
  rm -rf "$made"
}

as_user="runuser -u hourwright --"
serve="$as_user hourwright serve >/tmp/served 2>&1 & served=\$!; trap 'kill \$served' EXIT
  for i in \$(seq 100); do grep -q 'is at' /tmp/served && break; sleep 0.1; done"

begin_root ca-certificates curl
package_as 0.1.0
package_as 0.1.1

holds "it is installed without a question" "cd /root && DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends ./hourwright-0.1.0.deb </dev/null"
holds "the user and its folder are there, for nobody else" "[ \"\$(stat -c '%U %a' /var/lib/hourwright)\" = 'hourwright 700' ]"
holds "the settings are where they are looked for" "hourwright config show --origin | grep 'data = \"/var/lib/hourwright\" *# /etc/hourwright/hourwright.toml, line'"
holds "a shop is founded" "cp /usr/share/hourwright/demo/shop.toml /tmp && $as_user hourwright found --data /var/lib/hourwright --shop /tmp/shop.toml"
holds "it is served with its pages" "$serve; curl -fsS http://127.0.0.1:8470/readyz | grep '\"ready\":true' && curl -fsS http://127.0.0.1:8470/ | grep -i '<title>'"
holds "a sheet is printed with the fonts that came along" "$as_user hourwright labels --data /var/lib/hourwright --base http://shop.example:8470 /tmp/labels.pdf && head -c 5 /tmp/labels.pdf | grep PDF"
holds "the settings that somebody changed stay, and a copy is made before an upgrade" "echo '# ours' >>/etc/hourwright/hourwright.toml && cd /root && DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends ./hourwright-0.1.1.deb </dev/null && grep '# ours' /etc/hourwright/hourwright.toml && $as_user hourwright backup verify /var/lib/hourwright/before-upgrade-from-0.1.0.copy"
holds "the shop is served as before" "$serve; curl -fsS http://127.0.0.1:8470/readyz | grep '\"ready\":true'"
holds "without a copy nothing is upgraded" "chmod 0500 /var/lib/hourwright; chown root /var/lib/hourwright; cd /root && ! DEBIAN_FRONTEND=noninteractive dpkg -i ./hourwright-0.1.1.deb; result=\$?; chown hourwright /var/lib/hourwright; chmod 0700 /var/lib/hourwright; exit \$result"
holds "removed and purged, the shop's data stay" "apt-get purge -y -q hourwright && [ -f /var/lib/hourwright/hourwright.db ] && [ ! -e /usr/bin/hourwright ]"
echo "$passed passed"

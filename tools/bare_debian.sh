# To be read by a script (`. tools/bare_debian.sh`): a bare Debian 12 in the folder $root, and commands in it. As root, with
# debootstrap installed. Where packages come from, which proxy leads there and which certificates are trusted is taken
# from this machine; nothing of it is kept in the repository.
# BARE_BASE: a bare root made before, copied instead of a new one.

refuse() {
  echo "$(basename "$0"): $*" >&2
  exit 1
}

release_mounts() {
  local mount
  for mount in proc dev/shm dev; do ! mountpoint -q "$root/$mount" || umount --lazy "$root/$mount"; done
}

tidy_up() {
  release_mounts
  [[ $keep == yes ]] && echo "left in $root" || rm -rf --one-file-system "$root"
}

make_root() {
  if [[ -n ${BARE_BASE-} ]]; then
    cp -a "$BARE_BASE" "$root"
  else
    local mirror
    mirror=$(apt-get indextargets --format '$(REPO_URI)' 'Created-By: Packages' 'Suite: bookworm' | head -n 1)
    debootstrap --variant=minbase bookworm "$root" ${mirror:+"$mirror"} >"$root.log" 2>&1 ||
      refuse "debootstrap failed; see $root.log"
  fi
}

# How this machine reaches packages: apt's sources and proxies, name resolution, trusted certificates, npm's registry.
copy_network_settings() {
  rm -f "$root"/etc/apt/sources.list "$root"/etc/apt/sources.list.d/*
  cp /etc/apt/sources.list.d/debian.sources "$root/etc/apt/sources.list.d/" 2>/dev/null ||
    cp /etc/apt/sources.list "$root/etc/apt/"
  (grep -lE 'Acquire::(https?::|Check)' /etc/apt/apt.conf.d/* || true) | xargs -r cp -t "$root/etc/apt/apt.conf.d/"
  cp /etc/resolv.conf /etc/hosts "$root/etc/"
  mkdir -p "$root/usr/local/share/ca-certificates"
  cp /usr/local/share/ca-certificates/*.crt "$root/usr/local/share/ca-certificates/" 2>/dev/null || true
}

mount_kernel_folders() {
  mount -t proc proc "$root/proc"
  mount -t tmpfs -o mode=755 tmpfs "$root/dev"
  local device
  for device in "null 3" "zero 5" "full 7" "random 8" "urandom 9"; do
    mknod -m 666 "$root/dev/${device% *}" c 1 "${device#* }"
  done
  ln -s /proc/self/fd "$root/dev/fd"
  mkdir -m 1777 "$root/dev/shm"
  mount -t tmpfs tmpfs "$root/dev/shm"
}

# inside COMMAND: with nothing of this machine's environment but how to get at packages.
inside() {
  local passed=() name
  for name in http_proxy https_proxy no_proxy HTTP_PROXY HTTPS_PROXY NO_PROXY NODE_EXTRA_CA_CERTS; do
    [[ -z ${!name-} ]] || passed+=("$name=${!name}")
  done
  chroot "$root" env -i HOME=/root LANG=C.UTF-8 PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin \
    "${passed[@]}" bash -c "$1"
}

# Makes it, with these packages besides; gone when the script ends, unless $keep is yes.
begin_root() {
  [[ $(id -u) == 0 ]] || refuse "needs root for chroot and mounts"
  [[ ! -e $root ]] || refuse "$root is there already; remove it or name another folder in BARE_ROOT"
  trap tidy_up EXIT
  make_root
  copy_network_settings
  mount_kernel_folders
  inside "apt-get update -q && apt-get install -y -q --no-install-recommends $*" >"$root.log" 2>&1 ||
    refuse "$* could not be installed; see $root.log"
}

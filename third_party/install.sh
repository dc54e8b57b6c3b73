#!/usr/bin/env bash
# Installs the Debian packages named in the given lists that are not there yet.
# usage: install.sh LIST...   (a list holds one package a line)
set -euo pipefail

missing=()
while read -r package; do
  [ -n "$package" ] || continue
  state=$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null || true)
  [ "$state" = installed ] || missing+=("$package")
done < <(cat "$@")
[ ${#missing[@]} -gt 0 ] || exit 0

as_root=()
if [ "$(id -u)" -ne 0 ]; then
  if ! command -v sudo >/dev/null; then
    echo "Fettlebook needs these Debian packages, and without root rights they cannot be installed from here: ${missing[*]}" >&2
    exit 1
  fi
  as_root=(sudo)
fi
if ! command -v apt-get >/dev/null; then
  echo "Fettlebook builds on Debian 12 or a system with apt-get; install these by hand: ${missing[*]}" >&2
  exit 1
fi
echo "Installing ${#missing[@]} Debian packages: ${missing[*]}"
log=$(mktemp)
trap 'rm -f "$log"' EXIT
if ! { "${as_root[@]}" apt-get update -qq &&
       "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive \
         apt-get install -y -qq --no-install-recommends "${missing[@]}"; } >"$log" 2>&1; then
  tail -n 5 "$log" >&2
  echo "The packages could not be installed; mend what apt-get says above, then run this again: ${missing[*]}" >&2
  exit 1
fi

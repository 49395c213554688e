#!/bin/sh
# The browser and the other programs that the tests need: installed by apt as root, else named.
set -eu
missing=""
command -v chromium >/dev/null 2>&1 || missing="$missing chromium"
command -v node >/dev/null 2>&1 || missing="$missing nodejs"
command -v firefox-esr >/dev/null 2>&1 || missing="$missing firefox-esr"
command -v npm >/dev/null 2>&1 || missing="$missing npm"
command -v java >/dev/null 2>&1 || missing="$missing default-jre-headless"
[ -z "$missing" ] && exit 0
if [ "$(id -u)" -ne 0 ]; then
  echo "The tests need these Debian packages:$missing. Install them as root: apt-get install$missing" >&2
  exit 1
fi
apt-get update -qq
DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing >/dev/null

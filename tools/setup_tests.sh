#!/usr/bin/env bash
# Install what the tests need beside Python: PostgreSQL, which they start themselves on a free port, and Chromium,
# in which the workbench's journeys are done.
# Without the rights to install, those tests are skipped and say so; with CI=true they fail.
set -euo pipefail

have_postgres() { compgen -G '/usr/lib/postgresql/*/bin/initdb' >/dev/null || command -v initdb >/dev/null; }

if ! have_postgres; then
  if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; then
    echo "PostgreSQL is missing: installing it for the tests"
    { apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq postgresql >/dev/null; } \
      || echo "warning: PostgreSQL could not be installed"
  else
    echo "warning: PostgreSQL is missing, its tests are skipped"; echo "hint: sudo apt-get install postgresql"
  fi
fi

have_chromium() { command -v chromium >/dev/null || command -v chromium-browser >/dev/null || command -v google-chrome >/dev/null; }

if ! have_chromium; then
  if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; then
    echo "Chromium is missing: installing it for the journeys"
    { apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq chromium >/dev/null; } \
      || echo "warning: Chromium could not be installed"
  else
    echo "warning: Chromium is missing, the journeys are skipped"; echo "hint: sudo apt-get install chromium"
  fi
fi

# The page's types are checked in CI only; a user needs no Node.
if [ "${CI:-}" = true ] && [ ! -x tools/page/node_modules/.bin/tsc ]; then
  if ! command -v npm >/dev/null && [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; then
    echo "npm is missing: installing it for the page's types"
    { apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq nodejs npm >/dev/null; } \
      || echo "warning: npm could not be installed"
  fi
  npm install --prefix tools/page --no-save --no-package-lock --no-audit --no-fund --silent typescript@5.9.3 \
    || echo "warning: the TypeScript compiler could not be installed"
fi

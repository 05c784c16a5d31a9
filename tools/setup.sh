#!/usr/bin/env bash
# Make the virtual environment and install the pinned packages and halfdrop itself into it.
set -euo pipefail
venv=$1
python=${PYTHON:-python3}

command -v "$python" >/dev/null || { echo "error: no $python here"; echo "hint: sudo apt-get install python3 python3-venv"; exit 2; }
"$python" - <<'PY' || { echo "hint: set PYTHON to a newer one: make test PYTHON=python3.12"; exit 2; }
import sys
if sys.version_info < (3, 11):
    sys.exit(f"error: Python is {sys.version.split()[0]}; 3.11 or newer is needed")
PY

if ! "$python" -c 'import ensurepip, venv' 2>/dev/null; then
  if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; then
    echo "python3-venv is missing: installing it"
    apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq python3-venv >/dev/null
  else
    echo "error: Python's venv module is missing"; echo "hint: sudo apt-get install python3-venv"; exit 2
  fi
fi

[ -x "$venv/bin/python" ] || "$python" -m venv "$venv"
"$venv/bin/pip" install --quiet --disable-pip-version-check --require-hashes -r requirements.lock
"$venv/bin/pip" install --quiet --disable-pip-version-check --no-deps --no-build-isolation -e .

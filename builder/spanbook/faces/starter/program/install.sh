#!/bin/sh
# Makes a virtual environment and installs the program in it: sh program/install.sh FOLDER
# What it needs comes from the registry, each file by its hash (dependencies.txt). The program itself comes from
# where source.txt says, by a hash or by a full commit, and never from a registry by its name.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
if ! grep -q '^[^#]' "$here/source.txt"; then
  echo "program/source.txt does not say where the program comes from. 'spanbook program SOURCE' writes it." >&2
  exit 1
fi
python3 -m venv "$1"
python=$(cd "$1" && pwd)/bin/python
cd "$here"
"$python" -m pip install --quiet --disable-pip-version-check --require-hashes --only-binary :all: \
  --requirement dependencies.txt
"$python" -m pip install --quiet --disable-pip-version-check --no-index --no-deps --no-build-isolation \
  --requirement source.txt

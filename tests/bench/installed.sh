#!/bin/sh
# The wheel and the sdist in clean environments, with the lowest and the newest dependencies, with libcairo and without.
#
#     sh tests/bench/installed.sh [PYTHON ...]
#
# Each line: which Python, what was installed with which dependencies, what `make` of a pouch gave with libcairo and
# without (the library hidden in a mount namespace of its own; "not tried" where the system allows none).
# At its end the licences of all that is installed. Downloads through pip's own index.
set -eu
cd "$(dirname "$0")/../.."
top=$(mktemp -d)
trap 'rm -rf "$top"' EXIT
[ $# -gt 0 ] || set -- python3
"$1" -m venv "$top/tools" && "$top/tools/bin/pip" install -q --disable-pip-version-check uv build
# What setuptools leaves behind beside the code stays out of the tree.
mkdir "$top/tree" && git archive HEAD | tar x -C "$top/tree"
"$top/tools/bin/python" -m build -q -o "$top/dist" "$top/tree" 2>"$top/log" || { tail -5 "$top/log"; exit 1; }
pattern=$PWD/gallery/spectacle-pouch/pattern.toml
cairo=$(ldconfig -p | sed -n 's/.*libcairo\.so\.2.* => //p' | head -1)

files() { ls "$1" 2>/dev/null | sed 's/.*\.//' | sort | uniq -c | awk '{printf "%s %s, ", $1, $2}' | sed 's/, $//'; }

tried() {  # environment
  cd "$top" && rm -rf with without
  "$1/bin/hookfold" make "$pattern" -o with >"$top/log" 2>&1 && given=$(files with) || given="failed: $(tail -1 "$top/log")"
  if [ -n "$cairo" ] && unshare -m true 2>/dev/null; then
    unshare -m sh -c "mount --bind /dev/null '$cairo' && '$1/bin/hookfold' make '$pattern' -o without" >"$top/log" 2>&1 &&
      bare=$(files without) || bare="failed: $(tail -1 "$top/log")"
  else bare="not tried"; fi
  echo "with libcairo: $given; without: $bare"
}

for python in "$@"; do
  for built in "$top"/dist/*.whl "$top"/dist/*.tar.gz; do
    for which in lowest-direct highest; do
      rm -rf "$top/env" && "$python" -m venv "$top/env"
      printf '%s, %s, %s: ' "$("$python" -V)" "${built##*.}" "$which"
      "$top/tools/bin/uv" pip install -q --python "$top/env/bin/python" --resolution "$which" "$built" >"$top/log" 2>&1 ||
        { echo "not installed: $(tail -1 "$top/log")"; continue; }
      tried "$top/env"
    done
  done
done
"$top/env/bin/python" - <<'PY'
from importlib.metadata import distributions

for found in sorted(distributions(), key=lambda d: d.name.lower()):
    meta = found.metadata
    named = [c.split(" :: ")[-1] for c in meta.get_all("Classifier", []) if c.startswith("License ::")]
    says = meta.get("License-Expression") or ", ".join(named) or (meta.get("License") or "?").splitlines()[0][:60]
    print(f"| {found.name} {found.version} | {says} |")
PY

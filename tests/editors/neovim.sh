#!/usr/bin/env bash
# A real editor, Neovim, meets the server: it opens a sample with a slip in it, is shown the finding and a hover, applies
# a quick fix, and saves. Prints what it saw; fails if any of it is missing.
#
#     cargo build && tests/editors/neovim.sh [target/debug/tamis]

set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
program=$(realpath "${1:-$root/target/debug/tamis}")

if ! command -v nvim >/dev/null; then
    sudo=(); [ "$(id -u)" -eq 0 ] || sudo=(sudo)
    "${sudo[@]}" apt-get update -qq
    DEBIAN_FRONTEND=noninteractive "${sudo[@]}" apt-get install -y -qq --no-install-recommends neovim
fi

desk=$(mktemp -d)
trap 'rm -rf "$desk"' EXIT
# The walnuts of this sample go into no step (samples/mistakes/EXPECTED.tsv).
cp "$root/samples/mistakes/carrot-tea-bread.tamis" "$desk/"

nvim --version | head -n 1
# XDG folders of its own: nothing of the user's is read, nothing of ours is left.
XDG_CONFIG_HOME=$desk XDG_DATA_HOME=$desk XDG_STATE_HOME=$desk XDG_CACHE_HOME=$desk TAMIS=$program \
    timeout 120 nvim --headless -n -u NONE -i NONE "$desk/carrot-tea-bread.tamis" \
    -c "luafile $root/tests/editors/neovim.lua"

echo "and on the command line, after saving:"
if "$program" check --output json "$desk/carrot-tea-bread.tamis" | grep -q '"ingredient-unused"'; then
    echo "  the walnuts are still unused" >&2
    exit 1
fi
echo "  the walnuts are used"

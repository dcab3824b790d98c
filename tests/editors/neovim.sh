#!/usr/bin/env bash
# Neovim, installed as its page says: it opens a sample with a slip in it, and meets what neovim.lua asks for. Prints what it saw; fails if
# any of it is missing.
#
#     tests/editors/neovim.sh PROGRAM [NVIM]

set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
program=$(realpath "$1")
nvim=$(realpath "$(command -v "${2:-nvim}")")
source tests/editors/desk.sh

page neovim sh >"$desk/install.sh"
bash -e "$desk/install.sh"

"$nvim" --version | head -n 1
timeout 300 "$nvim" --headless -n -i NONE "$SAMPLE" -c "luafile tests/editors/neovim.lua"
check_the_end
check_what_is_saved

#!/usr/bin/env bash
# Vim with ALE, set up as its page says: it opens a sample with a slip in it, and meets what vim.vim asks for. Prints what it saw; fails if any
# of it is missing.
#
#     tests/editors/vim.sh PROGRAM

set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
program=$(realpath "$1")
source tests/editors/desk.sh

page vim sh >"$desk/install.sh"
bash -e "$desk/install.sh"
page vim vim >"$HOME/.vim/vimrc"

vim --version | head -n 1
export SAID=$desk/said
code=0
timeout 120 vim -N -es -n -i NONE -u "$HOME/.vim/vimrc" -S tests/editors/vim.vim "$SAMPLE" </dev/null || code=$?
cat "$SAID"
[ "$code" -eq 0 ] || { echo "Vim ended with code $code" >&2; exit 1; }
# How the server ends is not known: ALE stops it without asking.
check_what_is_saved

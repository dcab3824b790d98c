#!/usr/bin/env bash
# Emacs with eglot, set up as its page says: it opens a sample with a slip in it, and meets what emacs.el asks for. Prints what it saw; fails
# if any of it is missing.
#
#     tests/editors/emacs.sh PROGRAM

set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
program=$(realpath "$1")
source tests/editors/desk.sh

mkdir -p "$desk/.emacs.d/lisp"
cp editors/emacs/*.el "$desk/.emacs.d/lisp/"
page emacs elisp >"$desk/.emacs.d/init.el"

emacs --version | head -n 1
# No -Q: it would hide the eglot that Debian packages.
timeout 300 emacs --batch -l tests/editors/emacs.el
# How the server ends is not known: Emacs asks it to, and kills it at once.
check_what_is_saved

#!/usr/bin/env bash
# Emacs, set up as its page says, with eglot or with lsp-mode: it opens a sample with a slip in it, and meets what emacs.el asks for. Prints
# what it saw; fails if any of it is missing.
#
#     tests/editors/emacs.sh PROGRAM eglot|lsp-mode

set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
program=$(realpath "$1")
client=$2
source tests/editors/desk.sh

mkdir -p "$desk/.emacs.d/lisp"
cp editors/emacs/*.el "$desk/.emacs.d/lisp/"
page emacs elisp >"$desk/.emacs.d/init.el"
# The page's lines have the other one in their remarks.
[ "$client" = eglot ] || sed -i -E "s/#'(tamis-)?eglot-[a-z-]+\)/#'lsp-deferred)/" "$desk/.emacs.d/init.el"

echo "$(emacs --version | head -n 1), $client"
# No -Q: it would hide what Debian packages.
timeout 300 emacs --batch -f package-initialize -l "tests/editors/emacs-$client.el" -l tests/editors/emacs.el
# How the server ends is not known: Emacs asks it to, and kills it at once.
check_what_is_saved

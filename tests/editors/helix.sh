#!/usr/bin/env bash
# What Helix's page tells to do, but for Helix itself, which cannot be had: what is copied stands where Helix looks, the sources are named,
# and the grammar builds as `hx --grammar build` builds it. Fails if any of it does not hold.
#
#     tests/editors/helix.sh PROGRAM

set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
program=$(realpath "$1")
source tests/editors/desk.sh

page helix sh | grep -v '^hx ' >"$desk/install.sh"
bash -e "$desk/install.sh"
for query in highlights indents injections locals; do
    diff "editors/helix/queries/tamis/$query.scm" "$HOME/.config/helix/runtime/queries/tamis/$query.scm"
done
grammar=$(sed -n 's/^source = { path = "\(.*\)" }$/\1/p' "$HOME/.config/helix/languages.toml")
cc -O2 -shared -fPIC -I "$grammar/src" "$grammar/src/parser.c" "$grammar/src/scanner.c" -o "$desk/tamis.so"
nm -D "$desk/tamis.so" | grep -w tree_sitter_tamis
echo "the page's lines put everything where Helix looks"

#!/usr/bin/env bash
# Kakoune, set up as its page says but for the server: what it recognises, colours, and does at Enter. Fails if any of it is missing.
#
#     tests/editors/kakoune.sh PROGRAM

set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
program=$(realpath "$1")
source tests/editors/desk.sh

page kakoune sh >"$desk/install.sh"
bash -e "$desk/install.sh"
kak -version

# What kak-lsp would declare.
sed -i '1i declare-option str lsp_servers' "$HOME/.config/kak/kakrc"
cat >"$desk/book/toast.tamis" <<'END'
Recipe: Plum Toast
Serves: 2

Ingredients:
- 2 plums
- 1 tbsp butter

Method:
1. Eat [the plums]. // ripe ones
END
cat >"$desk/try.kak" <<END
try %{
    edit $desk/book/toast.tamis
    require-module tamis
    echo -to-file $desk/servers %opt{lsp_servers}
    execute-keys -with-hooks 6go 1<space>egg<ret>salt<ret><ret>water<esc>
    write $desk/book/written.tamis
} catch %{
    echo -to-file $desk/fault %val{error}
}
quit!
END
timeout 60 kak -ui dummy -e "source $desk/try.kak" </dev/null
[ ! -e "$desk/fault" ] || { cat "$desk/fault" >&2; exit 1; }
printf '%s\n' '- 2 plums' '- 1 tbsp butter' '- 1 egg' '- salt' water | diff - <(sed -n 5,9p "$desk/book/written.tamis")
echo "Enter goes on with the list, and ends it"
node -e 'const [text] = [require("node:fs").readFileSync(process.argv[1], "utf8")]; if (!/^\s*\[tamis\]\n\s*command = "tamis"\n\s*args = \["lsp"\]\n/.test(text)) throw new Error(text);' "$desk/servers"

# What it draws. It leaves in disorder, as its keys end; what it has drawn is looked at.
{
    printf '%s\n' '{"jsonrpc":"2.0","method":"resize","params":[16,60]}'
    for _ in $(seq 100); do
        sleep 0.1
        ! grep -q 'ripe ones' "$desk/drawn" 2>/dev/null || break
    done
    printf '%s\n' '{"jsonrpc":"2.0","method":"keys","params":[":quit!","<ret>"]}'
} | timeout 60 kak -ui json "$desk/book/toast.tamis" >"$desk/drawn" || true
node tests/editors/kakoune.mjs <"$desk/drawn"

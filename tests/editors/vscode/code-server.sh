#!/usr/bin/env bash
# Puts code-server, which is the real workbench and extension host of VS Code, into a folder; nothing is done where it is there already.
# Native modules are built against the headers of the Node that runs: nothing is fetched but from the package registries.
#
#     tests/editors/vscode/code-server.sh target/editors/code-server

set -euo pipefail
folder=$1
version=4.100.3
[ ! -e "$folder/ready-$version" ] || exit 0

rm -rf "$folder"
mkdir -p "$folder"
cd "$folder"
echo '{"private":true}' >package.json
npm_config_nodedir=$(dirname "$(dirname "$(realpath "$(command -v node)")")")
export npm_config_nodedir npm_config_build_from_source=true
npm install "code-server@$version" --ignore-scripts --no-audit --no-fund --loglevel=error
npm rebuild argon2 --foreground-scripts --loglevel=error >argon2.log 2>&1 || { cat argon2.log >&2; exit 1; }
cd node_modules/code-server/lib/vscode
npm install --ignore-scripts --omit=dev --no-audit --no-fund --loglevel=error
npm rebuild @vscode/spdlog native-watchdog --loglevel=error
# Its last step wants node-gyp from npx, and is not needed.
npm rebuild node-pty --loglevel=silent || test -f node_modules/node-pty/build/Release/pty.node
# What its own post-install would do.
ln -sfn node_modules node_modules.asar
ln -sf code-linux.sh bin/remote-cli/code-server
ln -sf browser-linux.sh bin/helpers/browser.sh
mkdir -p node_modules/@vscode/ripgrep/bin
ln -sf "$(command -v rg)" node_modules/@vscode/ripgrep/bin/rg
cd - >/dev/null
touch "ready-$version"

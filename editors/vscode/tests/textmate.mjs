// The tokenizer that VS Code itself uses, for tests.

import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import oniguruma from "vscode-oniguruma";
import textmate from "vscode-textmate";

import { fence, page, tamis } from "../grammar/textmate.mjs";

const require = createRequire(import.meta.url);
const engine = oniguruma.loadWASM(readFileSync(require.resolve("vscode-oniguruma/release/onig.wasm"))).then(() => ({
  createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
  createOnigString: (text) => new oniguruma.OnigString(text),
}));

// As much of a Markdown grammar as fences need: the extension only adds to the real one.
const markdown = { scopeName: "text.html.markdown", patterns: [{ match: "^#.*$", name: "markup.heading.markdown" }] };

const registry = new textmate.Registry({
  onigLib: engine,
  loadGrammar: async (scope) => [tamis, page, fence, markdown].find((grammar) => grammar.scopeName === scope),
  getInjections: (scope) => (scope === markdown.scopeName ? [fence.scopeName] : []),
});

/** The scopes of each line: `{ from, to, scopes }`. */
export async function tokenize(lines, scope = tamis.scopeName) {
  const grammar = await registry.loadGrammar(scope);
  let state = textmate.INITIAL;
  return lines.map((line) => {
    const { tokens, ruleStack, stoppedEarly } = grammar.tokenizeLine(line, state);
    if (stoppedEarly) throw new Error(`too long: ${line}`);
    state = ruleStack;
    return tokens.map(({ startIndex, endIndex, scopes }) => ({ from: startIndex, to: endIndex, scopes }));
  });
}

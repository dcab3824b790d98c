// The grammar's queries in the words of editors that have words of their own for what is coloured.

import { readFileSync } from "node:fs";

const read = (name) => readFileSync(new URL(`../../grammar/queries/${name}.scm`, import.meta.url), "utf8");
const MADE = "; Made by editors/generate.mjs from grammar/queries/: change it there.\n\n";

// What is not named here keeps its name; the spelling checker's places are asked for by Neovim only.
const HELIX = {
  property: "variable.other.member", "keyword.modifier": "keyword.storage.modifier", number: "constant.numeric", "markup.list": "markup.list.numbered", "markup.link": "markup.link.text",
  "comment.todo": "warning", "string.escape": "constant.character.escape",
};
const ZED = {
  "markup.heading.1": "title", "markup.heading.2": "title", "markup.heading.3": "emphasis.strong", "keyword.modifier": "keyword", "markup.list": "punctuation.list_marker", "markup.italic": "emphasis",
  "markup.link": "link_text", "comment.todo": "hint", "keyword.directive": "preproc",
};

function highlights(names) {
  const text = read("highlights")
    .replace(/\n; Prose that a spelling checker reads\n[^]*$/, "")
    .replace(/ @spell\b/g, "");
  return MADE + text.replace(/@([a-z0-9_.]+)/g, (_, name) => `@${names[name] ?? name}`);
}

// Lists and their continuations; headings at the margin are Neovim's.
const indents = (capture) => `${MADE}[(item) (step)] @${capture}\n`;

export const helix = { highlights: highlights(HELIX), injections: MADE + read("injections"), indents: indents("indent"), locals: MADE + read("locals") };

export const zed = {
  highlights: highlights(ZED),
  injections: MADE + read("injections"),
  indents: indents("indent"),
  outline: `${MADE}(recipe (title_line label: (label) @context title: (title) @name)) @item
(equipment_section heading: (label) @name) @item
(ingredients_section heading: (label) @name) @item
(method_section heading: (label) @name) @item
(tests_section heading: (label) @name) @item
(prose_section heading: (label) @name) @item
`,
  brackets: `${MADE}(mention "[" @open "]" @close)\n(cross_reference "[[" @open "]]" @close)\n`,
};

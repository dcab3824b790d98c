// The contexts as a syntax definition of Sublime Text.

import { contexts } from "./contexts.mjs";

const SCOPES = {
  plain: "", recipe: "keyword.other.recipe", title: "markup.heading.1 entity.name.section", header: "support.type.property-name.header", section: "markup.heading.2", group: "markup.heading.3",
  bullet: "markup.list punctuation.definition.list_item", aside: "markup.italic", arrow: "keyword.operator.result", result: "variable.other.constant.result", comment: "comment.line.double-slash",
  query: "comment.line.query", stet: "keyword.control.directive.stet", check: "entity.other.attribute-name.check", reason: "comment.line.reason", escape: "constant.character.escape",
  bracket: "punctuation.section.brackets", reference: "markup.underline.link.reference", mention: "variable.other.mention", hedge: "keyword.other.hedge", number: "constant.numeric", unit: "keyword.other.unit",
};
const scope = (style) => SCOPES[style].split(" ").filter(Boolean).map((name) => `${name}.tamis`).join(" ");

const id = (name) => (name === "manuscript" ? "main" : name.replace(/ /g, "-"));
const quote = (text) => `'${text.replace(/'/g, "''")}'`;

// Leaving at the line's end, at a blank line, or where nothing fits are rules like the others there.
function rules({ rules, line, blank, brief, style }) {
  const out = rules.flatMap((rule) => (typeof rule === "string" ? [`    - include: ${id(rule)}`] : lines(rule)));
  if (line) out.unshift("    - match: '$\\n?'", "      pop: true");
  if (blank) out.unshift("    - match: '^\\s*$'", "      pop: true");
  if (brief) out.push("    - match: '(?=\\S)'", "      pop: true");
  if (style) out.unshift(`    - meta_content_scope: ${scope(style)}`);
  return out;
}

function lines({ match, style, push, set, pop }) {
  const out = [`    - match: ${quote(match)}`];
  if (style && SCOPES[style]) out.push(`      scope: ${scope(style)}`);
  if (push) out.push(`      push: ${id(push)}`);
  if (set) out.push(`      set: ${id(set)}`);
  if (pop) out.push("      pop: true");
  return out;
}

export const sublime = `%YAML 1.2
---
# Made by editors/generate.mjs from editors/shared/contexts.mjs: change it there.
name: Tamis
file_extensions:
  - tamis
scope: source.tamis
version: 2

contexts:
${Object.entries(contexts).map(([name, context]) => [`  ${id(name)}:`, ...rules(context)].join("\n")).join("\n\n")}
`;

// The TextMate grammar against the real one, over every sample, and against marked fixtures.

import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { test } from "node:test";

import { samples, wrongIn } from "../../../tests/editors/highlighting/compare.mjs";
import { tokenize } from "./textmate.mjs";

// What the innermost of our scopes is called in the grammar.
const SCOPES = [
  ["keyword.control.recipe", "recipe_label"],
  ["markup.heading.title", "title"],
  ["variable.other.property.header", "header_label"],
  ["markup.heading.section", "section_label"],
  ["markup.heading.group", "group_name"],
  ["constant.numeric", "number"],
  ["entity.name.type.unit", "unit"],
  ["keyword.other.hedge", "hedge"],
  ["variable.other.mention", "mention_name"],
  ["string.other.link.reference", "reference_title"],
  ["comment.line.double-slash", "comment"],
  ["comment.line.query", "query"],
  ["keyword.control.directive.stet", "stet"],
  ["entity.name.function.decorator.check", "check_code"],
  ["string.unquoted.reason", "reason"],
  ["variable.other.result", "result_name"],
  ["punctuation.definition.list.begin", "step_number"],
  ["constant.character.escape", "escape"],
];
function kindOf(scopes) {
  for (const scope of scopes.toReversed().flatMap((scopes) => scopes.split(" "))) {
    const found = SCOPES.find(([prefix]) => scope.startsWith(prefix));
    if (found) return found[1];
  }
  return "";
}

const runs = (tokens) => tokens.flatMap((line, number) => line.map(({ from, to, scopes }) => [kindOf(scopes), number, from, to]));

test("colours every sample as the grammar does", async () => {
  assert.ok(samples.length > 50);
  assert.equal((await wrongIn(async (lines) => runs(await tokenize(lines)))).join("\n"), "");
});

test("a fence of a post is coloured like a manuscript, and nothing around it is", async () => {
  const folder = new URL("../../../samples/posts/", import.meta.url);
  for (const name of readdirSync(folder)) {
    const lines = readFileSync(new URL(name, folder), "utf8").split("\n");
    const seen = (await tokenize(lines, "text.html.markdown")).map((tokens) => tokens.map(({ from, scopes }) => [from, kindOf(scopes)]));
    let fences = 0;
    for (let line = 0; line < lines.length; line++) {
      if (lines[line] !== "```tamis") {
        assert.deepEqual(seen[line].filter(([, kind]) => kind), [], `${name}: ${lines[line]}`);
        continue;
      }
      const end = lines.indexOf("```", line);
      const alone = await tokenize(lines.slice(line + 1, end));
      for (const [nth, tokens] of alone.entries()) {
        const kinds = (runs) => runs.filter(([, kind]) => kind);
        const expected = kinds(tokens.map(({ from, scopes }) => [from, kindOf(scopes)]));
        assert.deepEqual(kinds(seen[line + 1 + nth]), expected, `${name}: ${lines[line + 1 + nth]}`);
      }
      line = end;
      fences++;
    }
    assert.ok(fences > 0, name);
  }
});

// The highlighting of Sublime Text, read by another implementation of its format. TAMIS_SUBLIME_RUNS is the program of `sublime/`.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { join } from "node:path";
import { test } from "node:test";

import { root, samples, wrongIn } from "./compare.mjs";

const SCOPES = [
  ["keyword.other.recipe", "recipe_label"], ["entity.name.section", "title"], ["support.type.property-name.header", "header_label"], ["markup.heading.2", "section_label"],
  ["markup.heading.3", "group_name"], ["constant.numeric", "number"], ["keyword.other.unit", "unit"], ["keyword.other.hedge", "hedge"], ["variable.other.mention", "mention_name"],
  ["markup.underline.link.reference", "reference_title"], ["comment.line.double-slash", "comment"], ["comment.line.query", "query"], ["keyword.control.directive.stet", "stet"],
  ["entity.other.attribute-name.check", "check_code"], ["comment.line.reason", "reason"], ["variable.other.constant.result", "result_name"], ["punctuation.definition.list_item", "step_number"],
  ["constant.character.escape", "escape"],
];

test("Sublime Text colours every sample as the grammar does", async () => {
  const program = process.env.TAMIS_SUBLIME_RUNS ?? join(root, "target/sublime-runs/debug/sublime-runs");
  const found = JSON.parse(execFileSync(program, ["editors/sublime/Tamis.sublime-syntax", ...samples], { cwd: root, encoding: "utf8", maxBuffer: 1 << 28 }));
  const kind = (scope) => SCOPES.find(([prefix]) => scope.startsWith(prefix))?.[1];
  const runs = (lines, path) => found[path].flatMap(([scope, ...place]) => (kind(scope) ? [[kind(scope), ...place]] : []));
  assert.ok(samples.length > 50);
  assert.equal((await wrongIn(runs)).join("\n"), "");
});

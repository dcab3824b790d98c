// Where the manuscripts of a post are. The fences are those of CommonMark 0.31.2, 4.5 "Fenced code blocks".

import assert from "node:assert/strict";
import { test } from "node:test";

import { load } from "./load.mjs";

const { holdsManuscript, manuscriptAt } = await load("posts.ts");
const { factsAt } = await load("recipes.ts");
const { linesOf } = await load("lines.ts");

/** The first line of the manuscript at each line; `-` where there is none. */
function seen(text) {
  const lines = linesOf(text);
  return Array.from({ length: lines.count }, (_, line) => manuscriptAt(lines, line)?.lines.at(0) ?? "-");
}

const cases = [
  ["a manuscript between prose", "One.\n```tamis\nA\nB\n```\nTwo.", ["-", "-", "A", "A", "-", "-"]],
  ["two of them, by either mark and in any case", "```Tamis\nA\n```\n~~~ tamis spring\nB\n~~~", ["-", "A", "-", "-", "B", "-"]],
  ["one that is still being typed", "```tamis\nA\nB", ["-", "A", "A"]],
  ["a longer fence with a shorter one in it", "````tamis\nA\n```\nB\n````\nC", ["-", "A", "A", "A", "-", "-"]],
  ["another language, and one that only begins so", "```js\nA\n```\n```tamisette\nB\n```", ["-", "-", "-", "-", "-", "-"]],
  ["a fence of ours shown inside of another", "````text\n```tamis\nA\n```\n````", ["-", "-", "-", "-", "-"]],
  ["an indented block", "    ```tamis\n    A", ["-", "-"]],
];

for (const [name, text, expected] of cases) test(name, () => assert.deepEqual(seen(text), expected));

test("a post without a manuscript is told from one with", () => {
  assert.equal(holdsManuscript(linesOf("Of tamis.\n\n```sh\ntamis check\n```")), false);
  assert.equal(holdsManuscript(linesOf("Of plums.\n\n```tamis\nRecipe: Plums\n```")), true);
});

test("what the headers say is read in the manuscript, and no further", () => {
  const { lines } = manuscriptAt(linesOf("Serves: nobody\n```tamis\nRecipe: Plums\nServes: 4\n```\n```tamis\nRecipe: Pears\nTime: 5 min\n```"), 6);
  assert.deepEqual(factsAt(lines, 0), { title: "Pears", serves: "", time: "5 min" });
});

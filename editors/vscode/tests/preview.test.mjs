// The printed recipe.

import assert from "node:assert/strict";
import { test } from "node:test";

import { nodesOf, samples, textOf } from "../../../tests/editors/highlighting/compare.mjs";
import { load } from "./load.mjs";

const { linesOf } = await load("lines.ts");
const { read } = await load("preview/read.ts");
const { inline, render } = await load("preview/render.ts");

const blocks = (text, section) => read(linesOf(text)).recipes.flatMap((recipe) => recipe.parts.filter((part) => part.section === section).flatMap((part) => part.groups.flatMap((group) => group.blocks)));

test("marks are taken off, and everything else is escaped", () => {
  for (const [typed, printed] of [
    ["Toss with the [sugar] and [half the juice]. => fruit", "Toss with the sugar and half the juice."],
    ["Roll out the [[Rough Puff]].", "Roll out the <cite>Rough Puff</cite>."],
    ["Heat to 350°F [175°C]", "Heat to 350°F [175°C]"],
    ["1 cup [120 g; 4 1/4 oz] flour", "1 cup [120 g; 4 1/4 oz] flour"],
    ["Add [2 tbsp of the sugar]", "Add 2 tbsp of the sugar"],
    ["Add salt // how much?", "Add salt"],
    ["see https://example.org/a", "see https://example.org/a"],
    ["Add salt ?? how much", "Add salt"],
    ["Add salt [AU: how much?] and stir", "Add salt and stir"],
    ["Serve with TK and cream", "Serve with and cream"],
    ["a tk is no word of ours", "a tk is no word of ours"],
    ["as \\[typed\\] and 1 \\=> 2", "as [typed] and 1 =&gt; 2"],
    ["<b>bold</b> & \"quoted\"", "&lt;b&gt;bold&lt;/b&gt; &amp; &quot;quoted&quot;"],
    ["[<script>]", "&lt;script&gt;"],
    ["[[<script>]]", "<cite>&lt;script&gt;</cite>"],
    ["never closed [sugar", "never closed [sugar"],
    ["40 to\n   45 minutes", "40 to 45 minutes"],
  ]) {
    assert.equal(inline(typed).replaceAll("\u00a0", " "), printed);
  }
});

test("no line parts an amount from its unit", () => {
  for (const [typed, printed] of [
    ["1 1/2 cups (180 g) flour", "1 1/2_cups (180_g) flour"],
    ["a 9 x 3-inch pan", "a 9 x 3~inch pan"],
    ["40 to 45 minutes", "40 to 45_minutes"],
    ["3 large eggs, 2 glasses and 8 grapes", "3 large eggs, 2_glasses and 8 grapes"],
    ["2020-11-26: done", "2020-11-26: done"],
  ]) {
    assert.equal(inline(typed).replaceAll("\u00a0", "_").replaceAll("\u2011", "~"), printed);
  }
});

test("remarks and stets are not printed, and part nothing", () => {
  const text = "Recipe: Plums\nIngredients:\nstet measure-loose: they vary\n- 1 knob butter\n// not yet\n- 2 plums,\n  ?? ripe\n  halved\n";
  assert.deepEqual(blocks(text, "ingredients").map(({ text, from, to }) => [text, from, to]), [["1 knob butter", 3, 4], ["2 plums,\nhalved", 5, 8]]);
});

test("steps keep the number that was typed", () => {
  const text = "Method:\n\n1. Stir.\n\nFor the top:\n\n2. Beat.\n3. Bake.\n\nCool.\n";
  assert.deepEqual(blocks(text, "method").map(({ number, text }) => [number, text]), [[1, "Stir."], [2, "Beat."], [3, "Bake."], [undefined, "Cool."]]);
});

test("a file without a label has its title on top", () => {
  const [recipe] = read(linesOf("\uFEFFPlum Toast\r\nServes: 2\r\n\r\nFor breakfast.\r\n\r\nIngredients:\r\n- 2 plums\r\n")).recipes;
  assert.equal(recipe.title.text, "Plum Toast");
  assert.deepEqual(recipe.headers.map(({ label, text }) => [label, text]), [["Serves", "2"]]);
  assert.deepEqual(recipe.headnote.map(({ text }) => text), ["For breakfast."]);
});

test("an empty file says so", () => assert.match(render(read(linesOf(""))), /Nothing to print/));

test("a colon alone in a step makes no group of it", () => {
  assert.equal(blocks("Method:\n1. Stir together:\n   the eggs and\n   the milk.\n", "method").length, 1);
});

// The grammar tells how many items and steps there are; a page may leave out none of them, and must not show a mark.
test("every item and step of the samples is printed, in its place, without marks", () => {
  const nodes = nodesOf(samples);
  for (const path of samples) {
    const manuscript = read(linesOf(textOf(path)));
    const parts = manuscript.recipes.flatMap((recipe) => recipe.parts);
    const starts = (sections) => parts.filter((part) => sections.includes(part.section)).flatMap((part) => part.groups.flatMap((group) => group.blocks.map((block) => block.from))).sort((one, other) => one - other);
    const of = (kind) => nodes[path].filter(([found]) => found === kind).map(([, line]) => line);
    assert.deepEqual(starts(["equipment", "ingredients", "tests"]), of("item"), path);
    assert.deepEqual(starts(["method"]), of("step"), path);
    const page = render(manuscript).replace(/<cite>.*?<\/cite>/g, "").replace(/<[^>]*>/g, " ");
    assert.doesNotMatch(page, /=&gt;|\[\p{L}|\bstet\b|\?\?|\s\/\/\s/u, path);
  }
});

// What the status bar says of a recipe, and what folds.

import assert from "node:assert/strict";
import { test } from "node:test";

import { load } from "./load.mjs";

const { factsAt, folds, wholeTime } = await load("recipes.ts");
const { linesOf } = await load("lines.ts");

const TEXT = linesOf(`Two for the tea hut.

Recipe: Plum Toast
Serves: 2 // or one
Time: 5 min active, 20 min total

Ingredients:
- 2 plums

Method:
1. Toast.

Recipe: Radishes
Time: 10 min

Ingredients:
- radishes
`);

test("the whole time of several", () => {
  for (const [time, whole] of [
    ["20 min active, 1 h 20 min total", "1 h 20 min"],
    ["45 min", "45 min"],
    ["1 h; overnight chilling", "1 h"],
    ["", ""],
  ]) {
    assert.equal(wholeTime(time), whole);
  }
});

test("the recipe at the cursor", () => {
  const toast = { title: "Plum Toast", serves: "2", time: "5 min active, 20 min total" };
  const radishes = { title: "Radishes", serves: "", time: "10 min" };
  for (const [line, facts] of [[0, { title: "", serves: "", time: "" }], [2, toast], [10, toast], [12, radishes], [99, radishes]]) {
    assert.deepEqual(factsAt(TEXT, line), facts, `line ${line}`);
  }
});

test("recipes and sections fold, without the blank lines behind them", () => {
  assert.deepEqual(folds(TEXT), [[6, 7], [9, 10], [2, 10], [15, 16], [12, 16]]);
});

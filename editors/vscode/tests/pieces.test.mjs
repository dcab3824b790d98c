// What is offered where a line begins, and nowhere else.

import assert from "node:assert/strict";
import { test } from "node:test";

import { load } from "./load.mjs";

const { piecesBehind } = await load("pieces.ts");

test("pieces begin a line, and do not disturb a sentence", () => {
  const words = piecesBehind("re").map(({ word }) => word);
  assert.ok(["recipe", "storage", "test", "query", "stet"].every((word) => words.includes(word)), words.join());
  assert.ok(!words.some((word) => ["result", "share", "see"].includes(word)), words.join());
  for (const before of ["1. Bake ", "1. Bake fo", "- ", "- 1 cup", "Recipe: ", "  se"]) assert.deepEqual(piecesBehind(before), [], before);
});

test("a piece of several lines is one text", () => {
  const [recipe] = piecesBehind("").filter(({ word }) => word === "recipe");
  assert.match(recipe.body, /^Recipe: .*\nServes: /);
});

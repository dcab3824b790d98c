// What Enter does. The cursor is `|`, before and after.

import assert from "node:assert/strict";
import { test } from "node:test";

import { load } from "./load.mjs";

const { rules } = await load("typing/rules.ts");
const { amend } = await load("typing/amend.ts");
const { linesOf } = await load("lines.ts");

/** The text after Enter, with its cursor: the editor's part, and ours behind it. */
function enter(marked) {
  const [before, after] = marked.split("|");
  const line = before.split("\n").length - 1;
  const [above = "", current] = ["", ...before.split("\n")].slice(-2);
  const rule = rules.find((rule) => rule.before.test(current) && (rule.previous?.test(above) ?? true));
  const added = `\n${rule?.append ?? /^[ \t]*/.exec(current)[0]}`;
  let lines = `${before}${added}|${after}`.split("\n");
  const replacements = amend(linesOf(lines.join("\n").replace("|", "")), line, added);
  for (const { from, to, text } of replacements.toSorted((one, other) => other.from[0] - one.from[0])) {
    assert.ok(!lines[from[0]].includes("|"), "the line that is being typed is left alone");
    if (to[0] > from[0]) lines.splice(from[0], to[0] - from[0]);
    else lines[from[0]] = lines[from[0]].slice(0, from[1]) + text + lines[from[0]].slice(to[1]);
  }
  return lines.join("\n");
}

const cases = [
  ["an item starts the next", "Ingredients:\n- 1 egg|", "Ingredients:\n- 1 egg\n- |"],
  ["its bullet is kept", "Ingredients:\n• 1 egg|", "Ingredients:\n• 1 egg\n• |"],
  ["in the middle it is parted", "Ingredients:\n- 1 egg|2 tbsp milk", "Ingredients:\n- 1 egg\n- |2 tbsp milk"],
  ["an empty item ends the list", "Ingredients:\n- 1 egg\n- |", "Ingredients:\n- 1 egg\n\n|"],
  ["an empty item without its space, too", "Ingredients:\n- 1 egg\n-|\n\nMethod:", "Ingredients:\n- 1 egg\n\n|\n\nMethod:"],
  ["an empty item below a blank line goes with its line", "Ingredients:\n\n- |", "Ingredients:\n\n|"],
  ["before the bullet it is a plain line break", "Ingredients:\n|- 1 egg", "Ingredients:\n\n|- 1 egg"],
  ["an item without a bullet", "Ingredients:\n1 egg|", "Ingredients:\n1 egg\n|"],
  ["a number that starts an item is no number of a step", "Ingredients:\n1 egg\n2.5 dl milk|", "Ingredients:\n1 egg\n2.5 dl milk\n|"],
  ["a group goes on with the list", "Ingredients:\n\nFor the crust:\n- salt|", "Ingredients:\n\nFor the crust:\n- salt\n- |"],
  ["a line that goes on, goes on", "Ingredients:\n- 1 lb plums,\n  pitted|\n- salt", "Ingredients:\n- 1 lb plums,\n  pitted\n  |\n- salt"],
  ["a step starts the next", "Method:\n1. Stir.|", "Method:\n1. Stir.\n2. |"],
  ["with a blank line where the steps have one", "Method:\n\n1. Stir.|", "Method:\n\n1. Stir.\n\n2. |"],
  ["with the author's way of numbering", "Method:\n9) Stir.|", "Method:\n9) Stir.\n10) |"],
  ["in words, too", "Method:\nStep 1: Stir.|", "Method:\nStep 1: Stir.\nStep 2: |"],
  ["in the middle a step is parted, and those behind it count on", "Method:\n\n1. Stir.|Bake.\n\n2. Cool.\n\n3. Eat.\n\nStorage: 2 days", "Method:\n\n1. Stir.\n\n2. |Bake.\n\n3. Cool.\n\n4. Eat.\n\nStorage: 2 days"],
  ["a group that counts anew is left alone", "Method:\n1. Stir.|\n\nFor the top:\n1. Beat.", "Method:\n1. Stir.\n2. |\n\nFor the top:\n1. Beat."],
  ["numbers that do not follow are left alone", "Method:\n1. Stir.|\n2. Bake.\n2. Cool.", "Method:\n1. Stir.\n2. |\n3. Bake.\n2. Cool."],
  ["the next recipe is left alone", "Method:\n1. Stir.|\n\nRecipe: Other\nMethod:\n2. Bake.", "Method:\n1. Stir.\n2. |\n\nRecipe: Other\nMethod:\n2. Bake."],
  ["the next section is left alone", "Method:\n1. Stir.|\n\nNotes:\n2. Bake.", "Method:\n1. Stir.\n2. |\n\nNotes:\n2. Bake."],
  ["an empty step ends the method", "Method:\n\n1. Stir.\n\n2. |", "Method:\n\n1. Stir.\n\n|"],
  ["an empty step in the middle goes, and those behind it count back", "Method:\n\n1. Stir.\n\n2. |\n\n3. Bake.\n\n4. Cool.", "Method:\n\n1. Stir.\n\n|\n\n2. Bake.\n\n3. Cool."],
  ["behind a gap it does not", "Method:\n1. Stir.\n2. |\n4. Cool.", "Method:\n1. Stir.\n\n|\n4. Cool."],
  ["without blank lines, too", "Method:\n1. Stir.\n2. |", "Method:\n1. Stir.\n\n|"],
  ["a step without a number", "Method:\n\nStir.|", "Method:\n\nStir.\n|"],
  ["a bullet in the method", "Method:\n- Stir.|", "Method:\n- Stir.\n- |"],
  ["an empty bullet in prose stays", "Notes:\n- |", "Notes:\n- \n|"],
  ["the heading itself", "Ingredients:|\n- 1 egg", "Ingredients:\n|\n- 1 egg"],
  ["a comment", "Ingredients:\n// an egg|", "Ingredients:\n// an egg\n|"],
  ["a blank line", "Ingredients:\n- 1 egg\n|", "Ingredients:\n- 1 egg\n\n|"],
];

for (const [name, before, after] of cases) {
  test(name, () => assert.equal(enter(before), after));
}

test("every number up to 40 is followed by the next", () => {
  for (let number = 1; number <= 40; number++) assert.equal(enter(`Method:\n${number}. Stir.|`), `Method:\n${number}. Stir.\n${number + 1}. |`);
});

test("no other change is amended", () => {
  for (const added of ["x", "", "- ", "1. ", "a\nb", "\nIngredients:\n- 1 egg\n", "\n2. Beat.", "\n1. Beat.\n2. "]) {
    assert.deepEqual(amend(linesOf("Method:\n1. Stir.\n2. Bake.\n"), 1, added), []);
  }
});

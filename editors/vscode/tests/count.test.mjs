// What may be typed for the number of people, and that the package offers what the program can do.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import { load } from "./load.mjs";

const { countOf, objection } = await load("count.ts");

test("a number of people", () => {
  for (const [typed, count] of [
    ["6", 6],
    [" 12 ", 12],
    ["2.5", 2.5],
    ["2,5", 2.5],
    ["10000", 10_000],
    ["10001", undefined],
    ["0", undefined],
    ["-3", undefined],
    ["six", undefined],
    ["6 people", undefined],
    ["1e3", undefined],
    ["", undefined],
  ]) {
    assert.equal(countOf(typed), count, typed);
    assert.equal(objection(typed) === undefined, count !== undefined, typed);
  }
});

test("each command of the program has one in the palette, in a manuscript that is being checked", () => {
  const read = (path) => readFileSync(new URL(path, import.meta.url), "utf8");
  const offered = [...read("../../../server/src/lsp/commands.rs").matchAll(/^const \w+: &str = "(tamis\.\w+)";/gm)].map(([, name]) => name);
  const sent = [...read("../src/orders.ts").matchAll(/"(tamis\.\w+)"/g)].map(([, name]) => name).filter((name) => name !== "tamis.scaleTo");
  assert.equal(offered.length, 5);
  assert.deepEqual([...sent].sort(), [...offered].sort());
  const { commands, menus } = JSON.parse(read("../package.json")).contributes;
  for (const name of ["scaleTo", "addMetricMeasures", "addUsMeasures", "bracketMentions", "recordTestOfToday"]) {
    const command = `tamis.${name}`;
    // The client registers those of the program under their own names.
    assert.ok(!offered.includes(command));
    assert.ok(commands.some((known) => known.command === command), command);
    assert.equal(menus.commandPalette.find((entry) => entry.command === command)?.when, "editorLangId =~ /^(tamis|markdown)$/ && tamis.server == running", command);
  }
});

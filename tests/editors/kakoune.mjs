// What Kakoune draws, from what it says to a terminal of its own kind (`-ui json`): its last drawing as runs of [colour, text], line by line.

import { readFileSync } from "node:fs";
import assert from "node:assert/strict";

const said = readFileSync(0, "utf8").split("\n").filter(Boolean).map((line) => JSON.parse(line));
const last = said.filter(({ method }) => method === "draw").at(-1);
assert.ok(last, "Kakoune has drawn nothing");
const runs = last.params[0].flat().map(({ face, contents }) => [face.fg, contents.trim()]);
const colour = (text) => runs.find(([, contents]) => contents === text)?.[0] ?? `(nothing is drawn as "${text}")`;

const seen = { plain: colour("plums"), header: colour("Serves"), section: colour("Ingredients"), number: colour("2"), unit: colour("tbsp"), mention: colour("[the plums]"), remark: colour("// ripe ones") };
console.log("colours:", JSON.stringify(seen));
for (const [what, colour] of Object.entries(seen)) {
  if (what === "plain") assert.equal(colour, "default");
  else assert.match(colour, /^(?!default)[a-z-]+$/, `${what} is not coloured`);
}

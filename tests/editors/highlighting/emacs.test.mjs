// The highlighting of Emacs, in Emacs.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";

import { root, samples, wrongIn } from "./compare.mjs";

const FACES = {
  "tamis-recipe": "recipe_label", "tamis-title": "title", "tamis-header": "header_label", "tamis-section": "section_label", "tamis-group": "group_name", "tamis-number": "number", "tamis-unit": "unit",
  "tamis-hedge": "hedge", "tamis-mention": "mention_name", "tamis-reference": "reference_title", "tamis-comment": "comment", "tamis-query": "query", "tamis-stet": "stet", "tamis-check": "check_code",
  "tamis-reason": "reason", "tamis-result": "result_name", "tamis-step": "step_number", "tamis-escape": "escape",
};

test("Emacs colours every sample as the grammar does", async () => {
  const desk = mkdtempSync(join(tmpdir(), "tamis-emacs-"));
  try {
    const out = join(desk, "runs.json");
    const env = { ...process.env, HOME: desk, FILES: samples.join("\n"), OUT: out, LC_ALL: "C.UTF-8" };
    execFileSync("emacs", ["--batch", "-Q", "-L", join(root, "editors/emacs"), "-l", join(root, "tests/editors/highlighting/emacs.el")], { cwd: root, env, stdio: ["ignore", "pipe", "pipe"] });
    const found = JSON.parse(readFileSync(out, "utf8"));
    const runs = (lines, path) => found[path].flatMap(([face, ...place]) => (FACES[face] ? [[FACES[face], ...place]] : []));
    assert.ok(samples.length > 50);
    assert.equal((await wrongIn(runs)).join("\n"), "");
  } finally {
    rmSync(desk, { recursive: true, force: true });
  }
});

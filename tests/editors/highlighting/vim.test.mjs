// The highlighting of Vim, in Vim.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";

import { root, samples, wrongIn } from "./compare.mjs";

const GROUPS = {
  tamisLabel: "recipe_label", tamisTitle: "title", tamisHeader: "header_label", tamisSection: "section_label", tamisGroup: "group_name", tamisGroupOfSection: "group_name", tamisNumber: "number",
  tamisUnit: "unit", tamisGas: "unit", tamisHedge: "hedge", tamisHedgeOfUnit: "hedge", tamisMention: "mention_name", tamisReference: "reference_title", tamisComment: "comment", tamisQuery: "query",
  tamisStet: "stet", tamisCheck: "check_code", tamisReason: "reason", tamisArrow: "result_name", tamisStep: "step_number", tamisEscape: "escape",
};

test("Vim colours every sample as the grammar does", async () => {
  const desk = mkdtempSync(join(tmpdir(), "tamis-vim-"));
  try {
    const out = join(desk, "runs.json");
    const env = { ...process.env, HOME: desk, RUNTIME: join(root, "editors/vim"), FILES: samples.join("\n"), OUT: out, LC_ALL: "C.UTF-8" };
    execFileSync("vim", ["-es", "-n", "-i", "NONE", "-u", "NONE", "-S", join(root, "tests/editors/highlighting/vim.vim")], { cwd: root, env, stdio: ["ignore", "pipe", "pipe"] });
    const found = JSON.parse(readFileSync(out, "utf8"));
    const runs = (lines, path) => found[path].flatMap(([group, ...place]) => (GROUPS[group] ? [[GROUPS[group], ...place]] : []));
    assert.ok(samples.length > 50);
    assert.equal((await wrongIn(runs)).join("\n"), "");
  } finally {
    rmSync(desk, { recursive: true, force: true });
  }
});

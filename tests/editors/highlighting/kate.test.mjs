// The highlighting of Kate, in the engine that Kate uses: `kate-syntax-highlighter` (Debian: libkf5syntaxhighlighting-tools). A theme in
// which every style has a colour of its own tells what was taken for what.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, test } from "node:test";

import { root, samples, wrongIn } from "./compare.mjs";

// The styles of tamis.xml, as the grammar calls what they are for.
const STYLES = {
  Recipe: "recipe_label", Title: "title", Header: "header_label", Section: "section_label", Group: "group_name", Number: "number", Unit: "unit", Hedge: "hedge", Mention: "mention_name",
  Reference: "reference_title", Comment: "comment", Query: "query", Stet: "stet", Check: "check_code", Reason: "reason", Result: "result_name", Bullet: "step_number", Escape: "escape",
};

const home = mkdtempSync(join(tmpdir(), "tamis-kate-"));
after(() => rmSync(home, { recursive: true, force: true }));

const colours = Object.keys(STYLES).map((style, nth) => [style, `#0000${(16 + nth).toString(16)}`]);
const data = join(home, "org.kde.syntax-highlighting");
for (const folder of ["syntax", "themes"]) mkdirSync(join(data, folder), { recursive: true });
cpSync(join(root, "editors/kate/tamis.xml"), join(data, "syntax/tamis.xml"));
const plain = { "text-color": "#ffffff", "selected-text-color": "#ffffff" };
const defaults = ["Normal", "Keyword", "Function", "Variable", "ControlFlow", "Operator", "BuiltIn", "Extension", "Preprocessor", "Attribute", "Char", "SpecialChar", "String", "VerbatimString", "SpecialString", "Import", "DataType", "DecVal", "BaseN", "Float", "Constant", "Comment", "Documentation", "Annotation", "CommentVar", "RegionMarker", "Information", "Warning", "Alert", "Error", "Others"];
writeFileSync(join(data, "themes/marks.theme"), JSON.stringify({
  metadata: { name: "Marks", revision: 1 },
  "editor-colors": {},
  "text-styles": Object.fromEntries(defaults.map((name) => [name, plain])),
  "custom-styles": { Tamis: Object.fromEntries(colours.map(([style, colour]) => [style, { "text-color": colour }])) },
}));

function runs(lines, path) {
  const env = { ...process.env, HOME: home, XDG_DATA_HOME: home, QT_QPA_PLATFORM: "offscreen", LC_ALL: "C.UTF-8" };
  const html = execFileSync("kate-syntax-highlighter", ["--syntax", "Tamis", "--theme", "Marks", "--output-format", "html", join(root, path)], { env, encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] });
  const page = html.replace(/^[^]*?<pre>\n?/, "").replace(/<\/pre>[^]*$/, "");
  const text = (marked) => marked.replace(/&lt;/g, "<").replace(/&gt;/g, ">").replace(/&quot;/g, '"').replace(/&amp;/g, "&");
  const out = [];
  page.split("\n").slice(0, lines.length).forEach((marked, line) => {
    let at = 0;
    for (const [, colour, inside, outside] of marked.matchAll(/<span style="(?:color:(#[0-9a-f]+);)?[^"]*">([^<]*)<\/span>|([^<]+)/g)) {
      const length = text(inside ?? outside).length;
      const style = colours.find(([, each]) => each === colour)?.[0];
      if (style) out.push([STYLES[style], line, at, at + length]);
      at += length;
    }
    assert.equal(at, lines[line].length, `${path}:${line + 1} is not read as it was written: ${marked}`);
  });
  return out;
}

test("Kate colours every sample as the grammar does", async () => {
  assert.ok(samples.length > 50);
  assert.equal((await wrongIn(runs)).join("\n"), "");
});

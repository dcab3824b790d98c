// Makes what editors need a copy of: highlighters that are derived, and queries that stand in a folder of their own.
//
//     node editors/generate.mjs            makes them anew: after a change of grammar/units.json, words.json or queries/
//     node editors/generate.mjs --check    fails where one is not current

import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { fileURLToPath } from "node:url";

import { kate } from "./shared/kate.mjs";
import { sublime } from "./shared/sublime.mjs";

process.chdir(fileURLToPath(new URL(".", import.meta.url)));
const read = (path) => {
  try {
    return readFileSync(path, "utf8");
  } catch {
    return "";
  }
};

const files = [
  ["kate/tamis.xml", kate],
  ["sublime/Tamis.sublime-syntax", sublime],
];

const stale = files.filter(([path, text]) => read(path) !== text);
if (process.argv.includes("--check")) {
  for (const [path] of stale) console.error(`editors/${path} is not current: run  node editors/generate.mjs`);
  process.exitCode = stale.length ? 1 : 0;
} else {
  for (const [path, text] of stale) {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
    console.log(`editors/${path}`);
  }
}

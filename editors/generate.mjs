// Makes what editors need a copy of: highlighters that are derived, and queries in the editor's own words.
//
//     node editors/generate.mjs            makes them anew: after a change of units.json, words.json or queries/ of the grammar
//     node editors/generate.mjs --check    fails where one is not current

import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { fileURLToPath } from "node:url";

import { lists } from "./shared/lists.mjs";
import { kate } from "./shared/kate.mjs";
import { helix, zed } from "./shared/queries.mjs";
import { sublime } from "./shared/sublime.mjs";

process.chdir(fileURLToPath(new URL(".", import.meta.url)));
const read = (path) => {
  try {
    return readFileSync(path, "utf8");
  } catch {
    return "";
  }
};

/** A file that others write, in which the lines between two marks are ours. */
function withWords(path, render) {
  const text = read(path);
  const parts = /^([^]*BEGIN words[^\n]*\n)[^]*?(\n?[^\n]*END words[^]*)$/.exec(text);
  if (!parts) throw new Error(`editors/${path}: there is no place for the words`);
  return [path, parts[1] + Object.entries(lists).flatMap(([name, words]) => render(name, words)).join("\n") + "\n" + parts[2].replace(/^\n/, "")];
}

const vim = (name, words) => `let s:${name} = '\\%(${words.map((word) => word.replace(/[\\~.*[\]^$]/g, "\\$&").replace(/'/g, "''").replace(/ /g, "\\s\\+")).join("\\|")}\\)'`;

const lisp = (name, words) => `  (defconst tamis--words-${name} '(${words.map((word) => JSON.stringify(word)).join(" ")}))`;

const fits = (words) => words.map((word) => word.replace(/[\\.*+?^${}()|[\]]/g, "\\$&").replace(/ /g, "[ \\t]+")).join("|");
const GROUP = String.raw`([ \t]+[^.!?;\[\]="()\n]{1,80}|[ \t]*\([^.!?;\[\]="()\n]{1,80}\))?`;
const KAKOUNE = {
  title: (words) => ["title", `^(${words}):([^\\n]*)`, "1:keyword 2:title"],
  header: (words) => ["header", `^(${words}):`, "1:attribute"],
  lists: (words) => ["lists", `^(${words})${GROUP}[ \\t]*:[ \\t]*$`, "1:header 2:meta"],
  method: (words) => ["method", `^(${words})${GROUP}[ \\t]*:[ \\t]*$`, "1:header 2:meta"],
  prose: (words) => ["prose", `^(${words}|make[- ]ahead):`, "1:header"],
  unit: (words) => ["measure", `(?<![\\w'’])(\\d[\\d.,/½⅓⅔¼¾⅛⅜⅝⅞]*|[½⅓⅔¼¾⅛⅜⅝⅞])(?:[ \\t-]*(${words}|°[ \\t]*[fc]?)(?![\\w'’]))?`, "1:value 2:type"],
};
const kakoune = (name, words) => {
  const [group, pattern, faces] = KAKOUNE[name]?.(fits(words)) ?? [];
  return group ? [`add-highlighter shared/tamis/text/${group} regex '(?i)${pattern.replace(/'/g, "''")}' ${faces}`] : [];
};

const files = [
  withWords("emacs/tamis-mode.el", lisp),
  withWords("vim/syntax/tamis.vim", vim),
  withWords("kakoune/tamis.kak", kakoune),
  ["kate/tamis.xml", kate],
  ["sublime/Tamis.sublime-syntax", sublime],
  ...Object.entries(helix).map(([name, text]) => [`helix/queries/tamis/${name}.scm`, text]),
  ...Object.entries(zed).map(([name, text]) => [`zed/languages/tamis/${name}.scm`, text]),
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

// Holds a highlighter to what the grammar sees. The grammar's nodes come from the example `nodes` of this crate; a highlighter gives,
// for each line, runs of a kind. Both become one kind for each letter and digit, so that it does not matter who colours a space or a
// hyphen, and every difference is told with its line.

import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { join } from "node:path";

export const root = fileURLToPath(new URL("../../../", import.meta.url));

/** Every sample, sound or not. */
export const samples = ["samples", "samples/mistakes"].flatMap((folder) =>
  readdirSync(join(root, folder)).filter((name) => name.endsWith(".tamis")).sort().map((name) => join(folder, name)));

export const textOf = (path) => readFileSync(join(root, path), "utf8").replace(/^\uFEFF/, "");
export const linesOf = (path) => textOf(path).split(/\r\n|\n|\r/);

/** The grammar's nodes of each file: `[kind, line, column, line, column]`. */
export function nodesOf(paths) {
  const program = process.env.TAMIS_NODES ?? join(root, "target/debug/examples/nodes");
  return JSON.parse(execFileSync(program, paths, { cwd: root, encoding: "utf8", maxBuffer: 1 << 28 }));
}

/** What a highlighter colours, as the grammar calls it; a range is a number there. */
export const KINDS = [
  "recipe_label", "title", "header_label", "section_label", "group_name", "number", "unit", "hedge", "mention_name", "reference_title", "comment", "query", "stet", "check_code",
  "reason", "result_name", "step_number", "escape",
];

/** Every place at which a highlighter that gives `runs(lines, path)` differs from the grammar, over all samples. */
export async function wrongIn(runs, kinds = KINDS) {
  const nodes = nodesOf(samples);
  const wrong = [];
  for (const path of samples) {
    const lines = linesOf(path);
    const expected = runsOf(nodes[path], lines).map(([kind, ...place]) => [kind === "range" ? "number" : kind, ...place]);
    wrong.push(...differences(lines, expected, await runs(lines, path), kinds).map((text) => `${path}:${text}`));
  }
  return wrong;
}

/** One kind for each place of each line; later runs win over earlier ones. */
function paint(lines, runs) {
  const kinds = lines.map((line) => new Array(line.length).fill(""));
  for (const [kind, line, from, to] of runs) kinds[line]?.fill(kind, from, Math.min(to, lines[line].length));
  return kinds;
}

/** Nodes as runs: one for each line that a node covers. */
export function runsOf(nodes, lines) {
  return nodes.flatMap(([kind, fromLine, fromColumn, toLine, toColumn]) =>
    Array.from({ length: toLine - fromLine + 1 }, (_, nth) => {
      const line = fromLine + nth;
      return [kind, line, nth === 0 ? fromColumn : 0, line === toLine ? toColumn : (lines[line] ?? "").length];
    }));
}

/** Where two paintings of the same lines differ, as `line: expected [words], found [words]`. */
export function differences(lines, expected, found, kinds) {
  const wanted = (painted) => painted.map((line) => line.map((kind) => (kinds.includes(kind) ? kind : "")));
  const one = wanted(paint(lines, expected));
  const other = wanted(paint(lines, found));
  return lines.flatMap((line, number) => {
    const wrong = [...line].some((_, at) => /[\p{L}\p{N}]/u.test(line[at]) && one[number][at] !== other[number][at]);
    return wrong ? [`${number + 1}: ${line}\n     expected ${marked(line, one[number])}\n     found    ${marked(line, other[number])}`] : [];
  });
}

function marked(line, kinds) {
  const parts = [];
  for (let at = 0; at < line.length; at++) {
    if (!kinds[at]) continue;
    const from = at;
    while (at + 1 < line.length && kinds[at + 1] === kinds[from]) at++;
    parts.push(`${kinds[from]}(${line.slice(from, at + 1).trim()})`);
  }
  return parts.join(" ");
}

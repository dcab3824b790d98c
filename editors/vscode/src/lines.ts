// What a line of a manuscript is, as far as a line tells. For what has to work before the server is up and without it: typing,
// folding, the status bar, the preview. What a recipe means is a question for the server.

import words from "../../../grammar/words.json";

/** Lines of a text, from 0. */
export interface Lines {
  readonly count: number;
  at(line: number): string;
}

export function linesOf(text: string): Lines {
  const lines = text.replace(/^\uFEFF/, "").split(/\r\n|\n|\r/);
  return { count: lines.length, at: (line) => lines[line] ?? "" };
}

export type Section = "equipment" | "ingredients" | "method" | "tests" | "prose";

const oneOf = (labels: readonly string[]) => labels.join("|");
const remark = String.raw`(?:$|\/\/|\?\?)`;
const heading = (labels: readonly string[]) =>
  new RegExp(String.raw`^(${oneOf(labels)})(?:[ \t]+([^.!?;\[\]="()]{1,80}?)|[ \t]*\(([^.!?;\[\]="()]{1,80})\))?[ \t]*:[ \t]*${remark}`, "i");

const TITLE = new RegExp(String.raw`^(?:${oneOf(words.label_recipe)}):(.*)$`, "i");
const HEADER = new RegExp(String.raw`^(${oneOf(words.label_header)}):(.*)$`, "i");
const PROSE = new RegExp(String.raw`^(${oneOf(words.label_prose)}|make[- ]ahead):(.*)$`, "i");
const LISTS: readonly (readonly [Section, RegExp])[] = [
  ["equipment", heading(words.label_equipment)],
  ["ingredients", heading(words.label_ingredients)],
  ["method", heading(words.label_method)],
  ["tests", heading(words.label_tests)],
];
const GROUP = new RegExp(String.raw`^(?=\p{L})([^.!?;:\[\]="]{1,88}):[ \t]*${remark}`, "u");
const BARE_GROUP = /^(?:for|to)(?:[ \t]+[^\s\d.,:;!?()/[\]="]+){1,5}[ \t]*$/i;

/** What stands behind `Recipe:`, if the line is one. */
export const titleOf = (line: string): string | undefined => TITLE.exec(line)?.[1]?.trim();

/** Label and value of a header. */
export function headerOf(line: string): { label: string; value: string } | undefined {
  const found = HEADER.exec(line);
  return found ? { label: found[1] ?? "", value: (found[2] ?? "").trim() } : undefined;
}

export interface Heading {
  readonly section: Section;
  readonly label: string;
  /** The group that the heading names: `Ingredients for the dough:`. */
  readonly group: string;
  /** Prose on the label's own line. */
  readonly rest: string;
}

/** The heading of a section, if the line is one. */
export function headingOf(line: string): Heading | undefined {
  for (const [section, pattern] of LISTS) {
    const found = pattern.exec(line);
    if (found) return { section, label: found[1] ?? "", group: (found[2] ?? found[3] ?? "").trim(), rest: "" };
  }
  const found = PROSE.exec(line);
  return found ? { section: "prose", label: found[1] ?? "", group: "", rest: (found[2] ?? "").trim() } : undefined;
}

/** The name of a group heading. One without a colon stands alone between blank lines, which the caller knows. */
export const groupOf = (line: string, alone: boolean): string | undefined =>
  GROUP.exec(line)?.[1]?.trim() ?? (alone && BARE_GROUP.test(line) ? line.trim() : undefined);

export const isBlank = (line: string): boolean => line.trim() === "";
export const isRemark = (line: string): boolean => /^[ \t]*(?:\/\/|\?\?)/.test(line);
export const isStet = (line: string): boolean => /^[ \t]*stet[ \t]+\p{L}/iu.test(line);
export const isIndented = (line: string): boolean => /^[ \t]+\S/.test(line);

/** The bullet of an item, with the space behind it. */
export const bulletOf = (line: string): string | undefined => /^[ \t]*[-*•·–—▪●○☐◦■□](?:[ \t]+|$)/.exec(line)?.[0];

export interface Numbering {
  /** All up to the step's first word: `  12. `. */
  readonly mark: string;
  readonly before: string;
  readonly number: number;
  /** What stands behind the number, up to the text. */
  readonly after: string;
}

/** The number of a step: `3. `, `3) `, `Step 3: `. */
export function numberingOf(line: string): Numbering | undefined {
  const found = /^([ \t]*(?:step[ \t]+(?=\d+[ \t]*[.):])|(?=\d+[ \t]*[.)])))(\d{1,3})([ \t]*[.):](?!\d)[ \t]*)/i.exec(line);
  if (!found) return undefined;
  const [mark = "", before = "", number = "", after = ""] = found;
  return { mark, before, number: Number(number), after };
}

/** The section that a line stands in, and the line of its heading. */
export function sectionAt(lines: Lines, line: number): { section: Section; heading: number } | undefined {
  for (let at = Math.min(line, lines.count - 1); at >= 0; at--) {
    const text = lines.at(at);
    if (titleOf(text) !== undefined) return undefined;
    const heading = headingOf(text);
    if (heading) return { section: heading.section, heading: at };
  }
  return undefined;
}

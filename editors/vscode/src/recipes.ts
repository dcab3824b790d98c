// Where the recipes of a manuscript and their sections stand, and what their headers say.

import { type Lines, headerOf, headingOf, isBlank, titleOf } from "./lines";

export interface Facts {
  readonly title: string;
  readonly serves: string;
  readonly time: string;
}

/** The headers of the recipe that a line stands in. */
export function factsAt(lines: Lines, line: number): Facts {
  let start = Math.min(line, lines.count - 1);
  while (start > 0 && titleOf(lines.at(start)) === undefined) start--;
  const facts = { title: titleOf(lines.at(start)) ?? "", serves: "", time: "" };
  for (let at = start + 1; at < lines.count; at++) {
    const text = lines.at(at);
    if (headingOf(text) || titleOf(text) !== undefined) break;
    const header = headerOf(text);
    const value = header?.value.replace(/\s(?:\/\/|\?\?).*$/, "") ?? "";
    if (/^serves$/i.test(header?.label ?? "")) facts.serves = value;
    if (/^time$/i.test(header?.label ?? "")) facts.time = value;
  }
  return facts;
}

/** The whole time, where a header gives several: `20 min active, 1 h 20 min total`. */
export const wholeTime = (time: string): string => /([^,;]*?)[ \t]*\btotal\b/i.exec(time)?.[1]?.trim() || time.split(/[,;]/)[0]?.trim() || "";

/** First and last line of each recipe and each section, blank lines at the end left out. */
export function folds(lines: Lines): [number, number][] {
  const out: [number, number][] = [];
  let recipe = -1;
  let section = -1;
  const close = (start: number, end: number) => {
    let last = end - 1;
    while (last > start && isBlank(lines.at(last))) last--;
    if (start >= 0 && last > start) out.push([start, last]);
  };
  for (let line = 0; line < lines.count; line++) {
    const title = titleOf(lines.at(line)) !== undefined;
    if (!title && !headingOf(lines.at(line))) continue;
    close(section, line);
    section = title ? -1 : line;
    if (!title) continue;
    close(recipe, line);
    recipe = line;
  }
  close(section, lines.count);
  close(recipe, lines.count);
  return out;
}

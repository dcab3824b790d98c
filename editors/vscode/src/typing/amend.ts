// What is put right after Enter: an empty item or step ends the list and goes, and the steps behind a new one count on. Pure, so that
// it can be tried without an editor. None of it touches the line that is being typed.

import { type Lines, bulletOf, headingOf, isBlank, numberingOf, sectionAt, titleOf } from "../lines";

/** Replaces text from one place to another; both count lines and columns from 0. */
export interface Replacement {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly text: string;
}

/** What is to be amended after Enter on `line`, which has added `added` behind it. */
export function amend(lines: Lines, line: number, added: string): Replacement[] {
  if (!/^\r?\n/.test(added)) return [];
  const section = sectionAt(lines, line)?.section;
  if (section === undefined || section === "prose") return [];
  if (isEmpty(lines.at(line))) return /^\r?\n[ \t]*$/.test(added) ? [gone(lines, line), ...closed(lines, line)] : [];
  const mark = /^\r?\n(?:\r?\n)?((?:Step )?\d{1,3}[.):] )$/.exec(added)?.[1];
  const fresh = line + added.split("\n").length - 1;
  const step = section === "method" && mark !== undefined && lines.at(fresh).startsWith(mark) ? numberingOf(mark) : undefined;
  return step ? renumbered(lines, fresh + 1, step.number, 1) : [];
}

/** Whether nothing stands behind a mark. */
function isEmpty(line: string): boolean {
  const mark = numberingOf(line)?.mark ?? bulletOf(line);
  return mark !== undefined && isBlank(line.slice(mark.length));
}

/** The mark taken away; and its line, where the one above is blank already. */
function gone(lines: Lines, line: number): Replacement {
  const from = [line, 0] as const;
  return isBlank(lines.at(line - 1)) ? { from, to: [line + 1, 0], text: "" } : { from, to: [line, lines.at(line).length], text: "" };
}

/** The steps behind one that goes: they count on from the one before it. */
function closed(lines: Lines, line: number): Replacement[] {
  const step = numberingOf(lines.at(line));
  return step ? renumbered(lines, line + 1, step.number + 1, -1) : [];
}

/** The steps from `line` on that were numbered from `number` up, without a gap, each higher `by` so much. */
function renumbered(lines: Lines, line: number, number: number, by: 1 | -1): Replacement[] {
  const changes: Replacement[] = [];
  for (let at = line; at < lines.count; at++) {
    const text = lines.at(at);
    if (headingOf(text) || titleOf(text) !== undefined) break;
    const step = numberingOf(text);
    if (!step) continue;
    if (step.number !== number) break;
    const column = step.before.length;
    changes.push({ from: [at, column], to: [at, column + String(number).length], text: String(number + by) });
    number++;
  }
  return changes;
}

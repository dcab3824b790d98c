// Manuscripts inside of Markdown: what stands in a fence whose info string begins with `tamis`.

import type { Lines } from "./lines";

const FENCE = /^ {0,3}(`{3,}|~{3,})[ \t]*([^`\s]*)/;

/** Whether a line opens a fence with a manuscript. */
export const opensManuscript = (line: string): boolean => FENCE.exec(line)?.[2]?.toLowerCase() === "tamis";

/** Whether a post has a manuscript in it. */
export function holdsManuscript(lines: Lines): boolean {
  for (let line = 0; line < lines.count; line++) if (opensManuscript(lines.at(line))) return true;
  return false;
}

/** The manuscript that a line of a post stands in, with its first line in the post. */
export function manuscriptAt(lines: Lines, line: number): { first: number; lines: Lines } | undefined {
  let open: { mark: string; first: number; ours: boolean } | undefined;
  for (let at = 0; at < lines.count; at++) {
    const [, mark = "", info = ""] = FENCE.exec(lines.at(at)) ?? [];
    if (!open) {
      if (mark) open = { mark, first: at + 1, ours: opensManuscript(lines.at(at)) };
    } else if (mark.startsWith(open.mark) && info === "" && lines.at(at).trim() === mark) {
      if (open.first <= line && line < at) return open.ours ? stretch(lines, open.first, at) : undefined;
      open = undefined;
    }
    if (at > line && !open) return undefined;
  }
  return open?.ours && open.first <= line ? stretch(lines, open.first, lines.count) : undefined;
}

const stretch = (lines: Lines, first: number, end: number) => ({
  first,
  lines: { count: end - first, at: (line: number) => (line >= 0 && line < end - first ? lines.at(first + line) : "") },
});

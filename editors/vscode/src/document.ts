// The editor's documents, as the parts that know nothing of the editor read them.

import type * as vscode from "vscode";

import type { Lines } from "./lines";
import { holdsManuscript, manuscriptAt } from "./posts";

export const linesIn = (document: vscode.TextDocument): Lines => ({
  count: document.lineCount,
  at: (line) => (line >= 0 && line < document.lineCount ? document.lineAt(line).text : ""),
});

/** Whether there is something in it to check. */
export const isOurs = (document: vscode.TextDocument): boolean =>
  document.languageId === "tamis" || (document.languageId === "markdown" && holdsManuscript(linesIn(document)));

/** The manuscript that a line stands in, and that line in it: the whole document, or a fence of a post. */
export function manuscriptIn(document: vscode.TextDocument, line: number): { lines: Lines; line: number } | undefined {
  if (document.languageId === "tamis") return { lines: linesIn(document), line };
  const own = document.languageId === "markdown" ? manuscriptAt(linesIn(document), line) : undefined;
  return own && { lines: own.lines, line: line - own.first };
}

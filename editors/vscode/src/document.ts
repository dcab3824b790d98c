// The editor's documents, as the parts that know nothing of the editor read them.

import type * as vscode from "vscode";

import type { Lines } from "./lines";

export const linesIn = (document: vscode.TextDocument): Lines => ({
  count: document.lineCount,
  at: (line) => (line >= 0 && line < document.lineCount ? document.lineAt(line).text : ""),
});

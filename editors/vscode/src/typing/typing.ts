// Enter in a manuscript: the rules are given to the editor, and what they leave over is amended.

import * as vscode from "vscode";

import { linesIn } from "../document";
import { amend } from "./amend";
import { rules } from "./rules";

/** Whether Enter goes on with the lists of a document. */
export const continuesLists = (document: vscode.TextDocument): boolean =>
  document.languageId === "tamis" && vscode.workspace.getConfiguration("tamis", document).get("typing.continueLists", true);

export class Typing implements vscode.Disposable {
  private rules: vscode.Disposable | undefined;
  private undone = 0;
  private readonly disposables: vscode.Disposable[];

  constructor() {
    this.disposables = [
      vscode.workspace.onDidChangeConfiguration((change) => change.affectsConfiguration("tamis.typing") && this.configure()),
      vscode.workspace.onDidChangeTextDocument((change) => void this.follow(change)),
    ];
    this.configure();
  }

  private configure(): void {
    this.rules?.dispose();
    this.rules = undefined;
    if (!vscode.workspace.getConfiguration("tamis").get<boolean>("typing.continueLists")) return;
    const onEnterRules = rules.map(({ before, previous, append }) => ({
      beforeText: before,
      ...(previous && { previousLineText: previous }),
      action: { indentAction: vscode.IndentAction.None, appendText: append },
    }));
    this.rules = vscode.languages.setLanguageConfiguration("tamis", { onEnterRules });
  }

  /** Amends what Enter has left. Whoever types on meanwhile makes the edit come too late: then it is worked out anew, unless it was undone. */
  private async follow({ document, contentChanges, reason }: vscode.TextDocumentChangeEvent): Promise<void> {
    if (reason !== undefined) this.undone++;
    const [change, more] = contentChanges;
    const editor = vscode.window.activeTextEditor;
    if (!this.rules || !change || more || reason !== undefined || editor?.document !== document || document.languageId !== "tamis") return;
    const { undone } = this;
    for (let attempt = 0; attempt < 10 && undone === this.undone; attempt++) {
      const replacements = amend(linesIn(document), change.range.start.line, change.text);
      if (replacements.length === 0) return;
      const apply = (edit: vscode.TextEditorEdit) => {
        for (const { from, to, text } of replacements) edit.replace(new vscode.Range(...from, ...to), text);
      };
      if (await editor.edit(apply, { undoStopBefore: false, undoStopAfter: false })) return;
    }
  }

  dispose(): void {
    this.rules?.dispose();
    for (const disposable of this.disposables) disposable.dispose();
  }
}

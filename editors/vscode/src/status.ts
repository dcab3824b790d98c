// The status bar: how many the recipe at the cursor serves, how long it takes, and what was found in the manuscript.

import * as vscode from "vscode";

import { factsAt, wholeTime } from "./recipes";
import { linesIn } from "./document";

const plural = (count: number, one: string, more: string) => `${count} ${count === 1 ? one : more}`;

export class Status implements vscode.Disposable {
  private readonly item = vscode.window.createStatusBarItem("tamis.recipe", vscode.StatusBarAlignment.Right, 110);
  private readonly disposables: vscode.Disposable[];

  /** `checking` tells whether there is a server: without one, that nothing was found says nothing. */
  constructor(private readonly checking: () => boolean) {
    this.item.name = "Recipe";
    this.item.command = "workbench.actions.view.problems";
    const update = () => this.update();
    this.disposables = [
      vscode.window.onDidChangeActiveTextEditor(update),
      vscode.window.onDidChangeTextEditorSelection(update),
      vscode.languages.onDidChangeDiagnostics(update),
      vscode.workspace.onDidChangeConfiguration((change) => change.affectsConfiguration("tamis.statusBar") && update()),
    ];
    update();
  }

  update(): void {
    const editor = vscode.window.activeTextEditor;
    if (editor?.document.languageId !== "tamis" || !vscode.workspace.getConfiguration("tamis").get<boolean>("statusBar.show")) {
      this.item.hide();
      return;
    }
    const { title, serves, time } = factsAt(linesIn(editor.document), editor.selection.active.line);
    const found = vscode.languages.getDiagnostics(editor.document.uri);
    const errors = found.filter(({ severity }) => severity === vscode.DiagnosticSeverity.Error).length;
    const findings = !this.checking() ? "not checked" : found.length ? plural(found.length, "finding", "findings") : "no findings";
    this.item.text = [serves && `Serves ${serves}`, wholeTime(time), findings].filter(Boolean).join(" · ");
    this.item.tooltip = [title, serves && `Serves: ${serves}`, time && `Time: ${time}`, found.length ? `${findings}, ${plural(errors, "error", "errors")} among them` : findings]
      .filter(Boolean)
      .join("\n");
    this.item.show();
  }

  dispose(): void {
    this.item.dispose();
    for (const disposable of this.disposables) disposable.dispose();
  }
}

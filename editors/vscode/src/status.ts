// The status bar: how many the recipe at the cursor serves, how long it takes, and what was found in the manuscript.

import * as vscode from "vscode";

import { factsAt, wholeTime } from "./recipes";
import { manuscriptIn } from "./document";

const WEIGHTS = [
  [vscode.DiagnosticSeverity.Error, "error", "errors"],
  [vscode.DiagnosticSeverity.Warning, "warning", "warnings"],
  [vscode.DiagnosticSeverity.Information, "info", "infos"],
  [vscode.DiagnosticSeverity.Hint, "hint", "hints"],
] as const;

/** How many of each weight: `2 warnings, 1 hint`. */
function weighed(found: readonly vscode.Diagnostic[]): string {
  const counts = WEIGHTS.map(([weight, one, more]) => ({ count: found.filter(({ severity }) => severity === weight).length, one, more }));
  return counts.filter(({ count }) => count > 0).map(({ count, one, more }) => plural(count, one, more)).join(", ");
}

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
    const manuscript = editor && manuscriptIn(editor.document, editor.selection.active.line);
    if (!manuscript || !vscode.workspace.getConfiguration("tamis").get<boolean>("statusBar.show")) {
      this.item.hide();
      return;
    }
    const { title, serves, time } = factsAt(manuscript.lines, manuscript.line);
    // What others find there, as of spelling, is not counted.
    const found = vscode.languages.getDiagnostics(editor.document.uri).filter(({ source }) => source === "tamis");
    const findings = !this.checking() ? "not checked" : found.length ? plural(found.length, "finding", "findings") : "nothing found";
    this.item.text = [serves && `Serves ${serves}`, wholeTime(time), findings].filter(Boolean).join(" · ");
    this.item.tooltip = [title, serves && `Serves: ${serves}`, time && `Time: ${time}`, found.length ? weighed(found) : findings]
      .filter(Boolean)
      .join("\n");
    this.item.show();
  }

  dispose(): void {
    this.item.dispose();
    for (const disposable of this.disposables) disposable.dispose();
  }
}

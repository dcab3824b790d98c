// The printed recipe beside the text. It shows the manuscript that was last worked on, marks the place of the cursor, and a click in it
// leads to the text.

import { randomBytes } from "node:crypto";
import * as vscode from "vscode";

import { linesIn } from "../document";
import { read } from "./read";
import { render } from "./render";

const VIEW = "tamis.preview";

export class Preview implements vscode.Disposable, vscode.WebviewPanelSerializer {
  private panel: vscode.WebviewPanel | undefined;
  private document: vscode.TextDocument | undefined;
  private readonly disposables: vscode.Disposable[];

  constructor(private readonly extension: vscode.Uri) {
    this.disposables = [
      vscode.window.onDidChangeActiveTextEditor((editor) => editor && this.show(editor.document)),
      vscode.workspace.onDidChangeTextDocument(({ document }) => document === this.document && this.print()),
      vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => textEditor.document === this.document && this.follow(textEditor)),
      vscode.window.registerWebviewPanelSerializer(VIEW, this),
    ];
  }

  /** Opens it beside the text of the active editor. */
  open(): void {
    const editor = vscode.window.activeTextEditor;
    if (!editor || editor.document.languageId !== "tamis") return;
    if (this.panel) this.panel.reveal(undefined, true);
    else this.fill(vscode.window.createWebviewPanel(VIEW, "Printed recipe", { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true }, this.options()));
    this.show(editor.document);
  }

  /** Goes on where the window was left. */
  async deserializeWebviewPanel(panel: vscode.WebviewPanel): Promise<void> {
    panel.webview.options = this.options();
    this.fill(panel);
    const editor = [vscode.window.activeTextEditor, ...vscode.window.visibleTextEditors].find((editor) => editor?.document.languageId === "tamis");
    if (editor) this.show(editor.document);
  }

  private options() {
    return { enableScripts: true, localResourceRoots: [vscode.Uri.joinPath(this.extension, "media")] };
  }

  private fill(panel: vscode.WebviewPanel): void {
    this.panel = panel;
    panel.iconPath = { light: vscode.Uri.joinPath(this.extension, "icons/sieve-light.svg"), dark: vscode.Uri.joinPath(this.extension, "icons/sieve-dark.svg") };
    panel.webview.html = this.page(panel.webview);
    panel.webview.onDidReceiveMessage((message: { ready?: true; line?: number }) => {
      if (message.ready) this.print();
      else if (typeof message.line === "number") void this.goTo(message.line);
    });
    panel.onDidDispose(() => (this.panel = undefined));
  }

  private show(document: vscode.TextDocument): void {
    if (!this.panel || document.languageId !== "tamis" || document === this.document) return;
    this.document = document;
    this.print();
  }

  private print(): void {
    if (!this.panel || !this.document) return;
    const manuscript = read(linesIn(this.document));
    const only = manuscript.recipes.length === 1 ? manuscript.recipes[0]?.title.text : undefined;
    this.panel.title = only ? `${only}, printed` : "Printed recipe";
    void this.panel.webview.postMessage({ html: render(manuscript) });
    const editor = vscode.window.visibleTextEditors.find((editor) => editor.document === this.document);
    if (editor) this.follow(editor);
  }

  private follow(editor: vscode.TextEditor): void {
    if (!vscode.workspace.getConfiguration("tamis", editor.document).get<boolean>("preview.followCursor")) return;
    void this.panel?.webview.postMessage({ line: editor.selection.active.line });
  }

  private async goTo(line: number): Promise<void> {
    if (!this.document) return;
    const shown = vscode.window.visibleTextEditors.find((editor) => editor.document === this.document);
    const editor = await vscode.window.showTextDocument(this.document, shown?.viewColumn ?? vscode.ViewColumn.One);
    const place = new vscode.Position(Math.min(line, this.document.lineCount - 1), 0);
    editor.selection = new vscode.Selection(place, place);
    editor.revealRange(editor.selection, vscode.TextEditorRevealType.InCenterIfOutsideViewport);
  }

  /** An empty page that may load its own style and script, and nothing else from anywhere. */
  private page(webview: vscode.Webview): string {
    const nonce = randomBytes(16).toString("base64");
    const media = (name: string) => webview.asWebviewUri(vscode.Uri.joinPath(this.extension, "media", name)).toString();
    return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src ${webview.cspSource}; script-src 'nonce-${nonce}'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Printed recipe</title>
<link rel="stylesheet" href="${media("preview.css")}">
</head>
<body><main></main><script nonce="${nonce}" src="${media("preview.js")}"></script></body>
</html>`;
  }

  dispose(): void {
    this.panel?.dispose();
    for (const disposable of this.disposables) disposable.dispose();
  }
}

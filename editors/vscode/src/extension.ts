// What the extension adds to the editor. Everything but the checking works without the program.

import * as vscode from "vscode";

import { provider as completion } from "./completion";
import { Explain } from "./explain";
import { provider as folding } from "./folding";
import { register as registerOrders } from "./orders";
import { Preview } from "./preview/panel";
import { Server } from "./server";
import { Status } from "./status";
import { Typing } from "./typing/typing";

export function activate(context: vscode.ExtensionContext): void {
  const server = new Server(context);
  const preview = new Preview(context.extensionUri);
  const explain = new Explain(() => server.path);
  const status = new Status(() => server.path !== undefined);
  const command = (name: string, run: () => unknown) => vscode.commands.registerCommand(`tamis.${name}`, run);
  context.subscriptions.push(
    server,
    preview,
    explain.register(),
    new Typing(),
    status,
    server.onDidChange(() => status.update()),
    vscode.languages.registerFoldingRangeProvider({ language: "tamis" }, folding),
    vscode.languages.registerCompletionItemProvider({ language: "tamis" }, completion),
    command("newManuscript", newManuscript),
    command("showPreview", () => preview.open()),
    command("mendAll", mendAll),
    command("explain", () => explain.atCursor()),
    ...registerOrders((name, about) => server.order(name, about)),
    command("chooseServer", () => server.choose()),
    command("restartServer", () => server.restart()),
    command("showOutput", () => server.show()),
  );
  for (const editor of vscode.window.visibleTextEditors) indent(editor);
}

/** An editor that the window was opened with was there before the language was, and is indented like plain text: it gets what is set. */
function indent(editor: vscode.TextEditor): void {
  const settings = vscode.workspace.getConfiguration("editor", editor.document);
  if (editor.document.languageId !== "tamis" || settings.get<boolean>("detectIndentation")) return;
  editor.options = { tabSize: settings.get<number>("tabSize"), insertSpaces: settings.get<boolean>("insertSpaces") };
}

/** A new manuscript with the skeleton of a recipe, at the first gap to fill. */
async function newManuscript(): Promise<void> {
  const document = await vscode.workspace.openTextDocument({ language: "tamis", content: "" });
  await vscode.window.showTextDocument(document);
  await vscode.commands.executeCommand("editor.action.insertSnippet", { langId: "tamis", name: "Recipe" });
}

const mendAll = () => vscode.commands.executeCommand("editor.action.sourceAction", { kind: "source.fixAll.tamis", apply: "first" });

// What completes without the program.

import * as vscode from "vscode";

import { piecesBehind } from "./pieces";

export const provider: vscode.CompletionItemProvider = {
  provideCompletionItems: (document, position) =>
    piecesBehind(document.lineAt(position).text.slice(0, position.character)).map(({ word, name, description, body }) => {
      const item = new vscode.CompletionItem({ label: word, description: name }, vscode.CompletionItemKind.Struct);
      item.documentation = description;
      item.insertText = new vscode.SnippetString(body);
      return item;
    }),
};

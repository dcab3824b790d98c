// What is done to the recipe at the cursor as a whole. The program works out the edits; this asks what has to be asked.

import * as vscode from "vscode";

import { countOf, objection } from "./count";
import { linesIn } from "./document";
import { factsAt } from "./recipes";

/** Sends a command to the program, with its argument. */
export type Send = (command: string, about: object) => Promise<void>;

/** The commands that need nothing but the cursor, and what the program calls them. */
const PLAIN = {
  addMetricMeasures: "tamis.addMetric",
  addUsMeasures: "tamis.addUs",
  bracketMentions: "tamis.markMentions",
  recordTestOfToday: "tamis.recordTest",
};

export function register(send: Send): vscode.Disposable[] {
  const at = (more: object, editor = vscode.window.activeTextEditor) =>
    editor && { uri: editor.document.uri.toString(), position: { line: editor.selection.active.line, character: editor.selection.active.character }, ...more };
  const order = async (command: string, more: object) => {
    const about = at(more);
    if (about) await send(command, about).catch((fault: unknown) => void vscode.window.showErrorMessage(fault instanceof Error ? fault.message : String(fault)));
  };
  const plain = Object.entries(PLAIN).map(([name, command]) => vscode.commands.registerCommand(`tamis.${name}`, () => order(command, {})));
  const scale = vscode.commands.registerCommand("tamis.scaleTo", async (given?: unknown) => {
    const count = typeof given === "number" ? given : await ask();
    if (count !== undefined) await order("tamis.scale", { to: count });
  });
  return [...plain, scale];
}

/** For how many; nothing where nobody answers. */
async function ask(): Promise<number | undefined> {
  const editor = vscode.window.activeTextEditor;
  if (!editor) return undefined;
  const { title, serves } = factsAt(linesIn(editor.document), editor.selection.active.line);
  const typed = await vscode.window.showInputBox({
    title: `Scale ${title || "the recipe"}`,
    prompt: serves ? `It serves ${serves}. For how many shall it be? Amounts follow; look at times and vessels yourself.` : "For how many shall it be?",
    validateInput: objection,
  });
  return typed === undefined ? undefined : countOf(typed);
}

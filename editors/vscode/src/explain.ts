// The page of a check, as `tamis explain` prints it.

import { execFile } from "node:child_process";
import * as vscode from "vscode";

const SCHEME = "tamis-explain";

/** The address of the page of a check: what the program puts behind each finding, for whoever clicks on its code. */
export const PAGES = `${SCHEME}:/{code}.txt`;

/** The code of a finding of ours, if it is one. */
function codeOf({ code, source }: vscode.Diagnostic): string | undefined {
  const value = typeof code === "object" ? String(code.value) : code === undefined ? undefined : String(code);
  return source === "tamis" && value && /^[a-z-]+$/.test(value) ? value : undefined;
}

/** Prose in whole paragraphs, which the editor wraps; manuscripts, which stand indented, as they are. */
const unwrapped = (page: string) => page.replace(/(?<=^\S.*)\n(?=\S)/gm, " ");

/** A page is opened as plain text, which has no colours. */
async function inColour(document: vscode.TextDocument): Promise<vscode.TextDocument> {
  const plain = document.uri.scheme === SCHEME && document.languageId !== "tamis-page";
  return plain ? vscode.languages.setTextDocumentLanguage(document, "tamis-page") : document;
}

export class Explain implements vscode.TextDocumentContentProvider {
  constructor(private readonly program: () => string | undefined) {}

  provideTextDocumentContent(uri: vscode.Uri): Promise<string> {
    const program = this.program();
    if (!program) return Promise.resolve("The program tamis is not running.");
    return new Promise((resolve) => {
      execFile(program, ["explain", uri.path.replace(/^\/|\.txt$/g, "")], { timeout: 20_000 }, (fault, output, errors) => resolve(fault ? errors || fault.message : unwrapped(output)));
    });
  }

  /** Shows the page of the finding at the cursor; of which one, if there are several. */
  async atCursor(): Promise<void> {
    const editor = vscode.window.activeTextEditor;
    if (!editor) return;
    const here = vscode.languages.getDiagnostics(editor.document.uri).filter(({ range }) => range.intersection(editor.selection));
    const codes = [...new Set(here.flatMap((finding) => codeOf(finding) ?? []))];
    const code = codes.length > 1 ? await vscode.window.showQuickPick(codes, { placeHolder: "Which one?" }) : codes[0];
    if (!code) {
      if (codes.length === 0) void vscode.window.showInformationMessage("Nothing was found at the cursor. Place it on an underlined word.");
      return;
    }
    const page = await vscode.workspace.openTextDocument(vscode.Uri.parse(PAGES.replace("{code}", code)));
    await vscode.window.showTextDocument(await inColour(page), { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true, preview: true });
  }

  register(): vscode.Disposable {
    return vscode.Disposable.from(
      vscode.workspace.registerTextDocumentContentProvider(SCHEME, this),
      vscode.workspace.onDidOpenTextDocument(inColour),
    );
  }
}

// The language server: started, restarted, and what to do where there is none.

import * as vscode from "vscode";
import { LanguageClient, State } from "vscode-languageclient/node";

import { isOurs } from "./document";
import { PAGES } from "./explain";
import { find } from "./program";
import { opensManuscript } from "./posts";
import { continuesLists } from "./typing/typing";

const HOW = "How to Get It";
const CHOOSE = "Choose the Program…";

export class Server implements vscode.Disposable {
  private readonly output = vscode.window.createOutputChannel("Tamis", { log: true });
  private readonly status = vscode.languages.createLanguageStatusItem("tamis.server", { language: "tamis" });
  private readonly watching: vscode.Disposable;
  private client: LanguageClient | undefined;
  private turn = Promise.resolve();
  private wanted = false;

  private readonly changed = new vscode.EventEmitter<void>();

  /** Where the program is that serves, if one does. */
  path: string | undefined;

  /** Whether it serves has changed. */
  readonly onDidChange = this.changed.event;

  constructor(private readonly context: vscode.ExtensionContext) {
    this.status.name = "Tamis";
    this.watching = vscode.Disposable.from(
      vscode.workspace.onDidChangeConfiguration((change) => change.affectsConfiguration("tamis.server") && void this.restart()),
      vscode.workspace.onDidOpenTextDocument((document) => this.want(document)),
      vscode.workspace.onDidChangeTextDocument(({ document, contentChanges: [change] }) => {
        // The only thing that makes a post out of other Markdown.
        if (!this.wanted && change && opensManuscript(document.lineAt(change.range.start.line).text)) this.want(document);
      }),
    );
    for (const document of vscode.workspace.textDocuments) this.want(document);
  }

  /** Starts it with the first document that has something to check: whoever writes other Markdown hears nothing of it. */
  private want(document: vscode.TextDocument): void {
    if (!this.wanted && isOurs(document)) void this.restart();
  }

  /** Starts it, or starts it anew. One at a time. */
  restart(): Promise<void> {
    this.wanted = true;
    this.turn = this.turn.then(async () => {
      await this.stop();
      await this.start();
    });
    return this.turn;
  }

  show(): void {
    this.output.show(true);
  }

  /** Has the program do something to a recipe; it tells this editor what to change. */
  async order(command: string, about: object): Promise<void> {
    if (!this.client || !this.path) throw new Error("The program that does this is not running.");
    await this.client.sendRequest("workspace/executeCommand", { command, arguments: [about] });
  }

  /** Asks for the program, and keeps the answer in the settings. */
  async choose(): Promise<void> {
    const [chosen] = (await vscode.window.showOpenDialog({ title: "The program tamis", openLabel: "Use This Program", canSelectMany: false })) ?? [];
    if (chosen) await vscode.workspace.getConfiguration("tamis").update("server.path", chosen.fsPath, vscode.ConfigurationTarget.Global);
  }

  private async start(): Promise<void> {
    this.tell("Starting", true);
    const setting = vscode.workspace.getConfiguration("tamis").get<string>("server.path") ?? "";
    const bundled = vscode.Uri.joinPath(this.context.extensionUri, "server").fsPath;
    const found = await find(setting, bundled, vscode.workspace.workspaceFolders?.[0]?.uri.fsPath);
    if ("fault" in found) {
      this.miss(found.fault);
      return;
    }
    this.output.info(`${found.path}, version ${found.version}`);
    const client = new LanguageClient("tamis", "Tamis", { command: found.path, args: ["lsp"] }, {
      documentSelector: [{ language: "tamis" }, { language: "markdown" }, { scheme: "file", pattern: "**/tamis.toml" }],
      outputChannel: this.output,
      diagnosticCollectionName: "tamis",
      initializationOptions: { pages: PAGES },
      synchronize: { configurationSection: "tamis" },
      middleware: {
        // Enter is followed at once by what `typing/` does, which the server would only do again.
        provideOnTypeFormattingEdits: (document, position, sign, options, token, next) =>
          sign === "\n" && continuesLists(document) ? undefined : next(document, position, sign, options, token),
      },
    });
    this.client = client;
    client.onDidChangeState(({ newState }) => this.follow(client, newState, found));
    try {
      await client.start();
    } catch (fault) {
      this.miss(`${found.path} could not be started: ${fault instanceof Error ? fault.message : String(fault)}`);
    }
  }

  private follow(client: LanguageClient, state: State, { path, version }: { path: string; version: string }): void {
    if (client !== this.client) return;
    if (state === State.Running) this.tell(`Checking: tamis ${version}`, false, path);
    if (state === State.Stopped) this.fail("Not checking: the program has ended", "tamis.restartServer", "Start Again");
    this.serve(state === State.Running ? path : undefined);
  }

  private serve(path: string | undefined): void {
    this.path = path;
    this.changed.fire();
    void vscode.commands.executeCommand("setContext", "tamis.server", path ? "running" : "stopped");
  }

  private async stop(): Promise<void> {
    const client = this.client;
    this.client = undefined;
    this.serve(undefined);
    await client?.dispose().catch((fault: unknown) => this.output.warn(String(fault)));
  }

  private tell(text: string, busy: boolean, detail?: string): void {
    this.status.text = text;
    this.status.busy = busy;
    this.status.detail = detail;
    this.status.severity = vscode.LanguageStatusSeverity.Information;
    this.status.command = { command: "tamis.showOutput", title: "Show Output" };
  }

  private fail(text: string, command: string, title: string): void {
    this.status.text = text;
    this.status.busy = false;
    this.status.detail = undefined;
    this.status.severity = vscode.LanguageStatusSeverity.Error;
    this.status.command = { command, title };
  }

  /** Says that there is no program, and what can be done. Not awaited: the question may stand as long as it likes. */
  private miss(fault: string): void {
    this.output.error(fault);
    this.serve(undefined);
    this.fail("Not checking: no program", "tamis.chooseServer", CHOOSE);
    void vscode.window.showWarningMessage(`Recipes are coloured and printed, but not checked. ${fault}`, CHOOSE, HOW).then((answer) => {
      if (answer === CHOOSE) void vscode.commands.executeCommand("tamis.chooseServer");
      if (answer === HOW) void vscode.commands.executeCommand("workbench.action.openWalkthrough", `${this.context.extension.id}#start`, false);
    });
  }

  dispose(): void {
    this.watching.dispose();
    this.status.dispose();
    this.changed.dispose();
    void this.stop().finally(() => this.output.dispose());
  }
}

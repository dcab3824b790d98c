// The real workbench and extension host of VS Code, served by code-server and shown by a headless Chromium. Every wait is for a state
// of the page; the limit only ends a run that has failed.

import { spawn } from "node:child_process";
import { createWriteStream, mkdirSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { join } from "node:path";
import { chromium } from "playwright-core";

const PATIENCE = 180_000;

/** Whatever port is free. */
function freePort() {
  return new Promise((resolve, reject) => {
    const server = createServer().once("error", reject).listen(0, "127.0.0.1", () => {
      const { port } = server.address();
      server.close(() => resolve(port));
    });
  });
}

/** What code-server is started with, in a folder of its own: nothing of the user's is read. */
export class Workbench {
  /** `desk`: an empty folder to keep everything in; `codeServer`: where the setup put it; `screens`: where screenshots go, if anywhere. */
  constructor({ desk, codeServer, screens }) {
    Object.assign(this, { desk, screens, entry: join(codeServer, "node_modules/code-server/out/node/entry.js") });
    this.settings = {
      "workbench.startupEditor": "none",
      "workbench.colorTheme": "Default Light Modern",
      "workbench.tips.enabled": false,
      "window.commandCenter": false,
      "chat.commandCenter.enabled": false,
      "editor.minimap.enabled": false,
      "editor.accessibilitySupport": "off",
      "extensions.ignoreRecommendations": true,
      "files.autoSave": "off",
      "git.enabled": false,
      "telemetry.telemetryLevel": "off",
    };
    mkdirSync(join(desk, "user/User"), { recursive: true });
    writeFileSync(join(desk, "user/User/settings.json"), JSON.stringify(this.settings));
  }

  /** Sets what the user has set to the usual and this, as a user does: nobody watches the file from outside. */
  async set(more) {
    await this.command("Preferences: Open User Settings (JSON)");
    const tab = this.page.locator(".tab.active", { hasText: "settings.json" });
    await tab.waitFor();
    await this.page.locator(".editor-group-container.active .monaco-editor.focused").waitFor();
    await this.page.keyboard.press("Control+a");
    await this.page.keyboard.insertText(JSON.stringify({ ...this.settings, ...more }));
    await this.page.keyboard.press("Control+s");
    await this.page.locator(".tab.active:not(.dirty)", { hasText: "settings.json" }).waitFor();
    await this.command("View: Close Editor");
    await tab.waitFor({ state: "detached" });
  }

  arguments(...more) {
    return [this.entry, "--user-data-dir", join(this.desk, "user"), "--extensions-dir", join(this.desk, "extensions"), "--config", join(this.desk, "config.yaml"), ...more];
  }

  /** Installs a packaged extension. */
  async install(vsix) {
    const child = spawn(process.execPath, this.arguments("--install-extension", vsix, "--force"), { stdio: ["ignore", "pipe", "pipe"] });
    let said = "";
    for (const stream of [child.stdout, child.stderr]) stream.on("data", (data) => (said += data));
    const code = await new Promise((resolve) => child.once("close", resolve));
    if (code !== 0 || !/successfully installed/.test(said)) throw new Error(`the extension cannot be installed: ${said}`);
    return said;
  }

  /** Starts the server with that `PATH` and the browser. */
  async start(path) {
    this.port = await freePort();
    const flags = ["--auth", "none", "--bind-addr", `127.0.0.1:${this.port}`, "--disable-telemetry", "--disable-update-check", "--disable-workspace-trust", "--disable-getting-started-override"];
    // The extension host has the environment of a login shell, whose profile may set the path anew.
    writeFileSync(join(this.desk, ".bash_profile"), `export PATH='${path}'\n`);
    const env = { ...process.env, PATH: path, HOME: this.desk, SHELL: "/bin/bash", VSCODE_IPC_HOOK_CLI: "" };
    this.server = spawn(process.execPath, this.arguments(...flags), { env, stdio: ["ignore", "pipe", "pipe"] });
    const log = createWriteStream(join(this.desk, "code-server.log"), { flags: "a" });
    const up = new Promise((resolve, reject) => {
      this.server.once("exit", (code) => reject(new Error(`code-server ended with ${code}; see ${log.path}`)));
      this.server.stdout.on("data", (data) => {
        log.write(data);
        if (/HTTP server listening/.test(data)) resolve();
      });
      this.server.stderr.pipe(log);
    });
    await up;
    const args = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"];
    this.browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args });
  }

  /** A window on a folder, with a file open in it, if one is named. */
  async open(folder, file) {
    const remote = (path) => `vscode-remote://127.0.0.1:${this.port}${path}`;
    const payload = [["skipWelcome", "true"], ["skipReleaseNotes", "true"], ...(file ? [["openFile", remote(join(folder, file))]] : [])];
    const context = await this.browser.newContext({ viewport: { width: 1280, height: 800 } });
    this.page = await context.newPage();
    this.page.setDefaultTimeout(PATIENCE);
    await this.page.goto(`http://127.0.0.1:${this.port}/?folder=${encodeURIComponent(folder)}&payload=${encodeURIComponent(JSON.stringify(payload))}`);
    await this.page.locator(".monaco-workbench").waitFor();
    return this.page;
  }

  /** Runs a command of the palette by its title. */
  async command(title) {
    await this.page.keyboard.press("F1");
    await this.pick(`>${title}`, title);
  }

  /** Types into the box that asks, and takes the answer that says just that. */
  async pick(typed, label) {
    const box = this.page.locator(".quick-input-widget");
    const exactly = new RegExp(`^${label.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")}$`);
    await box.locator("input.input").fill(typed);
    const row = box.locator(".monaco-list-row", { has: this.page.locator(".monaco-icon-label .label-name", { hasText: exactly }) }).first();
    await row.click();
    await row.waitFor({ state: "hidden" });
  }

  /** Puts the cursor at a line and column, both from 1. */
  async goTo(line, column) {
    const input = this.page.locator(".quick-input-widget input").first();
    await this.page.keyboard.press("Control+g");
    await input.waitFor();
    await input.fill(`:${line}:${column}`);
    await this.page.locator(".quick-input-list .monaco-list-row", { hasText: `Go to line ${line}` }).waitFor();
    await this.page.keyboard.press("Enter");
    await input.waitFor({ state: "hidden" });
    await this.page.locator('.statusbar-item[id="status.editor.selection"]', { hasText: `Ln ${line}, Col ${column}` }).waitFor();
  }

  /** The lines that are on the screen, in their order. */
  async lines() {
    return this.page.locator(".editor-group-container.active .monaco-editor .view-lines").first().evaluate((view) =>
      [...view.querySelectorAll(".view-line")]
        .sort((one, other) => parseFloat(one.style.top) - parseFloat(other.style.top))
        .map((line) => line.textContent.replace(/[\u00a0\u200b]/g, (mark) => (mark === "\u00a0" ? " " : ""))));
  }

  /** Waits until `holds` is true of what `look` gives. */
  async until(what, look, holds) {
    const end = Date.now() + PATIENCE;
    for (;;) {
      const seen = await look();
      if (holds(seen)) return seen;
      if (Date.now() > end) throw new Error(`never came: ${what}; last seen: ${JSON.stringify(seen, null, 1)}`);
      await this.page.evaluate(() => new Promise((resolve) => requestAnimationFrame(resolve)));
    }
  }

  /** The frame of a webview that shows what `selector` finds. */
  frameWith(selector) {
    return this.until(`a webview with ${selector}`, async () => {
      for (const frame of this.page.frames()) {
        if ((await frame.locator(selector).count().catch(() => 0)) > 0) return frame;
      }
      return null;
    }, Boolean);
  }

  /** Keeps what is on the screen, for people. */
  async screenshot(name) {
    if (!this.screens || !this.page) return;
    mkdirSync(this.screens, { recursive: true });
    await this.page.screenshot({ path: join(this.screens, `${name}.png`) });
  }

  async stop() {
    await this.browser?.close();
    if (!this.server || this.server.exitCode !== null) return;
    this.server.removeAllListeners("exit");
    const ended = new Promise((resolve) => this.server.once("exit", resolve));
    this.server.kill("SIGTERM");
    await ended;
  }
}

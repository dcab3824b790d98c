// The packaged extension in the real workbench: what an author meets, from opening a manuscript to the printed page.
//
//     TAMIS=target/debug/tamis VSIX=editors/vscode/tamis-0.1.0.vsix CODE_SERVER=target/editors/code-server \
//         [SCREENS=FOLDER] node --test tests/editors/vscode/

import assert from "node:assert/strict";
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { after, before, describe, test } from "node:test";
import { fileURLToPath } from "node:url";

import { Workbench } from "./workbench.mjs";

const root = fileURLToPath(new URL("../../../", import.meta.url));
const { TAMIS = "target/debug/tamis", VSIX = "editors/vscode/tamis-0.1.0.vsix", CODE_SERVER = "target/editors/code-server", SCREENS } = process.env;

// The walnuts of this sample go into no step (samples/mistakes/EXPECTED.tsv).
const SAMPLE = "carrot-tea-bread.tamis";
// Stays shut; something is found in it, too.
const OTHER = "bean-salad.tamis";

/** A desk with samples on it, and a `PATH` with or without the program. */
function desk(program) {
  const folder = mkdtempSync(join(tmpdir(), "tamis-vscode-"));
  mkdirSync(join(folder, "book"));
  mkdirSync(join(folder, "bin"));
  for (const sample of [SAMPLE, OTHER]) cpSync(join(root, "samples/mistakes", sample), join(folder, "book", sample));
  cpSync(join(root, "samples/posts/plant-sale-week.md"), join(folder, "book/plant-sale-week.md"));
  if (program) symlinkSync(resolve(root, TAMIS), join(folder, "bin/tamis"));
  return folder;
}

async function set(program) {
  const folder = desk(program);
  const bench = new Workbench({ desk: folder, codeServer: resolve(root, CODE_SERVER), screens: SCREENS && resolve(SCREENS) });
  await bench.install(resolve(root, VSIX));
  await bench.start(`${join(folder, "bin")}:/usr/bin:/bin`);
  return { folder, bench, book: join(folder, "book") };
}

async function clear({ folder, bench }) {
  await bench?.stop();
  rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
}

/** A test that leaves a picture of the screen, whatever comes of it. Each builds on those before it: after a failure the rest is left out. */
const shown = (get) => (name, run) =>
  test(name, async (context) => {
    const all = get();
    if (all.failed) return context.skip(`"${all.failed}" has failed`);
    const picture = name.replace(/[^a-z0-9]+/gi, "-");
    try {
      await run(all);
    } catch (fault) {
      all.failed = name;
      await all.bench.screenshot(`FAILED-${picture}`);
      throw fault;
    }
    await all.bench.screenshot(picture);
  });

const status = (page, text) => page.locator('.statusbar-item[id*="tamis.recipe"]', { hasText: text }).waitFor();

/** The colours of words that stand alone in what is coloured, once all of them do. */
const coloursOf = (bench, words) =>
  bench.until("colours", () => bench.page.locator(".editor-group-container.active .view-lines").first().evaluate((view, words) => {
    const spans = [...view.querySelectorAll(".view-line span span")];
    const said = (span) => span.textContent.replace(/\u00a0/g, " ").trim();
    return Object.fromEntries(words.map((word) => [word, spans.filter((span) => said(span) === word).map((span) => getComputedStyle(span).color)[0]]));
  }, words), (colours) => Object.values(colours).every(Boolean));

// What is coloured with the program and without it.
let withProgram;

describe("with the program on the PATH", () => {
  let all;
  before(async () => {
    all = await set(true);
    await all.bench.open(all.book, SAMPLE);
  });
  after(() => clear(all));
  const step = shown(() => all);

  step("a manuscript is recognised and checked", async ({ bench: { page } }) => {
    await page.locator('.statusbar-item[id="status.editor.mode"]', { hasText: "Recipe Manuscript" }).waitFor();
    await page.locator(".squiggly-error").first().waitFor();
    await status(page, /^Serves 10 · .* · 1 finding$/);
    await page.locator('.statusbar-item[id="status.editor.indentation"]', { hasText: "Spaces: 2" }).waitFor();
  });

  step("it is coloured", async ({ bench }) => {
    // Only the program tells what in a line is the food.
    const told = await coloursOf(bench, ["Recipe", "Serves", "Ingredients", "2", "cups", "all-purpose flour"]);
    assert.ok(new Set(Object.values(told)).size >= 4, JSON.stringify(told));
    const { "all-purpose flour": food, ...rest } = told;
    withProgram = rest;
  });

  step("a setting takes effect at once", async ({ bench, bench: { page } }) => {
    const above = page.locator(".codelens-decoration", { hasText: "serves 10" });
    await above.waitFor();
    await bench.set({ "tamis.lenses": false });
    await above.waitFor({ state: "detached" });
    await bench.set({});
    await above.waitFor();
  });

  step("the list of findings says what a cook would trip over", async ({ bench }) => {
    await bench.page.keyboard.press("Control+Shift+m");
    await bench.page.locator(".markers-panel .monaco-list-row", { hasText: "No step uses the walnuts" }).waitFor();
  });

  step("so does it for files that are not open", async ({ bench: { page } }) => {
    await page.locator(".markers-panel .monaco-list-row", { hasText: OTHER }).waitFor();
  });

  step("the code of a finding leads to its page", async ({ bench, bench: { page } }) => {
    await page.locator(".markers-panel .monaco-list-row a", { hasText: "ingredient-unused" }).click();
    await page.locator(".tab.active", { hasText: "ingredient-unused.txt" }).waitFor();
    await page.locator(".view-line span.mtkb", { hasText: /^What$/ }).waitFor();
    await bench.command("View: Close Editor");
  });

  step("an amount tells its weight", async ({ bench: { page } }) => {
    await page.locator(".view-line span span", { hasText: /^cups$/ }).first().hover();
    await page.locator(".monaco-hover:not(.hidden)", { hasText: /fl oz|ml/ }).first().waitFor();
  });

  step("the finding is explained", async ({ bench, bench: { page } }) => {
    await page.keyboard.press("Control+1");
    await bench.goTo(21, 19);
    await bench.command("Tamis: Explain the Finding at the Cursor");
    await page.locator(".tab", { hasText: "ingredient-unused.txt" }).waitFor();
    // The first heading: what stands below it may be more than the window holds.
    await page.locator(".view-line span.mtkb", { hasText: /^What$/ }).waitFor();
  });

  step("what is typed is checked at once, and taken back at once", async ({ bench, bench: { page } }) => {
    await page.keyboard.press("Control+2");
    await bench.command("View: Close Editor");
    await bench.goTo(32, 57);
    for (const _ of " and the raisins") await page.keyboard.press("Backspace");
    await page.locator(".markers-panel .monaco-list-row", { hasText: "No step uses the raisins" }).waitFor();
    await status(page, /· 2 findings$/);
    await page.keyboard.type(" and the rai");
    // The workbench suggests of itself to whoever types at the pace of a person; here it is asked.
    await page.keyboard.press("Control+Space");
    await page.locator(".suggest-widget.visible .monaco-list-row", { hasText: "raisins" }).first().waitFor();
    await bench.screenshot("a-word-is-completed");
    await page.keyboard.press("Tab");
    await bench.until("the word in full", () => bench.lines(), (lines) => /then the carrots\b.* and the raisins\b/.test(lines.join(" ")));
    await status(page, /· 1 finding$/);
  });

  step("the light bulb mends it", async ({ bench, bench: { page } }) => {
    await bench.goTo(21, 19);
    await page.keyboard.press("Control+.");
    const fix = page.locator(".action-widget .monaco-list-row", { hasText: "Name the walnuts in step 4" });
    await fix.waitFor();
    await bench.screenshot("the-light-bulb");
    while (!(await fix.evaluate((row) => row.classList.contains("focused")))) await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    await status(page, /· nothing found$/);
  });

  step("another name goes to every place", async ({ bench, bench: { page } }) => {
    await bench.goTo(32, 16);
    await page.keyboard.press("F2");
    const box = page.locator(".rename-box.preview input, .rename-input").first();
    await box.waitFor();
    await bench.screenshot("another-name-is-asked-for");
    await box.fill("flour mix");
    await page.keyboard.press("Enter");
    const see = (what, holds) => bench.until(what, () => bench.lines(), holds);
    await see("the new name in both places", (lines) => /=> flour mix/.test(lines.join(" ")) && /Fold in the flour mix/.test(lines.join(" ")));
    await bench.command("Undo");
    await see("the old name", (lines) => /=> dry mix/.test(lines.join(" ")) && /Fold in the dry mix/.test(lines.join(" ")));
  });

  step("the manuscript is laid out, whole and as one types", async ({ bench, bench: { page } }) => {
    const see = (what, holds) => bench.until(what, () => bench.lines(), (lines) => holds(`\n${lines.join("\n")}\n`));
    await bench.goTo(22, 3);
    await page.keyboard.type("  ");
    await bench.goTo(26, 1);
    await page.keyboard.press("Delete");
    await page.keyboard.type("9");
    await see("what is laid out badly", (text) => /\n-   1\/2 cup.*\n/.test(text) && /\n9\. Heat/.test(text));
    await bench.command("Format Document");
    await see("the layout", (text) => text.includes("\n- 1/2 cup (75 g) raisins\n") && /\n1\. Heat/.test(text));
    await bench.set({ "editor.formatOnType": true });
    await bench.goTo(22, 10);
    await page.keyboard.press("Delete");
    await bench.goTo(22, 16);
    await page.keyboard.press("Backspace");
    await page.keyboard.type(")");
    await see("the space before a restatement", (text) => text.includes("\n- 1/2 cup (75 g) raisins\n"));
    await bench.set({});
  });

  step("the printed recipe follows the text and the cursor", async ({ bench, bench: { page } }) => {
    await bench.goTo(26, 4);
    await page.keyboard.press("Control+k");
    await page.keyboard.press("v");
    const frame = await bench.frameWith("main article");
    const here = (text) => frame.locator(".here", { hasText: text }).waitFor();
    await here("Heat the oven to 350°F");
    await frame.locator("h1", { hasText: "Carrot Tea Bread" }).waitFor();
    assert.doesNotMatch(await frame.locator("main").innerText(), /=>|\/\/|\[/);
    await bench.goTo(32, 1);
    await here("Fold in the dry mix");
    await bench.screenshot("the-printed-recipe");
    await frame.locator("li", { hasText: "grated carrots" }).click();
    await page.locator('.statusbar-item[id="status.editor.selection"]', { hasText: "Ln 20, Col 1" }).waitFor();
    await here("grated carrots");
  });

  step("what stands in the text does not become part of the page", async ({ bench, bench: { page } }) => {
    await bench.goTo(8, 1);
    await page.keyboard.type("<img src=x onerror=alert(1)> ");
    const frame = await bench.frameWith("main article");
    await frame.locator(".headnote", { hasText: "<img src=x onerror=alert(1)>" }).waitFor();
    assert.equal(await frame.locator("main img").count(), 0);
  });

  step("Enter starts the next item and the next step, and ends a list", async ({ bench, bench: { page } }) => {
    const see = (what, holds) => bench.until(what, () => bench.lines(), holds);
    await bench.goTo(22, 25);
    await page.keyboard.press("Enter");
    await page.keyboard.type("1 tsp poppy seeds");
    await page.keyboard.press("Enter");
    await page.keyboard.press("Enter");
    await see("the end of the list", (lines) => lines.join("\n").includes("\n- 1/2 cup (75 g) raisins\n- 1 tsp poppy seeds\n\n\n\nMethod:"));
    await bench.command("Undo");
    await see("the empty item again", (lines) => lines.join("\n").includes("\n- 1 tsp poppy seeds\n- \n\nMethod:"));
    await bench.command("Redo");
    await see("the end of the list again", (lines) => lines.join("\n").includes("\n- 1 tsp poppy seeds\n\n\n\nMethod:"));
    await bench.goTo(33, 97);
    await page.keyboard.press("Enter");
    await page.keyboard.type("Taste it");
    await page.keyboard.press("Shift+Enter");
    await page.keyboard.type("raw.");
    await see("a step of its own, and those behind it counted on", (lines) =>
      /3\. In another bowl[^]*\n\n4\. Taste it\n   raw\.\n\n5\. Fold in/.test(lines.join("\n")));
  });

  step("the file icon and the folds are there", async ({ bench, bench: { page } }) => {
    await bench.command("Fold All");
    await bench.until("a folded recipe", () => bench.lines(), (lines) => lines.length <= 2 && /^Recipe: Carrot Tea Bread/.test(lines[0]));
    await bench.command("Unfold All");
    const icon = await page.locator(".tab .monaco-icon-label").first().evaluate((label) => getComputedStyle(label, "::before").backgroundImage);
    assert.match(icon, /sieve-light\.svg/);
  });

  step("a new manuscript is a skeleton to fill in", async ({ bench, bench: { page } }) => {
    await bench.command("Tamis: New Recipe Manuscript");
    await bench.until("the skeleton", () => bench.lines(), (lines) => lines[0] === "Recipe: Name of the dish" && lines.includes("Method:"));
    await page.keyboard.type("Radish Plate");
    await page.keyboard.press("Tab");
    await page.keyboard.type("6");
    await bench.until("two gaps filled", () => bench.lines(), (lines) => lines[0] === "Recipe: Radish Plate" && lines[1] === "Serves: 6");
    await status(page, /^Serves 6 · 1 h/);
  });

  step("in Markdown a block of ours is coloured and checked", async ({ bench, bench: { page } }) => {
    await page.locator(".explorer-folders-view .monaco-list-row", { hasText: "plant-sale-week.md" }).dblclick();
    await page.locator(".tab.active", { hasText: "plant-sale-week.md" }).waitFor();
    await bench.goTo(15, 1);
    const { Yield, Course, Ingredients, cups } = await coloursOf(bench, ["Yield", "Course", "Ingredients", "cups"]);
    assert.equal(Yield, Course);
    assert.equal(new Set([Yield, Ingredients, cups]).size, 3);
    await status(page, /^Serves 6 · 20 min · nothing found$/);
    await bench.goTo(33, 51);
    for (const _ of ", the [garlic]") await page.keyboard.press("Backspace");
    await page.locator(".markers-panel .monaco-list-row", { hasText: "No step uses the garlic" }).waitFor();
    await status(page, /· 1 finding$/);
    await bench.goTo(3, 1);
    await page.locator('.statusbar-item[id*="tamis.recipe"]').waitFor({ state: "hidden" });
  });

  step("the first steps are explained", async ({ bench, bench: { page } }) => {
    await bench.command("Welcome: Open Walkthrough...");
    await bench.pick("Write a recipe", "Write a recipe with Tamis");
    await page.locator(".getting-started-step", { hasText: "See what a cook would trip over" }).waitFor();
  });
});

describe("without the program", () => {
  let all;
  before(async () => {
    all = await set(false);
    await all.bench.open(all.book, SAMPLE);
  });
  after(() => clear(all));
  const step = shown(() => all);

  step("what is missing is said, with what can be done", async ({ bench: { page } }) => {
    const toast = page.locator(".notification-toast", { hasText: "Recipes are coloured and printed, but not checked." });
    await toast.waitFor();
    await toast.locator(".monaco-button", { hasText: "How to Get It" }).waitFor();
    await status(page, /^Serves 10 · 2 h · not checked$/);
  });

  step("its colours are those that the program tells", async ({ bench }) => {
    assert.deepEqual(await coloursOf(bench, Object.keys(withProgram)), withProgram);
  });

  step("the printed recipe needs no program", async ({ bench, bench: { page } }) => {
    await page.locator(".view-line", { hasText: /Carrot.Tea.Bread/ }).first().click();
    await bench.command("Tamis: Show the Printed Recipe Beside");
    await (await bench.frameWith("main article")).locator("h1", { hasText: "Carrot Tea Bread" }).waitFor();
  });
});

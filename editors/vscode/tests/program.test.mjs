// Where the program is looked for, and what is said where there is none.

import assert from "node:assert/strict";
import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { after, beforeEach, test } from "node:test";

import { load } from "./load.mjs";

const { find } = await load("program.ts");

const { HOME, PATH } = process.env;
let desk;
beforeEach(() => {
  if (desk) rmSync(desk, { recursive: true });
  desk = mkdtempSync(join(tmpdir(), "tamis-program-"));
  process.env.HOME = join(desk, "home");
  process.env.PATH = join(desk, "path");
});
after(() => {
  rmSync(desk, { recursive: true });
  Object.assign(process.env, { HOME, PATH });
});

/** A program that says this when it is asked for its version. */
function program(place, says) {
  const path = join(desk, place);
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, `#!/bin/sh\necho '${says}'\n`);
  chmodSync(path, 0o755);
  return path;
}
const look = (setting = "") => find(setting, join(desk, "bundled"), join(desk, "book"));

test("the setting comes first, then what came with the extension, then the PATH, then where Cargo installs", async () => {
  const places = ["home/.cargo/bin/tamis", "path/tamis", "bundled/tamis"];
  for (const [nth, place] of places.entries()) {
    const path = program(place, `tamis 0.1.${nth}`);
    assert.deepEqual(await look(), { path, version: `0.1.${nth}` });
  }
  const path = program("elsewhere/sieve", "tamis 0.1.3");
  assert.deepEqual(await look(` ${path} `), { path, version: "0.1.3" });
});

test("a path in the setting may start at home or in the folder that is open", async () => {
  const home = program("home/bin/tamis", "tamis 0.1.0");
  assert.deepEqual(await look("~/bin/tamis"), { path: home, version: "0.1.0" });
  const book = program("book/tools/tamis", "tamis 0.2.0");
  assert.deepEqual(await look("tools/tamis"), { path: book, version: "0.2.0" });
});

test("where there is none, it is said where it was looked for", async () => {
  assert.match((await look()).fault, /did not come with this extension and is not on the PATH/);
  // What is set is meant: nothing else is taken in its place.
  program("path/tamis", "tamis 0.1.0");
  const { fault, version } = await look(join(desk, "gone"));
  assert.equal(version, undefined);
  assert.ok(fault.includes(join(desk, "gone")) && fault.includes("tamis.server.path"), fault);
});

test("a folder, a file that cannot be run, and another program of the name are none", async () => {
  mkdirSync(join(desk, "bundled/tamis"), { recursive: true });
  chmodSync(program("path/tamis", "tamis 0.1.0"), 0o644);
  assert.match((await look()).fault, /is not on the PATH/);
  program("home/.cargo/bin/tamis", "a drum sieve, 30 cm");
  assert.match((await look()).fault, /does not run as tamis: a drum sieve, 30 cm$/);
});

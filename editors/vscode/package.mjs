// Makes the .vsix:  node package.mjs [--with PROGRAM --target PLATFORM] [--out FILE]

import { execFileSync } from "node:child_process";
import { chmodSync, copyFileSync, mkdirSync, rmSync } from "node:fs";
import { basename, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";

const options = { with: { type: "string" }, target: { type: "string" }, out: { type: "string" } };
const { values } = parseArgs({ options });
const program = values.with && resolve(values.with);
const out = values.out && resolve(values.out);
if (program && !values.target) throw new Error("A package with a program in it is for one kind of machine: say which, with --target (linux-x64, darwin-arm64, win32-x64, …).");
if (values.target && !program) throw new Error("--target is for a package with a program in it: say which program, --with FILE.");

process.chdir(fileURLToPath(new URL(".", import.meta.url)));
rmSync("server", { recursive: true, force: true });
if (program) {
  mkdirSync("server");
  const copy = `server/${basename(program).endsWith(".exe") ? "tamis.exe" : "tamis"}`;
  copyFileSync(program, copy);
  chmodSync(copy, 0o755);
}
await import("./build.mjs");
const target = values.target ? ["--target", values.target] : [];
const file = out ? ["--out", out] : [];
execFileSync("npx", ["vsce", "package", "--no-dependencies", "--allow-missing-repository", "--skip-license", ...target, ...file], { stdio: "inherit" });

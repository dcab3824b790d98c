// Finds the program `tamis`: where the settings say, else beside the extension, else on the PATH.

import { execFile } from "node:child_process";
import { constants } from "node:fs";
import { access, stat } from "node:fs/promises";
import { homedir } from "node:os";
import { delimiter, isAbsolute, join } from "node:path";

export type Found = { readonly path: string; readonly version: string } | { readonly fault: string; readonly path?: string };

const WINDOWS = process.platform === "win32";
const NAME = WINDOWS ? "tamis.exe" : "tamis";

/** Looks for the program, and tries whether it runs. */
export async function find(setting: string, bundled: string, root: string | undefined): Promise<Found> {
  if (setting.trim()) {
    const path = resolve(setting.trim(), root);
    return (await isProgram(path)) ? run(path) : { fault: `There is no program at ${path}, where the setting tamis.server.path says it is.`, path };
  }
  const onPath = (process.env.PATH ?? "").split(delimiter).filter(Boolean).map((folder) => join(folder, NAME));
  for (const path of [join(bundled, NAME), ...onPath, join(homedir(), ".cargo", "bin", NAME)]) {
    if (await isProgram(path)) return run(path);
  }
  return { fault: "The program tamis is not here: it did not come with this extension and is not on the PATH." };
}

/** `~` is the home folder; what is relative is so to the folder that is open. */
function resolve(path: string, root: string | undefined): string {
  if (path === "~" || path.startsWith("~/")) return join(homedir(), path.slice(1));
  return isAbsolute(path) || !root ? path : join(root, path);
}

async function isProgram(path: string): Promise<boolean> {
  try {
    await access(path, WINDOWS ? constants.F_OK : constants.X_OK);
    return (await stat(path)).isFile();
  } catch {
    return false;
  }
}

function run(path: string): Promise<Found> {
  return new Promise((resolve) => {
    execFile(path, ["--version"], { timeout: 20_000 }, (fault, output, errors) => {
      const version = /^tamis (\S+)/.exec(output)?.[1];
      if (version) resolve({ path, version });
      else resolve({ fault: `${path} does not run as tamis: ${(errors || fault?.message || output).trim().split("\n")[0]}`, path });
    });
  });
}

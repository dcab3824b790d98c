// A module of the extension that knows nothing of the editor, built on the fly.

import { fileURLToPath } from "node:url";
import { build } from "esbuild";

export async function load(path) {
  const entry = fileURLToPath(new URL(`../src/${path}`, import.meta.url));
  const { outputFiles } = await build({ entryPoints: [entry], bundle: true, write: false, format: "esm", platform: "node", logLevel: "warning" });
  return import(`data:text/javascript;base64,${Buffer.from(outputFiles[0].contents).toString("base64")}`);
}

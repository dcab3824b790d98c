// Makes dist/: the extension as one file, the TextMate grammars, the schema of the style sheet.

import { copyFileSync, mkdirSync, rmSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

import { fence, page, tamis } from "./grammar/textmate.mjs";

process.chdir(fileURLToPath(new URL(".", import.meta.url)));
rmSync("dist", { recursive: true, force: true });
mkdirSync("dist");
writeFileSync("dist/tamis.tmLanguage.json", JSON.stringify(tamis, null, 1));
writeFileSync("dist/page.tmLanguage.json", JSON.stringify(page, null, 1));
writeFileSync("dist/fence.tmLanguage.json", JSON.stringify(fence, null, 1));
copyFileSync("../schema/tamis.schema.json", "dist/tamis.schema.json");
await build({ entryPoints: ["src/extension.ts"], outfile: "dist/extension.js", bundle: true, platform: "node", format: "cjs", target: "node20", external: ["vscode"], minify: true, legalComments: "linked", logLevel: "warning" });

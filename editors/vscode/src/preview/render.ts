// A recipe as HTML, with the author's marks taken off. Everything that was typed is escaped.

import units from "../../../../grammar/units.json";
import words from "../../../../grammar/words.json";
import type { Block, Group, Manuscript, Part, Recipe, Step } from "./read";

/** The whole manuscript. Each piece says on which lines it stands. */
export function render({ preamble, recipes }: Manuscript): string {
  if (recipes.length === 0 && preamble.length === 0) return `<p class="empty">Nothing to print yet.</p>`;
  return prose("preamble", preamble) + recipes.map(recipe).join("\n");
}

function recipe({ title, headers, headnote, parts }: Recipe): string {
  const lists = parts.filter((part) => part.section === "equipment" || part.section === "ingredients");
  const rest = parts.filter((part) => part.section === "method" || part.section === "prose");
  const body = [
    `<h1${place(title)}>${inline(title.text) || "Untitled recipe"}</h1>`,
    facts(headers),
    prose("headnote", headnote),
    `<div class="columns">`,
    section("lists", lists),
    section("text", rest),
    `</div>`,
  ];
  return `<article>${body.join("\n")}</article>`;
}

const section = (name: string, parts: Part[]) => (parts.length ? `<div class="${name}">${parts.map(part).join("\n")}</div>` : "");

// What is for the desk and not for the page.
const UNPRINTED = ["status", "keywords", "photo"];

function facts(headers: Recipe["headers"]): string {
  const printed = headers.filter(({ label, text }) => text && !UNPRINTED.includes(label.toLowerCase()));
  if (printed.length === 0) return "";
  return `<dl>${printed.map((header) => `<div${place(header)}><dt>${escape(capital(header.label))}</dt><dd>${inline(header.text)}</dd></div>`).join("")}</dl>`;
}

function part({ section, label, groups }: Part): string {
  const heading = `<h2${place(label)}>${escape(capital(label.text))}</h2>`;
  const render = { equipment: items, ingredients: items, tests: items, method: steps, prose: paragraphs }[section];
  return heading + render(groups);
}

const items = (groups: Group[]) => groups.map((group) => named(group) + list("ul", group.blocks)).join("");
const steps = (groups: Group[]) => groups.map((group) => named(group) + list("ol", group.blocks)).join("");
const paragraphs = (groups: Group[]) => groups.map((group) => named(group) + group.blocks.map(paragraph).join("")).join("");

// A step has the number that was typed, or none.
const list = (tag: string, blocks: Step[]) => (blocks.length ? `<${tag}>${blocks.map((block) => `<li${numbered(block)}${place(block)}>${inline(block.text)}</li>`).join("")}</${tag}>` : "");
const numbered = ({ number }: Step) => (number === undefined ? "" : ` value="${number}"`);

const named = ({ name }: Group) => (name ? `<h3${place(name)}>${inline(name.text)}</h3>` : "");
const prose = (name: string, blocks: Block[]) => (blocks.length ? `<div class="${name}">${blocks.map(paragraph).join("")}</div>` : "");
const paragraph = (block: Block) => `<p${place(block)}>${inline(block.text)}</p>`;
const place = ({ from, to }: Block) => ` data-from="${from}" data-to="${to}"`;
const capital = (label: string) => label.charAt(0).toUpperCase() + label.slice(1).toLowerCase();

export const escape = (text: string): string =>
  text.replace(/[&<>"']/g, (mark) => ({ "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;" })[mark] ?? mark);

const unitWords = units.flatMap((unit) => [...unit.words, ...("cased" in unit ? (unit.cased ?? []) : [])]);
const amountWords = new Set([...unitWords, ...words.between_amounts, ...words.hedge, ...words.size, ...words.number, "in"].flatMap((word) => word.toLowerCase().split(" ")));

/** Whether a bracket restates an amount: it is printed as it stands. */
function restates(inside: string): boolean {
  return /[\d½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]/.test(inside) && (inside.toLowerCase().match(/[\p{L}]+/gu) ?? []).every((word) => amountWords.has(word));
}

const MARKS = /\\([[\]=/?\\])|\[\[([^\]\n]*)\]\]?|\[(?:[aA][uU]|[eE][dD]):[^\]\n]*\]?|\[([^[\]]*)\]|(?:^|[ \t])(?:\/\/|\?\?).*$|[ \t]*=>.*$|\bTK\b/gm;

/** An amount and its unit, which no line may part: `2 cups`, `3-inch`. */
const AMOUNT = new RegExp(String.raw`([\d½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞])([ -])(?=(?:${unitWords.map((word) => word.replace(".", "\\.")).join("|")})(?![\p{L}\d]))`, "giu");
const together = (text: string) => text.replace(AMOUNT, (_, end: string, gap: string) => end + (gap === "-" ? "\u2011" : "\u00a0"));

/** Prose as it is printed: without brackets, results and remarks. */
export function inline(text: string): string {
  let html = "";
  let at = 0;
  for (const found of text.matchAll(MARKS)) {
    const [whole, escaped, reference, mention] = found;
    html += escape(text.slice(at, found.index));
    at = found.index + whole.length;
    if (escaped !== undefined) html += escape(escaped);
    else if (reference !== undefined) html += `<cite>${escape(reference.trim())}</cite>`;
    else if (mention !== undefined) html += restates(mention) ? escape(whole) : escape(mention);
  }
  return together((html + escape(text.slice(at))).replace(/\s+/g, " ").trim());
}

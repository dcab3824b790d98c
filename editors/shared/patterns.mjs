// What every highlighter looks for, as regular expressions that Oniguruma, PCRE and their kin all read. The words of units, labels and
// numbers are those of the one table that the real grammar reads.

import { readFileSync } from "node:fs";

const read = (name) => JSON.parse(readFileSync(new URL(`../../grammar/${name}`, import.meta.url), "utf8"));
export const words = read("words.json");
export const units = read("units.json");

// Longest first: the first that fits is taken.
export const oneOf = (list) => [...list].sort((a, b) => b.length - a.length || (a < b ? -1 : 1)).map(escape).join("|");
const escape = (word) => word.replace(/[.*+?^${}()|[\]\\]/g, "\\$&").replace(/ /g, "[ \\t]+");
export const either = (list) => `(?i:${oneOf(list)})`;

export const isWord = (word) => /^\p{L}/u.test(word);
export const unitWords = units.filter((unit) => !unit.before).flatMap((unit) => unit.words);
export const signs = unitWords.filter((word) => !isWord(word) && !/[°º˚]/.test(word));
export const cased = units.flatMap((unit) => unit.cased ?? []);
export const behindWords = units.filter((unit) => !unit.digits && !unit.before && unit.kind !== "temperature").flatMap((unit) => unit.words).filter(isWord);

export const FRACTION = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒";
export const gap = "[ \\t\\x{a0}\\x{2009}\\x{202f}]";
const decimal = "(?:(?:\\d{1,3}(?:,\\d{3})+|\\d+)(?:[.,]\\d+)*|\\.\\d+)";
const fraction = "\\d+[/⁄]\\d+(?:[/⁄]\\d+)*";
const mixed = `\\d+(?:(?:${gap}+|-|${gap}+(?:and|&)${gap}+)\\d+[/⁄]\\d+|(?:${gap}*|-|${gap}+and${gap}+)[${FRACTION}])`;
export const figure = `(?:${mixed}|${fraction}|${decimal}|[${FRACTION}])`;
export const range = `${figure}(?:(?:-?${gap}*[-‐‑‒–—]${gap}*|-?${gap}+(?:to|or|TO|OR)${gap}+)${figure})?`;
export const noMeasure = "\\d{4}-\\d{2}-\\d{2}|\\d{1,2}:\\d{2}|\\d*(?:1st|2nd|3rd|[04-9]th|1[1-3]th)";

export const ends = "(?![\\p{L}\\d'’])";
export const starts = "(?<![\\p{L}\\d'’])";
export const size = either([...words.size, ...words.hedge]);
export const hedgeOrSize = `(${either(words.hedge)})|${either(words.size)}`;
const degree = `[°º˚](?:${gap}*[FfCc]${ends})?`;
const inches = `(?<=-)(?i:in)${ends}\\.?|(?i:in)${ends}(?:\\.|(?=${gap}*(?:$|[().,;:/\\]x×]|${either(words.noun_of_size)}${ends})))`;
// A dot belongs to a short unit where the sentence goes on behind it.
const short = `(?:${either(unitWords.filter((word) => /^\p{L}{1,5}$/u.test(word)))}|(?:${oneOf(cased)}))\\.(?=${gap}+[\\p{Ll}\\d${FRACTION}(])`;
export const unit = `(?:${degree}|${oneOf(signs)}|${short}|(?:${either(unitWords.filter(isWord))}|(?:${oneOf(cased)}))${ends}|${inches})`;
export const number = either(words.number);
const part = either([...words.part, "a", "an", "of"]);
export const spelled = `${number}(?:(?:-|${gap}+)(?:${part}|${number}))*(?:${gap}+(?i:to|or|and)${gap}+${number}(?:${gap}+${part})*)?`;
export const behind = `(?!(?i:second)${ends})${either(behindWords)}`;
export const hedge = `${either(words.hedge)}|(?i:up${gap}+to|at${gap}+(?:least|most))`;

export const remark = "(?=//|\\?\\?)";
export const headingGroup = `(?:${gap}+[^.!?;\\[\\]="()\\n]{1,80}?|${gap}*\\([^.!?;\\[\\]="()\\n]{1,80}\\))`;
export const headingEnd = `${gap}*:${gap}*(?:$|${remark})`;
export const list = (labels) => `(?i:${oneOf(labels)})${headingGroup}?${headingEnd}`;
export const prose = `(?i:${oneOf(words.label_prose)}|make(?:-|${gap}+)ahead):`;
export const title = `(?i:${oneOf(words.label_recipe)}):`;
export const lists = [...words.label_equipment, ...words.label_ingredients, ...words.label_method, ...words.label_tests];
export const anySection = `(?:${title}|${prose}|${list(lists)})`;
export const group = `(?=\\p{L}[^.!?;\\[\\]="\\n]{0,88}:${gap}*(?:$|${remark}))(?!${gap})([^:\\n]+)(:)`;
// Without the colon; that it stands alone between blank lines is more than one line can tell.
export const bareGroup = `(?i:for|to)(?:${gap}+(?![\\d])[^\\s\\d.,:;!?()/\\[\\]="]+){1,5}${gap}*$`;
export const bullet = "[-*•·–—▪●○☐◦■□]";
export const stepNumber = `(?i:step${gap}+)?\\d{1,3}${gap}*[.):](?!\\d)`;


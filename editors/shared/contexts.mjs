// The highlighting of editors that move from context to context: Kate and Sublime Text. One description for both.
//
// A rule: `match`, the `style` of what it takes (none: that of the context), and where it leads: `push` a context, `set` another in its
// place, or `pop`. A context: its own `style`, its `rules` (a name is another context's rules), whether it ends with the line (`line`), with
// a blank one (`blank`), or as soon as nothing in it fits (`brief`).

import { FRACTION, anySection, bareGroup, behind, bullet, either, ends, gap, headingEnd, headingGroup, hedge, noMeasure, oneOf, range, size, spelled, starts, stepNumber, unit, unitWords, isWord, words } from "./patterns.mjs";

const remark = `(?:^|(?<=[ \\t]))`;
const sizeBeforeUnit = `${size}${gap}+(?=(?:${either(unitWords.filter(isWord))})${ends})`;
const pack = `${gap}*\\(${gap}*(?:about${gap}+)?[\\d.${FRACTION}][^()\\n]*${unit}[^()\\n]*\\)${gap}*${unit}`;
const heading = (labels, to) => [
  { match: `^(?i:${oneOf(labels)})(?=${headingEnd})`, style: "section", push: to },
  { match: `^(?i:${oneOf(labels)})(?=${headingGroup}${headingEnd})`, style: "section", push: `${to} group` },
];

export const contexts = {
  manuscript: {
    rules: [
      "remarks", "stet",
      { match: `^\\x{FEFF}?(?i:${oneOf(words.label_recipe)})(?=:)`, style: "recipe", push: "title" },
      ...heading([...words.label_equipment, ...words.label_ingredients, ...words.label_tests], "list"),
      ...heading(words.label_method, "method"),
      { match: `^(?i:${oneOf(words.label_prose)}|make(?:-|${gap}+)ahead)(?=:)`, style: "section", push: "prose" },
      { match: `^(?i:${oneOf(words.label_header)})(?=:)`, style: "header" },
      { match: "^(?=\\S)", push: "paragraph" },
      "inline",
    ],
  },
  // A label within a paragraph is prose.
  paragraph: { blank: true, rules: [{ match: `^(?=${anySection})`, pop: true }, "stet", "inline"] },
  title: { style: "title", line: true, rules: [{ match: ":", style: "plain" }, "remarks", "bracketed"] },

  list: {
    rules: [
      { match: `^(?=${anySection})`, pop: true },
      "remarks", "stet", "groups",
      { match: `^(?:${bullet})(?=[ \\t]|$)`, style: "bullet" },
      { match: ",(?!\\d)", push: "preparation" },
      "noted",
    ],
  },
  method: {
    rules: [
      { match: `^(?=${anySection})`, pop: true },
      "remarks", "stet", "groups",
      { match: `^[ \\t]*(?:${stepNumber})(?=\\s|$|\\p{L})`, style: "bullet" },
      { match: `^(?:${bullet})(?=[ \\t])`, style: "bullet" },
      { match: "=>", style: "arrow", push: "result" },
      "inline",
    ],
  },
  prose: { rules: [{ match: `^(?=${anySection})`, pop: true }, "remarks", "stet", "groups", "inline"] },
  "list group": { style: "group", line: true, rules: [{ match: "[ \\t]*[()]", style: "plain" }, { match: ":", style: "plain", set: "list" }] },
  "method group": { style: "group", line: true, rules: [{ match: "[ \\t]*[()]", style: "plain" }, { match: ":", style: "plain", set: "method" }] },
  groups: {
    rules: [
      { match: `^(?=\\p{L}[^.!?;\\[\\]="\\n]{0,88}:${gap}*(?:$|//|\\?\\?))[^:\\n]+`, style: "group" },
      { match: `^${bareGroup}`, style: "group" },
    ],
  },
  preparation: { style: "aside", blank: true, rules: [{ match: "^(?![ \\t]+\\S)", pop: true }, "remarks", "stet", "noted"] },
  noted: { rules: [{ match: "\\(", push: "note" }, "inline"] },
  note: { style: "aside", blank: true, rules: [{ match: "^(?![ \\t]+\\S)", pop: true }, { match: "\\)", style: "plain", pop: true }, "noted"] },
  result: { style: "result", line: true, rules: ["remarks", "bracketed", "measures", { match: "[,()]", style: "plain" }] },

  remarks: {
    rules: [
      { match: `${remark}//.*$`, style: "comment" },
      { match: `${remark}\\?\\?.*$`, style: "query" },
      { match: `\\[${gap}*(?i:au|ed):[^\\]\\n]*\\]?`, style: "query" },
      { match: `${starts}TK${ends}`, style: "query" },
    ],
  },
  stet: { rules: [{ match: `^${gap}*(?i:stet)(?=${gap}+\\p{L})`, style: "stet", push: "check" }] },
  check: { line: true, rules: [{ match: ":", style: "plain", set: "reason" }, { match: "[^\\s:]+", style: "check" }] },
  reason: { style: "reason", line: true, rules: ["remarks"] },

  inline: { rules: ["remarks", "bracketed", { match: "\\p{L}+://[^\\s\\[\\])]*" }, "measures"] },
  bracketed: {
    rules: [
      { match: "\\\\[\\[\\]=/?\\\\]", style: "escape" },
      { match: "\\[\\[", style: "bracket", push: "reference" },
      { match: `\\[(?=(?:${gap}|${range}|[-‐‑–—]?${unit}|${either([...words.between_amounts, ...words.hedge, ...words.size])}${ends}|[-./,;+~≈×⁄–—]){1,60}\\])(?=[^\\]]*[\\d${FRACTION}])` },
      { match: "\\[", style: "bracket", push: "mention" },
    ],
  },
  reference: { style: "reference", line: true, rules: [{ match: "\\]\\]?", style: "bracket", pop: true }] },
  mention: {
    style: "mention",
    blank: true,
    rules: [{ match: "^(?=\\S)", pop: true }, { match: "(?=\\[)", pop: true }, { match: "\\]", style: "bracket", pop: true }, { match: "\\\\[\\[\\]=/?\\\\]", style: "escape" }, "measures"],
  },

  measures: {
    rules: [
      { match: `${starts}(?:${noMeasure})`, style: "plain" },
      { match: `${starts}(?i:gas(?:${gap}+mark)?)(?=${gap}+[\\d${FRACTION}])`, style: "unit" },
      { match: `${starts}(?:${hedge})(?=${gap}+(?:[\\d.${FRACTION}]|${spelled}${gap}+(?:${size}${gap}+)?${behind}${ends}))|[~≈](?=${gap}*[\\d${FRACTION}])`, style: "hedge" },
      { match: `${starts}${range}(?=${pack})`, style: "number", push: "pack" },
      { match: `${starts}${range}(?=${gap}*[-‐‑]?${gap}*${unit}|${gap}+${sizeBeforeUnit})`, style: "number", push: "unit" },
      { match: `${starts}${range}(?:${gap}+(?i:to|or)(?=${gap}*$))?`, style: "number" },
      { match: `${starts}${spelled}(?=(?:${gap}+|-)(?:${size}${gap}+)?${behind}${ends})`, style: "number", push: "unit" },
    ],
  },
  unit: {
    brief: true,
    line: true,
    rules: [
      { match: `(?:${either(words.hedge)})(?=${gap}+${either(unitWords.filter(isWord))}${ends})`, style: "hedge" },
      { match: sizeBeforeUnit, style: "plain" },
      { match: `[-‐‑]?${unit}`, style: "unit", pop: true },
      { match: `${gap}+`, style: "plain" },
      { match: "[-‐‑]", style: "plain" },
    ],
  },
  pack: { line: true, rules: [{ match: "\\)", style: "plain", set: "unit" }, "measures"] },
};

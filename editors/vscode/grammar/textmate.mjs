// The TextMate grammar: colours until the server is up, and wherever there is no server. What a line is depends on its section, as it
// does in the real grammar. The scopes are those by which VS Code colours what the server tells, so that nothing changes when it is up.

import {
  FRACTION, anySection, bareGroup, behind, bullet, either, ends, figure, gap, group, hedge, hedgeOrSize, isWord, list, noMeasure, number, oneOf, prose,
  range, size, spelled, starts, stepNumber, unit, unitWords, words,
} from "../../shared/patterns.mjs";

const name = (scope) => ({ name: `${scope}.tamis` });
const captures = (...scopes) => Object.fromEntries(scopes.flatMap((scope, nth) => (scope ? [[String(nth + 1), name(scope)]] : [])));
const include = (...parts) => parts.map((part) => ({ include: `#${part}` }));

// What is printed as a heading is bold, too.
const TITLE = "markup.heading.title.tamis entity.name.type.class.title";
const SECTION = "markup.heading.section.tamis keyword.control.section";
const GROUP = "markup.heading.group.tamis entity.name.namespace.group";

const on = "^(?=[ \\t]+\\S)";

const section = (labels, scope, inside) => ({
  begin: `^(?=${list(labels)})`,
  while: `^(?!${anySection})`,
  name: `meta.section.${scope}.tamis`,
  patterns: [
    {
      match: `\\G((?i:${oneOf(labels)}))(?:${gap}+([^:()\\n]+?)|${gap}*(\\()([^:()\\n]+)(\\)))?${gap}*(:)`,
      captures: captures(SECTION, GROUP, "", GROUP, "", "punctuation.separator.label"),
    },
    ...inside,
  ],
});

export const tamis = {
  $schema: "https://raw.githubusercontent.com/martinring/tmlanguage/master/tmlanguage.json",
  name: "Tamis",
  scopeName: "source.tamis",
  fileTypes: ["tamis"],
  patterns: include("comment", "query", "stet", "recipe", "equipment", "ingredients", "method", "tests", "prose", "header", "paragraph"),
  repository: {
    recipe: {
      begin: `^\\x{FEFF}?((?i:${oneOf(words.label_recipe)}))(:)`,
      beginCaptures: captures("keyword.control.recipe", "punctuation.separator.label"),
      end: "$",
      patterns: [
        ...include("comment", "query"),
        { match: `[^\\s/?](?:(?!${gap}(?://|\\?\\?)).)*`, name: `${TITLE}.tamis`, captures: { 0: { patterns: include("bracketed") } } },
      ],
    },
    header: {
      begin: `^((?i:${oneOf(words.label_header)}))(:)`,
      beginCaptures: captures("variable.other.property.header", "punctuation.separator.label"),
      end: "$",
      patterns: include("inline"),
    },
    equipment: section(words.label_equipment, "equipment", include("line-comment", "stet", "group", "item")),
    ingredients: section(words.label_ingredients, "ingredients", include("line-comment", "stet", "group", "item")),
    tests: section(words.label_tests, "tests", include("line-comment", "stet", "group", "item")),
    method: section(words.label_method, "method", include("line-comment", "stet", "group", "step")),
    prose: {
      begin: `^((?i:${oneOf(words.label_prose)})|(?i:make(?:-|${gap}+)ahead))(:)`,
      beginCaptures: captures(SECTION, "punctuation.separator.label"),
      while: `^(?!${anySection})`,
      name: "meta.section.prose.tamis",
      patterns: include("line-comment", "stet", "group", "inline"),
    },
    group: {
      patterns: [
        { match: `^${group}`, captures: captures(GROUP, "punctuation.separator.label") },
        { match: `^${bareGroup}`, name: `${GROUP}.tamis` },
      ],
    },
    item: {
      begin: `^(?:(${bullet})(?=[ \\t]|$)|(?=\\S))`,
      beginCaptures: captures("punctuation.definition.list.begin"),
      while: on,
      name: "meta.item.tamis",
      patterns: [
        ...include("line-comment", "stet-inside", "measures-in-item"),
        {
          begin: `,(?!\\d)`,
          while: on,
          patterns: [
            ...include("line-comment", "stet-inside", "inline-note"),
            { match: "[^\\s,()\\[\\]/?\\d½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒~≈\\\\]+", name: "markup.italic.preparation.tamis" },
          ],
        },
      ],
    },
    "measures-in-item": { patterns: include("inline-note") },
    "inline-note": {
      patterns: [
        ...include("restated"),
        { begin: "\\(", end: "\\)|(?=^\\S|^\\s*$)", name: "markup.italic.note.tamis", patterns: include("inline-note") },
        ...include("inline"),
      ],
    },
    step: {
      begin: `^(?:(${stepNumber})(?=\\s|$|\\p{L})|(${bullet})(?=[ \\t])|(?=\\S))`,
      beginCaptures: captures("punctuation.definition.list.begin", "punctuation.definition.list.begin"),
      while: `^(?!\\s*$|(?:${gap}*(?:${stepNumber})(?=\\s|$))|(?:${bullet})[ \\t])`,
      name: "meta.step.tamis",
      patterns: include("line-comment", "stet-inside", "result", "inline"),
    },
    result: {
      begin: "=>",
      beginCaptures: { 0: name("keyword.operator.result") },
      end: `$|(?=${gap}(?://|\\?\\?))`,
      patterns: [
        ...include("bracketed", "measure"),
        { match: ",", name: "punctuation.separator.result.tamis" },
        { match: "[()]" },
        { match: "[^\\s,()\\[\\]\\d½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒~≈\\\\]+", name: "variable.other.result.tamis" },
      ],
    },
    paragraph: { begin: "^(?=\\S)", while: `^(?!\\s*$|${anySection})`, patterns: include("line-comment", "stet-inside", "inline") },

    // --------------------------------------------------------------------------------------------------------- remarks
    "line-comment": { patterns: include("comment", "query") },
    comment: { match: "(?:^|(?<=[ \\t\\x{a0}]))(//).*$", name: "comment.line.double-slash.tamis", captures: captures("punctuation.definition.comment") },
    query: {
      patterns: [
        { match: "(?:^|(?<=[ \\t\\x{a0}]))\\?\\?.*$", name: "comment.line.query.tamis keyword.control.query.tamis" },
        { match: `\\[${gap}*(?i:au|ed):[^\\]\\n]*\\]?`, name: "comment.line.query.tamis keyword.control.query.tamis" },
        { match: `${starts}TK${ends}`, name: "comment.line.query.tamis keyword.control.query.tamis" },
      ],
    },
    stet: { patterns: [{ match: `^(?i:(stet))${gap}+(\\p{L}[^\\s:]*)(?:(:)${gap}*((?:(?!${gap}//).)*))?`, captures: captures("keyword.control.directive.stet", "entity.name.function.decorator.check", "punctuation.separator.reason", "string.unquoted.reason") }] },
    "stet-inside": { patterns: [{ match: `^${gap}*(?i:(stet))${gap}+(\\p{L}[^\\s:]*)(?:(:)${gap}*((?:(?!${gap}//).)*))?`, captures: captures("keyword.control.directive.stet", "entity.name.function.decorator.check", "punctuation.separator.reason", "string.unquoted.reason") }] },

    // ---------------------------------------------------------------------------------------------------------- inline
    inline: { patterns: include("line-comment", "escape", "restated", "bracketed", "address", "measure") },
    bracketed: { patterns: include("escape", "reference", "mention") },
    address: { match: "\\p{L}+://[^\\s\\[\\])]*" },
    escape: { match: "\\\\[\\[\\]=/?\\\\]", name: "constant.character.escape.tamis" },
    reference: {
      begin: "\\[\\[",
      beginCaptures: { 0: name("punctuation.definition.reference.begin") },
      end: "\\]\\]?|$",
      endCaptures: { 0: name("punctuation.definition.reference.end") },
      contentName: "string.other.link.reference.tamis",
    },
    mention: {
      begin: "\\[(?!\\[)",
      beginCaptures: { 0: name("punctuation.definition.mention.begin") },
      end: "\\]|(?=\\[)|(?=^\\s*$|^\\S)",
      endCaptures: { 0: name("punctuation.definition.mention.end") },
      contentName: "variable.other.mention.tamis",
      patterns: include("escape", "measure"),
    },
    // A bracket that holds amounts and what joins them, and nothing else.
    restated: {
      match: `[(\\[](?=[^)\\]\\n]*(?:${figure}))(?:${gap}|${range}|[-‐‑–—]?${unit}|${either([...words.between_amounts, ...words.hedge, ...words.size])}${ends}|${number}${ends}|(?i:gas|fan)${ends}|[-./,;+~≈×⁄–—]){1,60}[)\\]]`,
      captures: { 0: { patterns: include("measure") } },
    },
    measure: {
      patterns: [
        { match: `${starts}(?:${noMeasure})` },
        { match: `${starts}(?i:(gas(?:${gap}+mark)?))${gap}+(${range})`, captures: captures("entity.name.type.unit", "constant.numeric") },
        { match: `${starts}(${hedge})(?=${gap}+(?:[\\d.${FRACTION}]|${spelled}${gap}+(?:${size}${gap}+)?${behind}${ends}))|[~≈](?=${gap}*[\\d${FRACTION}])`, captures: { 0: name("keyword.other.hedge") } },
        // What stands in a parenthesis between a number and its unit is the size of each: `2 (14-oz / 400 g) cans`.
        {
          match: `${starts}(${range})${gap}*(\\(${gap}*(?:about${gap}+)?[\\d.${FRACTION}][^()\\n]*${unit}[^()\\n]*\\))${gap}*(${unit})`,
          captures: { 1: name("constant.numeric"), 2: { patterns: include("measure") }, 3: name("entity.name.type.unit") },
        },
        {
          match: `${starts}(${range}(?:${gap}+(?i:to|or)(?=${gap}*$))?)(?:${gap}*[-‐‑]?${gap}*(${unit})|${gap}+(?:${hedgeOrSize})${gap}+(?=(?:${either(unitWords.filter(isWord))})${ends})(${unit}))?`,
          captures: captures("constant.numeric", "entity.name.type.unit", "keyword.other.hedge", "entity.name.type.unit"),
        },
        {
          match: `${starts}(${spelled})(?:${gap}+|-)(?:(?:${hedgeOrSize})${gap}+)?(${behind})${ends}`,
          captures: captures("constant.numeric", "keyword.other.hedge", "entity.name.type.unit"),
        },
      ],
    },
  },
};

// The page of a check, as `tamis explain` prints it: manuscripts stand indented in it, and findings are drawn below their lines.
export const page = {
  scopeName: "text.tamis.page",
  patterns: [
    { match: "\\A[a-z-]+$", name: "markup.heading.1.tamis entity.name.section.tamis" },
    { match: "^\\p{Lu}[\\p{L} ,]*$", name: "markup.heading.2.tamis" },
    { match: "^ +//( +\\^+ +(error|warning|info|hint)(:.*)?$)", captures: { 1: { name: "markup.deleted.finding.tamis" } } },
    { match: "^ {4,}((?i:recipe)): +(.*)$", captures: { 1: name("keyword.control.recipe"), 2: name(TITLE) } },
    { match: `^ {4,}(${either([...words.label_equipment, ...words.label_ingredients, ...words.label_method, ...words.label_tests, ...words.label_prose])}):`, captures: { 1: name(SECTION) } },
    { begin: "^ {4,}(?=\\S)", end: "$", patterns: [{ include: "source.tamis#inline" }] },
    { match: "`[^`\\n]+`", name: "markup.inline.raw.tamis" },
  ],
};

// The same inside a fenced block of Markdown whose info string is `tamis`.
export const fence = {
  scopeName: "markdown.tamis.codeblock",
  injectionSelector: "L:text.html.markdown",
  patterns: [
    {
      begin: "(^|\\G)(\\s*)(`{3,}|~{3,})\\s*(?i:(tamis)((\\s+|:|,|\\{|\\?)[^`~]*)?$)",
      beginCaptures: { 3: { name: "punctuation.definition.markdown" }, 4: { name: "fenced_code.block.language.markdown" }, 5: { name: "fenced_code.block.language.attributes.markdown" } },
      end: "(^|\\G)(\\2|\\s{0,3})(\\3)\\s*$",
      endCaptures: { 3: { name: "punctuation.definition.markdown" } },
      name: "markup.fenced_code.block.markdown",
      patterns: [
        {
          begin: "(^|\\G)(\\s*)(.*)",
          while: "(^|\\G)(?!\\s*([`~]{3,})\\s*$)",
          contentName: "meta.embedded.block.tamis",
          patterns: [{ include: "source.tamis" }],
        },
      ],
    },
  ],
};

// The contexts as a syntax definition of Kate (and of whatever else uses KSyntaxHighlighting).

import { contexts } from "./contexts.mjs";

// What is coloured, in the default styles of every theme.
const STYLES = {
  plain: "dsNormal", recipe: "dsKeyword", title: "dsFunction", header: "dsAttribute", section: "dsKeyword", group: "dsRegionMarker", bullet: "dsOthers", aside: "dsDocumentation", arrow: "dsOperator",
  result: "dsConstant", comment: "dsComment", query: "dsAlert", stet: "dsPreprocessor", check: "dsAnnotation", reason: "dsComment", escape: "dsSpecialChar", bracket: "dsOperator", reference: "dsImport",
  mention: "dsVariable", hedge: "dsControlFlow", number: "dsDecVal", unit: "dsDataType",
};
const BOLD = ["title", "section"];
const ITALIC = ["aside", "group"];

const named = (name) => name.replace(/(^| )\w/g, (letter) => letter.toUpperCase());
const xml = (text) => text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;").replace(/"/g, "&quot;");

const VERY = "                ";
function rule(rule, style) {
  if (typeof rule === "string") return `${VERY}<IncludeRules context="${named(rule)}"/>`;
  const { match, push, set, pop } = rule;
  const to = push ? named(push) : set ? `#pop!${named(set)}` : pop ? "#pop" : "#stay";
  // A match without a width is none here: it takes the next character, and leaves it.
  const ahead = !rule.style && /^\^?\(\?[=!].*\)$/s.test(match);
  return `${VERY}<RegExpr attribute="${named(rule.style ?? style)}" context="${to}" String="${xml(match)}${ahead ? "." : ""}"${ahead ? ' lookAhead="true"' : ""}/>`;
}

function context([name, { style = "plain", line, blank, brief, rules }]) {
  const ends = [line ? ' lineEndContext="#pop"' : ' lineEndContext="#stay"', blank ? ' lineEmptyContext="#pop"' : "", brief ? ' fallthroughContext="#pop"' : ""].join("");
  return `            <context name="${named(name)}" attribute="${named(style)}"${ends}>\n${rules.map((each) => rule(each, style)).join("\n")}\n            </context>`;
}

const item = (style) => `            <itemData name="${named(style)}" defStyleNum="${STYLES[style]}"${BOLD.includes(style) ? ' bold="true"' : ""}${ITALIC.includes(style) ? ' italic="true"' : ""}${["comment", "reason", "mention", "bracket"].includes(style) || style === "plain" || style === "aside" ? "" : ' spellChecking="false"'}/>`;

export const kate = `<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE language>
<!-- Made by editors/generate.mjs from editors/shared/contexts.mjs: change it there. -->
<language name="Tamis" section="Markup" version="1" kateversion="5.62" extensions="*.tamis" mimetype="text/x-tamis" author="The Tamis project" license="MIT">
    <highlighting>
        <contexts>
${Object.entries(contexts).map(context).join("\n")}
        </contexts>
        <itemDatas>
${Object.keys(STYLES).map(item).join("\n")}
        </itemDatas>
    </highlighting>
    <general>
        <comments>
            <comment name="singleLine" start="//"/>
        </comments>
        <keywords casesensitive="0" additionalDeliminator="'"/>
    </general>
</language>
`;

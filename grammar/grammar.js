/// <reference types="tree-sitter-cli/dsl" />
// The grammar of the Tamis manuscript format. NODES.md shows what comes out of it.
//
// The scanner says what kind of line starts, where a run of plain words ends, and which word behind a number is a unit. So a line is
// the unit of recovery, every text parses, and plain words make no nodes.

const re = (source) => new RegExp(source);
const anyCase = (word) => [...word].map((c) => (/[a-z]/.test(c) ? `[${c}${c.toUpperCase()}]` : c === " " ? "[ \\t-]+" : c)).join("");
const label = (...words) => token(prec(2, re(words.map(anyCase).join("|"))));

const FRACTION = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒";
const digits = "(?:[0-9]{1,3}(?:,[0-9]{3})+|[0-9]+)";
const decimal = `(?:${digits}(?:[.,][0-9]+)*|[.][0-9]+)`;
const fraction = "[0-9]+[/⁄][0-9]+(?:[/⁄][0-9]+)*";
const mixed = `[0-9]+(?:(?:[ \\t\\u00a0]+|-|[ \\t]+(?:and|&)[ \\t]+)[0-9]+[/⁄][0-9]+|(?:[ \\t\\u00a0]*|-|[ \\t]+and[ \\t]+)[${FRACTION}])`;
const figure = `(?:${mixed}|${fraction}|${decimal}|[${FRACTION}])`;
const range = `${figure}(?:-?[ \\t]*[-‐‑‒–—][ \\t]*|-?[ \\t]+(?:to|or|TO|OR)[ \\t]+)${figure}`;

module.exports = grammar({
  name: "tamis",

  externals: ($) => [
    $._line, $._blank, $._soft,
    $._at_recipe, $._at_header, $._at_equipment, $._at_ingredients, $._at_method, $._at_tests, $._at_prose, $._at_group, $._at_stet,
    $._at_comment, $._at_query, $._at_step, $._at_bullet, $._at_text,
    $._run, $._item_run, $.unit, $._word_number, $.hedge, $._join, $._restated, $._slash, $._by, $._gas, $._unclosed,
  ],

  extras: ($) => [/[ \t\f\v\u00a0\u2000-\u200b\u202f\u205f\u3000\ufeff\u0085\u2028\u2029\u0000]/, $._soft],

  conflicts: ($) => [],

  rules: {
    manuscript: ($) => seq(optional($._blank), optional($.preamble), repeat($.recipe)),

    preamble: ($) => prec.right(repeat1(choice($.header, $.paragraph, $._aside))),

    recipe: ($) => prec.right(choice(
      seq($.title_line, repeat(choice($.header, alias($.paragraph, $.headnote), $._aside)), repeat($._section)),
      repeat1($._section),
    )),

    title_line: ($) => seq($._at_recipe, field("label", alias($._recipe_label, $.label)), ":", optional(field("title", $.title)), $._end),
    title: ($) => repeat1($._inline),
    header: ($) => seq($._at_header, field("label", alias($._header_label, $.label)), ":", optional(field("value", $.value)), $._end),
    value: ($) => repeat1($._inline),

    paragraph: ($) => seq($._at_text, repeat1($._inline), repeat(seq($._line, choice(seq($._at_text, repeat1($._inline)), $._remark))), $._end_paragraph),

    // ------------------------------------------------------------------------------------------------------ sections
    _section: ($) => choice($.equipment_section, $.ingredients_section, $.method_section, $.tests_section, $.prose_section),

    equipment_section: ($) => prec.right(seq($._at_equipment, field("heading", alias($._equipment_label, $.label)), $._heading_end, repeat($._list_line))),
    ingredients_section: ($) => prec.right(seq($._at_ingredients, field("heading", alias($._ingredients_label, $.label)), $._heading_end, repeat($._list_line))),
    tests_section: ($) => prec.right(seq($._at_tests, field("heading", alias($._tests_label, $.label)), $._heading_end, repeat($._list_line))),
    method_section: ($) => prec.right(seq($._at_method, field("heading", alias($._method_label, $.label)), $._heading_end, repeat(choice($.step, $.group_heading, $._aside)))),
    prose_section: ($) => prec.right(seq(
      $._at_prose, field("heading", alias($._prose_label, $.label)), ":",
      choice(
        seq(alias($._prose_first, $.paragraph)),
        $._end,
      ),
      repeat(choice($.paragraph, $.group_heading, $._aside)),
    )),
    _prose_first: ($) => seq(repeat1($._inline), repeat(seq($._line, choice(seq($._at_text, repeat1($._inline)), $._remark))), $._end_paragraph),

    _heading_end: ($) => seq(optional(choice(field("group", $.group_name), seq("(", field("group", $.group_name), ")"))), ":", $._end),
    group_heading: ($) => seq($._at_group, field("name", $.group_name), optional(":"), $._end),
    group_name: ($) => /[^\s:()\[\]][^:()\[\]\n\r]*/,

    _list_line: ($) => choice($.item, $.group_heading, $._aside),
    item: ($) => seq(
      choice(seq($._at_bullet, $._marker), $._at_text),
      choice(field("name", $.item_name), $._after_name),
      repeat(choice($._after_name, field("preparation", $.preparation))),
      $._end,
    ),
    _marker: ($) => /[-•*·–—▪▢☐□]/,
    item_name: ($) => prec.right(repeat1($._item_inline)),
    _after_name: ($) => choice(",", ")", field("note", $.note)),
    preparation: ($) => prec.right(repeat1($._item_inline)),
    note: ($) => seq("(", repeat(choice($._item_inline, ",", $.note)), choice(")", $._unclosed)),

    step: ($) => seq(
      choice(seq($._at_step, field("number", $.step_number)), $._at_text),
      $._step_body,
      repeat(seq($._line, choice(seq($._at_text, $._step_body), $._remark))),
      $._end_paragraph,
    ),
    _step_body: ($) => choice(seq(repeat1($._inline), repeat($.result)), repeat1($.result)),
    step_number: ($) => token(prec(3, re(`(?:${anyCase("step")}[ \\t]*)?[0-9]+[ \\t]*[.):]`))),
    result: ($) => seq("=>", optional(seq($.result_name, repeat(seq(",", $.result_name)))), optional(",")),
    result_name: ($) => prec.right(repeat1(choice($._item_run, $.measure, seq("(", repeat(choice($._item_run, $.measure, ",")), choice(")", $._unclosed)), $._aside_inline))),

    // ------------------------------------------------------------------------------------------- remarks and line ends
    _remark: ($) => choice(seq($._at_comment, $.comment), seq($._at_query, $.query), $._stet_line),
    _aside: ($) => seq($._remark, $._end),
    _stet_line: ($) => seq($._at_stet, $.stet),
    stet: ($) => seq(alias(token(prec(2, re(anyCase("stet")))), "stet"), field("check", $.check_code), optional(seq(":", optional(field("reason", $.reason))))),
    check_code: ($) => /[^\s:]+/,
    reason: ($) => /[^\s][^\n\r]*/,
    comment: ($) => token(prec(4, /\/\/[^\n\r]*/)),
    query: ($) => token(prec(4, /\?\?[^\n\r]*|\[[ \t]*([Aa][Uu]|[Ee][Dd]):[^\]\n\r]*\]?|TK/)),

    _end: ($) => choice($._line, $._blank),
    _end_paragraph: ($) => prec(-1, choice($._line, $._blank)),

    // --------------------------------------------------------------------------------------------------------- inline
    _inline: ($) => choice($._run, $._aside_inline, $.measure, alias($._stray, "text")),
    _item_inline: ($) => choice($._item_run, $._aside_inline, $.measure, alias($._item_stray, "text")),
    _aside_inline: ($) => choice($.mention, $.cross_reference, $.escape, $.comment, $.query),
    _stray: ($) => choice("]", "=", "\\", "(", ")", ",", ":", "/", "-"),
    _item_stray: ($) => choice("]", "=", "\\", ":", "/", "-", "=>"),
    escape: ($) => /\\[\[\]=\/?\\]/,

    cross_reference: ($) => prec(2, seq(token(prec(3, "[[")), optional(field("title", $.reference_title)), choice("]]", "]", $._unclosed))),
    reference_title: ($) => /[^\]\[\s][^\]\[\n\r]*/,
    mention: ($) => seq("[", optional(field("name", $.mention_name)), choice("]", $._unclosed)),
    mention_name: ($) => prec.right(repeat1(choice($._item_run, $.measure, ",", "(", ")", $.escape))),

    // -------------------------------------------------------------------------------------------------------- measures
    measure: ($) => prec.right(seq(
      optional($.hedge),
      $.amount,
      repeat(choice(
        seq($._slash, alias($._slashed, $.restated)),
        $.restated,
      )),
    )),
    _slashed: ($) => seq(optional($.hedge), $.amount),
    restated: ($) => seq($._restated, $._restatement, choice(")", "]")),
    _restatement: ($) => repeat1(choice($.amount, $.hedge, $._item_run, ",", ";", "/", $._slash)),

    amount: ($) => prec.right(seq($._term, repeat(seq($._join, $._term)))),
    _term: ($) => prec.right(choice(
      seq($._figure, repeat(seq($._by, $._figure)), optional($.pack), optional($.unit)),
      seq(alias($._word_number, $.number), $.unit),
      seq(alias($._gas, $.unit), $._figure),
    )),
    _figure: ($) => choice($.number, $.range),
    pack: ($) => seq($._restated, $._restatement, choice(")", "]")),
    number: ($) => token(prec(1, re(figure))),
    range: ($) => token(prec(1, re(range))),

    // ---------------------------------------------------------------------------------------------------------- labels
    _recipe_label: ($) => label("recipe"),
    _header_label: ($) => label("yield", "serves", "time", "course", "cuisine", "diet", "allergens", "author", "photo", "keywords", "status"),
    _equipment_label: ($) => label("equipment"),
    _ingredients_label: ($) => label("ingredients"),
    _method_label: ($) => label("method", "directions", "instructions", "preparation", "steps"),
    _tests_label: ($) => label("tests"),
    _prose_label: ($) => label("notes", "storage", "make ahead", "variations", "sidebar"),
  },
});

/// <reference types="tree-sitter-cli/dsl" />
// The grammar of the Tamis manuscript format. NODES.md shows what comes out of it.
//
// Every text parses. The scanner tells what starts at the left margin, which line goes on with the one above, where a run of plain
// words must stop because a measure opens, and which word behind a number is a unit. Plain words make no nodes.

const FRACTION = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒";
const gap = "[ \\t\\u00a0\\u2009\\u202f]";
const digits = "(?:[0-9]{1,3}(?:,[0-9]{3})+|[0-9]+)";
const decimal = `(?:${digits}(?:[.,][0-9]+)*|[.][0-9]+)`;
const fraction = "[0-9]+[/⁄][0-9]+(?:[/⁄][0-9]+)*";
const join = `(?:${gap}|${gap}*(?:\\r\\n?|\\n)[ \\t])`; // over the end of a line that goes on indented
const mixed = `[0-9]+(?:(?:${join}${gap}*|-|${gap}+(?:and|&)${gap}+)[0-9]+[/⁄][0-9]+|(?:${gap}*|-|${gap}+and${gap}+)[${FRACTION}])`;
const figure = `(?:${mixed}|${fraction}|${decimal}|[${FRACTION}])`;
const range = `${figure}(?:-?${gap}*[-‐‑‒–—](?:${join}${gap}*)?|-?${join}${gap}*(?:to|or|TO|OR)${join}${gap}*)${figure}`;
const noMeasure = "[0-9]{4}-[0-9]{2}-[0-9]{2}|[0-9]{1,2}:[0-9]{2}|[0-9]*(?:1st|2nd|3rd|[04-9]th|1[1-3]th)";

const line = ($, rule) => seq(rule, $._line);
const bulleted = ($) => alias($._bulleted_item, $.item);
const numbered = ($) => alias($._numbered_step, $.step);

// Parts in a row, four at a time: the parser builds a hidden node for every four of them, where `repeat` builds one for each. `first` is the
// part where it opens the row, `fours` the rule of the fours; `many` is for lines, whose fours the parser keeps in balance.
const upToThree = (first, part) => choice(first, seq(first, part), seq(first, part, part));
const inFours = (first, part, fours) => choice(seq(first, part, part, part), seq(fours, part, part, part, part));
const some = (first, part, fours) => choice(upToThree(first, part), seq(fours, optional(upToThree(part, part))));
const many = (part) => seq(repeat(seq(part, part, part, part)), optional(upToThree(part, part)));

// A phrase; a run of words alone is the phrase itself, with no node built around it.
const phrase = (run, phrase) => choice(prec(1, alias(run, phrase)), phrase);
const inBrackets = ($, open, content, close, broken) => choice(seq(open, content, choice(...close, $._lost)), seq(broken, content, choice(...close, $._unclosed)));

module.exports = grammar({
  name: "tamis",

  // In the order of `enum Token` in scanner.c.
  externals: ($) => [
    $._line, $._on, $._on_or_label, $._soft,
    $._recipe_label, $._header_label, $._equipment_label, $._ingredients_label, $._method_label, $._tests_label, $._prose_label,
    $._at_group, $._at_text, $._at_stet, $.step_number, $._bullet, $.comment, $.query,
    $._run, $._item_run, $._note_run, $._inner_run, $._amount_run, $._reason_run,
    $.unit, $._word_number, $.hedge, $._hedge_of_unit, $._size, $._beside, $._join, $._by, $._of_size, $._gas, $._open_restated, $._slash,
    $._arrow, $.escape, $._broken_mention, $._broken_reference, $._broken_note, $._unclosed, $._lost,
  ],

  extras: ($) => [/[ \t\f\v\r\n\u00a0\u2000-\u200b\u202f\u205f\u3000\ufeff\u0085\u2028\u2029\u0000]/, $._soft, $.comment, $.query],

  inline: ($) => [
    $._first, $._item_first, $._note_inline, $._bracketed, $._prose, $._stet_line, $._stet_inside, $._stet_word, $._item_body, $._name_or_note,
    $._prepared, $._term, $._figure, $._restatement,
  ],

  rules: {
    manuscript: ($) => seq(optional($.preamble), repeat($.recipe)),

    preamble: ($) => prec.right(repeat1(choice(line($, choice($.paragraph, $._stet_line)), $._header_lines))),

    recipe: ($) => prec.right(choice(
      seq(line($, seq($.title_line, optional($._headers))), repeat($._head_part), repeat($._section)),
      repeat1($._section),
    )),
    _head_part: ($) => choice(line($, choice(alias($.paragraph, $.headnote), $._stet_line)), $._header_lines),
    // Where the scanner sees another header right below, no token ends the line; nor between items with bullets and steps with numbers.
    _header_lines: ($) => line($, $._headers),
    _headers: ($) => some($.header, $.header, $._fours_of_headers),
    _fours_of_headers: ($) => inFours($.header, $.header, $._fours_of_headers),

    title_line: ($) => seq(field("label", alias($._recipe_label, $.label)), ":", optional(field("title", phrase($._run, $.title)))),
    title: ($) => some($._first, $._inline, $._fours),
    header: ($) => seq(field("label", alias($._header_label, $.label)), ":", optional(field("value", phrase($._run, $.value)))),
    value: ($) => some($._first, $._inline, $._fours),

    paragraph: ($) => seq(optional($._at_text), $._inline, repeat($._prose)),
    _prose: ($) => choice($._inline, $._on, $._stet_inside),

    // ------------------------------------------------------------------------------------------------------ sections
    _section: ($) => choice($.equipment_section, $.ingredients_section, $.method_section, $.tests_section, $.prose_section),

    equipment_section: ($) => seq(field("heading", alias($._equipment_label, $.label)), $._heading_end, $._list),
    ingredients_section: ($) => seq(field("heading", alias($._ingredients_label, $.label)), $._heading_end, $._list),
    tests_section: ($) => seq(field("heading", alias($._tests_label, $.label)), $._heading_end, $._list),
    _list: ($) => prec.right(seq($._line, many(line($, $._list_part)))),
    _list_part: ($) => choice(seq(choice($.item, $.group_heading, $._stet_line), optional($._bulleted_items)), $._bulleted_items),
    _bulleted_items: ($) => some(bulleted($), bulleted($), $._fours_of_items),
    _fours_of_items: ($) => inFours(bulleted($), bulleted($), $._fours_of_items),

    method_section: ($) => prec.right(seq(
      line($, seq(field("heading", alias($._method_label, $.label)), $._heading_end)),
      many(line($, $._method_part)),
    )),
    _method_part: ($) => choice(seq(choice($.step, $.group_heading, $._stet_line), optional($._numbered_steps)), $._numbered_steps),
    _numbered_steps: ($) => some(numbered($), numbered($), $._fours_of_steps),
    _fours_of_steps: ($) => inFours(numbered($), numbered($), $._fours_of_steps),

    prose_section: ($) => prec.right(seq(
      line($, seq(field("heading", alias($._prose_label, $.label)), ":", optional(alias($._first_paragraph, $.paragraph)))),
      repeat(line($, choice($.paragraph, $.group_heading, $._stet_line))),
    )),
    // On the label's own line; another label may stand right below it.
    _first_paragraph: ($) => seq(some($._first, $._inline, $._fours), optional(seq(choice($._on_or_label, $._stet_inside), repeat($._prose)))),

    _heading_end: ($) => seq(optional(choice(field("group", $.group_name), seq("(", field("group", $.group_name), ")"))), ":"),
    group_heading: ($) => seq($._at_group, field("name", alias($._group_line, $.group_name)), optional(":")),
    group_name: ($) => /[^\s:()\[\]][^:()\[\]\n\r]*/,
    _group_line: ($) => token(prec(1, /[^\s:][^:\n\r]*/)),

    item: ($) => seq(optional($._at_text), $._item_body),
    _bulleted_item: ($) => seq($._bullet, optional($._item_body)),
    _item_body: ($) => choice(seq($._name_or_note, repeat($._name_or_note), optional($._after_comma)), $._after_comma),
    _name_or_note: ($) => choice(field("name", $.item_name), field("note", $.note)),
    _after_comma: ($) => choice(
      seq(",", optional(seq($._prepared, repeat($._prepared)))),
      prec(1, seq(",", field("preparation", alias($._item_run, $.preparation)))),
    ),
    _prepared: ($) => choice(",", field("preparation", $.preparation), field("note", $.note)),
    item_name: ($) => prec.right(some($._item_first, $._item_inline, $._item_fours)),
    preparation: ($) => prec.right(some($._item_first, $._item_inline, $._item_fours)),
    note: ($) => inBrackets($, "(", repeat(choice($._note_inline, $.note)), [")"], $._broken_note),

    step: ($) => seq(optional($._at_text), choice($._inline, $.result), optional(some($._step_part, $._step_part, $._step_fours))),
    _numbered_step: ($) => seq(choice(field("number", $.step_number), $._bullet), optional(some($._step_part, $._step_part, $._step_fours))),
    _step_fours: ($) => inFours($._step_part, $._step_part, $._step_fours),
    _step_part: ($) => choice($._prose, $.result),
    result: ($) => prec.right(seq($._arrow, repeat(choice(",", $.result_name)))),
    result_name: ($) => prec.right(repeat1($._result_part)),
    _result_part: ($) => choice($._item_run, $._bracketed, $.measure, $._parenthesis),
    _parenthesis: ($) => inBrackets($, "(", repeat(choice($._note_inline, $._parenthesis)), [")"], $._broken_note),

    _stet_line: ($) => seq($._at_stet, $.stet),
    // Inside a step or a paragraph the text behind it goes on with the step; elsewhere indented lines go on with the reason.
    _stet_inside: ($) => seq($._at_stet, alias($._short_stet, $.stet)),
    stet: ($) => seq($._stet_word, field("check", $.check_code), repeat(":"), optional(field("reason", $.reason))),
    _short_stet: ($) => seq($._stet_word, field("check", $.check_code), repeat(":"), optional(field("reason", alias($._reason_run, $.reason)))),
    _stet_word: ($) => alias(/[Ss][Tt][Ee][Tt]/, "stet"),
    check_code: ($) => /[^\s:]+/,
    reason: ($) => seq($._reason_run, repeat(choice($._reason_run, ":"))),

    // --------------------------------------------------------------------------------------------------------- inline
    // What opens a row stands there as it is, so that a run alone can be the phrase.
    _inline: ($) => choice($._run, $._mark),
    _first: ($) => choice($._run, $._mark),
    _fours: ($) => inFours($._first, $._inline, $._fours),
    _item_inline: ($) => choice($._item_run, $._mark),
    _item_first: ($) => choice($._item_run, $._mark),
    _item_fours: ($) => inFours($._item_first, $._item_inline, $._item_fours),
    _note_inline: ($) => choice($._note_run, $._mark),
    _mark: ($) => choice($._bracketed, $.measure, $._no_measure),
    _bracketed: ($) => choice($.mention, $.cross_reference, $.escape),
    _no_measure: ($) => token(prec(2, new RegExp(noMeasure))),

    cross_reference: ($) => inBrackets($, "[[", optional(field("title", $.reference_title)), ["]]", "]"], $._broken_reference),
    reference_title: ($) => repeat1(/[^\]\[\s][^\]\[\n\r]*/),
    mention: ($) => choice(
      inBrackets($, "[", optional(field("name", $.mention_name)), ["]"], $._broken_mention),
      prec(1, inBrackets($, "[", field("name", alias($._inner_run, $.mention_name)), ["]"], $._broken_mention)),
    ),
    mention_name: ($) => prec.right(repeat1($._inner)),
    _inner: ($) => choice($._inner_run, $.measure, $.escape, $._no_measure),

    // -------------------------------------------------------------------------------------------------------- measures
    measure: ($) => prec.right(seq(optional($.hedge), $.amount, repeat(choice($.restated, alias($._slashed, $.restated))))),
    _slashed: ($) => seq($._slash, optional($.hedge), $.amount),
    restated: ($) => seq($._open_restated, $._restatement, choice(")", "]")),
    _restatement: ($) => repeat1(choice($.amount, $.hedge, $._amount_run, $._slash, $._no_measure, ",", ";", "/")),

    amount: ($) => prec.right(seq($._term, repeat(prec.left(seq(choice($._join, $._by), $._term))))),
    _term: ($) => choice($._figure, seq($._figure, $.unit), $._other_term),
    _other_term: ($) => prec.right(choice(
      seq($._figure, $.pack, optional($._in_unit)),
      seq($._figure, $._in_other_unit),
      seq(alias($._word_number, $.number), $._in_unit),
      seq(alias($._gas, $.unit), $._figure),
    )),
    _in_unit: ($) => prec.right(choice($.unit, $._in_other_unit)),
    _in_other_unit: ($) => prec.right(choice(
      seq(choice(alias($._hedge_of_unit, $.hedge), $._size), $.unit, optional($._term_beside)),
      seq($.unit, $._term_beside),
    )),
    _term_beside: ($) => prec.right(seq($._beside, $._term)),
    _figure: ($) => choice($.number, $.range),
    pack: ($) => choice(seq($._open_restated, $._restatement, choice(")", "]")), seq($._of_size, $.amount)),
    number: ($) => token(prec(1, new RegExp(figure))),
    range: ($) => token(prec(1, new RegExp(range))),
  },
});

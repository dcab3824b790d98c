; Made by editors/generate.mjs from grammar/queries/: change it there.

; Colours. A later pattern is the more exact one.

; Headings and labels
(title_line label: (label) @keyword)
(title) @markup.heading.1
(header label: (label) @variable.other.member)
[(equipment_section heading: (label) @markup.heading.2)
 (ingredients_section heading: (label) @markup.heading.2)
 (method_section heading: (label) @markup.heading.2)
 (tests_section heading: (label) @markup.heading.2)
 (prose_section heading: (label) @markup.heading.2)]
(group_name) @markup.heading.3

; Measures
(hedge) @keyword.storage.modifier
[(number) (range)] @constant.numeric
(unit) @type

; Items and steps
(step_number) @markup.list.numbered
(note) @markup.italic
(preparation) @markup.italic
(result) @operator ; its arrow and commas: the names have their own
(result_name) @constant
(mention_name) @variable
(mention ["[" "]"] @punctuation.bracket)

; References to other recipes
(reference_title) @markup.link.text
(cross_reference ["[[" "]]" "]"] @punctuation.bracket)

; Remarks
(comment) @comment
(query) @warning
(stet "stet" @keyword.directive)
(check_code) @label
(reason) @comment
(escape) @constant.character.escape

; Made by editors/generate.mjs from grammar/queries/: change it there.

; Colours. A later pattern is the more exact one.

; Headings and labels
(title_line label: (label) @keyword)
(title) @title
(header label: (label) @property)
[(equipment_section heading: (label) @title)
 (ingredients_section heading: (label) @title)
 (method_section heading: (label) @title)
 (tests_section heading: (label) @title)
 (prose_section heading: (label) @title)]
(group_name) @emphasis.strong

; Measures
(hedge) @keyword
[(number) (range)] @number
(unit) @type

; Items and steps
(step_number) @punctuation.list_marker
(note) @emphasis
(preparation) @emphasis
(result) @operator ; its arrow and commas: the names have their own
(result_name) @constant
(mention_name) @variable
(mention ["[" "]"] @punctuation.bracket)

; References to other recipes
(reference_title) @link_text
(cross_reference ["[[" "]]" "]"] @punctuation.bracket)

; Remarks
(comment) @comment
(query) @hint
(stet "stet" @preproc)
(check_code) @label
(reason) @comment
(escape) @string.escape

; Made by editors/generate.mjs from grammar/queries/: change it there.

(recipe (title_line label: (label) @context title: (title) @name)) @item
(equipment_section heading: (label) @name) @item
(ingredients_section heading: (label) @name) @item
(method_section heading: (label) @name) @item
(tests_section heading: (label) @name) @item
(prose_section heading: (label) @name) @item

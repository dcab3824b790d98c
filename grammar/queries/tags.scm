; What can be gone to: recipes, groups and results; and the places that speak of them.
(recipe (title_line title: (title) @name)) @definition.module
(group_heading name: (group_name) @name) @definition.section
(result (result_name) @name) @definition.constant
(cross_reference title: (reference_title) @name) @reference.module
(mention name: (mention_name) @name) @reference.constant

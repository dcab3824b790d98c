; A recipe, and every section of it.
[(recipe)
 (equipment_section)
 (ingredients_section)
 (method_section)
 (tests_section)
 (prose_section)] @fold

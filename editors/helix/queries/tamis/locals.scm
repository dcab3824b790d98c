; Made by editors/generate.mjs from grammar/queries/: change it there.

; Inside one recipe a mention speaks of a result by its name. Ingredients are matched by the language server only: which words of an
; item are its name is a question of the larder and not of the grammar.
(recipe) @local.scope
(result (result_name) @local.definition)
(mention name: (mention_name) @local.reference)

; Made by editors/generate.mjs from grammar/queries/: change it there.

(mention "[" @open "]" @close)
(cross_reference "[[" @open "]]" @close)

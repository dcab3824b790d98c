; Made by editors/generate.mjs from grammar/queries/: change it there.

[(item) (step)] @indent

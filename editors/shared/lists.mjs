// The lists of words that highlighters need which are not derived as a whole. Longest first.

import { behindWords, cased, isWord, lists as listLabels, signs, unitWords, words } from "./patterns.mjs";

const longestFirst = (list) => [...new Set(list)].sort((one, other) => other.length - one.length || (one < other ? -1 : 1));

export const lists = Object.fromEntries(
  Object.entries({
    title: words.label_recipe,
    header: words.label_header,
    lists: listLabels.filter((label) => !words.label_method.includes(label)),
    method: words.label_method,
    prose: words.label_prose,
    unit: unitWords.filter(isWord),
    behind: behindWords,
    cased,
    signs,
    number: words.number,
    hedge: words.hedge,
    size: [...words.size, ...words.hedge],
    between: [...words.between_amounts, ...words.hedge, ...words.size],
    ofsize: words.noun_of_size,
  }).map(([name, list]) => [name, longestFirst(list)]),
);

// Pieces that are often needed, offered where a line begins. In a sentence they would be in the way: "for", "see" and "recipe" are words.

import snippets from "../snippets/tamis.json";

export interface Piece {
  readonly word: string;
  readonly name: string;
  readonly description: string;
  readonly body: string;
}

/** What is written inside of a sentence: the command that inserts a snippet has these. */
const WITHIN = ["result", "share", "see"];

const pieces: readonly Piece[] = Object.entries(snippets)
  .filter(([, { prefix }]) => !WITHIN.includes(prefix))
  .map(([name, { prefix, description, body }]) => ({ word: prefix, name, description, body: [body].flat().join("\n") }));

/** The pieces that fit behind what stands on a line. */
export const piecesBehind = (before: string): readonly Piece[] => (/^\p{L}*$/u.test(before) ? pieces : []);

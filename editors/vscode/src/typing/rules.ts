// What Enter starts the next line with. The editor follows these rules by itself, at once, so that whoever types on is never overtaken;
// what they cannot do (count beyond what is written here, take an empty mark away) is amended afterwards, in `amend.ts`.

export interface Rule {
  /** What stands before the cursor. */
  readonly before: RegExp;
  /** The line above, if it matters. */
  readonly previous?: RegExp;
  /** What is put behind the line break. */
  readonly append: string;
}

const BULLETS = ["-", "*", "•", "·", "–"];
const MARKS: readonly (readonly [string, string])[] = [["", "."], ["", ")"], ["Step ", ":"], ["Step ", "."]];
/** How far steps are counted: few recipes have more. */
const STEPS = 40;

const literal = (text: string) => text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");

/** The first that fits is followed. */
export const rules: readonly Rule[] = [
  ...BULLETS.map((bullet) => ({ before: new RegExp(`^${literal(bullet)}[ \\t]+\\S.*$`), append: `${bullet} ` })),
  ...Array.from({ length: STEPS }, (_, nth) => MARKS.flatMap(([word, end]) => steps(nth + 1, word, end))).flat(),
];

/** A step is followed by the next; with a blank line between them where there is one above. */
function steps(number: number, word: string, end: string): Rule[] {
  const before = new RegExp(`^${word}${number}${literal(end)}[ \\t]+\\S.*$`);
  const mark = `${word}${number + 1}${end} `;
  return [
    { before, previous: /^\s*$/, append: `\n${mark}` },
    { before, append: mark },
  ];
}

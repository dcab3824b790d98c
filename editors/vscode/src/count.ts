// For how many a recipe is to be: what an author may type.

/** The number that was typed; nothing where it is none that a recipe can be for. */
export function countOf(typed: string): number | undefined {
  const plain = typed.trim().replace(",", ".");
  const count = /^\d+(\.\d+)?$/.test(plain) ? Number(plain) : NaN;
  return count > 0 && count <= 10_000 ? count : undefined;
}

/** Why what has been typed so far cannot be taken; nothing where it can. */
export const objection = (typed: string): string | undefined =>
  countOf(typed) === undefined ? "A number above 0, and at most 10,000: 6, or 12" : undefined;

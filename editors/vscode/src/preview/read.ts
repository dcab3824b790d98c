// The recipes of a manuscript as they are laid out on a page: what is printed, and on which lines it stands.

import { type Lines, type Section, bulletOf, groupOf, headerOf, headingOf, isBlank, isIndented, isRemark, isStet, numberingOf, titleOf } from "../lines";

/** Text that is printed, and the lines it is from: the first, and the one behind the last. */
export interface Block {
  text: string;
  readonly from: number;
  to: number;
}

/** A step: with its number, where one was typed. */
export interface Step extends Block {
  readonly number?: number;
}

export interface Group {
  readonly name?: Block;
  readonly blocks: Step[];
}

export interface Part {
  readonly section: Section;
  readonly label: Block;
  readonly groups: Group[];
}

export interface Recipe {
  readonly title: Block;
  readonly headers: (Block & { readonly label: string })[];
  readonly headnote: Block[];
  readonly parts: Part[];
}

/** What stands above the first recipe, and the recipes. */
export interface Manuscript {
  readonly preamble: Block[];
  readonly recipes: Recipe[];
}

/** Reads what is printed of a manuscript. */
export function read(lines: Lines): Manuscript {
  const reader = new Reader(lines);
  for (let line = 0; line < lines.count; line++) reader.line(line);
  return reader.done();
}

class Reader {
  private readonly preamble: Block[] = [];
  private readonly recipes: Recipe[] = [];
  private recipe: Recipe | undefined;
  private part: Part | undefined;
  private open: Block | undefined;
  /** Whether the file leaves the label out: its first line is then the title. */
  private readonly unlabelled: boolean;

  constructor(private readonly lines: Lines) {
    const all = Array.from({ length: lines.count }, (_, line) => lines.at(line));
    this.unlabelled = all.some((line) => headingOf(line)) && !all.some((line) => titleOf(line) !== undefined);
  }

  done(): Manuscript {
    return { preamble: this.preamble, recipes: this.recipes };
  }

  line(line: number): void {
    const text = this.lines.at(line);
    if (isRemark(text) || isStet(text)) return;
    if (isBlank(text)) {
      this.open = undefined;
      return;
    }
    const title = titleOf(text) ?? (this.unlabelled && !this.recipe && !headingOf(text) ? text.trim() : undefined);
    if (title !== undefined) this.start({ text: title, from: line, to: line + 1 });
    else if (this.heading(line, text)) return;
    else if (this.part) this.inPart(this.part, line, text);
    else this.aboveParts(line, text);
  }

  private start(title: Block): Recipe {
    this.open = this.part = undefined;
    this.recipe = { title, headers: [], headnote: [], parts: [] };
    this.recipes.push(this.recipe);
    return this.recipe;
  }

  /** Starts a section; one that is named again goes on. */
  private heading(line: number, text: string): boolean {
    const heading = headingOf(text);
    if (!heading || (this.open && this.part?.section === "prose")) return false;
    const recipe = this.recipe ?? this.start({ text: "", from: line, to: line });
    const same = recipe.parts.find((part) => part.section === heading.section && part.section !== "prose");
    this.part = same ?? { section: heading.section, label: { text: heading.label, from: line, to: line + 1 }, groups: [] };
    if (!same) recipe.parts.push(this.part);
    this.part.groups.push(heading.group ? { name: { text: heading.group, from: line, to: line + 1 }, blocks: [] } : { blocks: [] });
    this.open = undefined;
    if (heading.rest) this.add(this.part, line, heading.rest);
    return true;
  }

  private aboveParts(line: number, text: string): void {
    const header = headerOf(text);
    if (header && this.recipe) {
      this.recipe.headers.push({ label: header.label, text: header.value, from: line, to: line + 1 });
      this.open = undefined;
    } else if (this.open) {
      this.goOn(this.open, line, text);
    } else {
      this.open = { text, from: line, to: line + 1 };
      (this.recipe?.headnote ?? this.preamble).push(this.open);
    }
  }

  private inPart(part: Part, line: number, text: string): void {
    const { section } = part;
    const alone = isBlank(this.lines.at(line - 1)) && isBlank(this.lines.at(line + 1));
    const group = section === "prose" || this.goesOn(section, text) ? undefined : groupOf(text, alone);
    if (group !== undefined) {
      part.groups.push({ name: { text: group, from: line, to: line + 1 }, blocks: [] });
      this.open = undefined;
    } else if (this.open && this.goesOn(section, text)) {
      this.goOn(this.open, line, text);
    } else {
      const number = section === "method" ? numberingOf(text) : undefined;
      const mark = section === "prose" ? "" : (number?.mark ?? bulletOf(text) ?? "");
      this.add(part, line, text.slice(mark.length), number?.number);
    }
  }

  private goesOn(section: Section, text: string): boolean {
    if (!this.open) return false;
    if (section === "prose") return true;
    if (section === "method") return !numberingOf(text) && (isIndented(text) || bulletOf(text) === undefined);
    return isIndented(text);
  }

  private add(part: Part, line: number, text: string, number?: number): void {
    const block: Step = { text, from: line, to: line + 1, number };
    this.open = block;
    if (part.groups.length === 0) part.groups.push({ blocks: [] });
    part.groups.at(-1)?.blocks.push(block);
  }

  private goOn(block: Block, line: number, text: string): void {
    block.text += `\n${text.trim()}`;
    block.to = line + 1;
  }
}

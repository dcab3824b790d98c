// Tells lines apart, takes runs of plain words in one bite, and knows a unit behind a number.
//
// What needs a look ahead that a regular expression cannot give stands here: what starts at the left margin, whether the next line goes
// on with this one, whether a bracket is closed or holds nothing but amounts, whether a word opens a measure ("half a cup"). No state is
// kept, so any point of a manuscript can be read afresh; and whatever is read, some token is always given that the grammar accepts.

#include "reading.h"

enum Token {
  LINE, ON, ON_OR_LABEL, SOFT,
  AT_LABELS, HEADER, METHOD = AT_LABELS + 4, PROSE = AT_LABELS + 6, AT_GROUP, AT_TEXT, AT_STET, STEP_NUMBER, BULLET, COMMENT, QUERY,
  RUN, ITEM_RUN, NOTE_RUN, INNER_RUN, AMOUNT_RUN, REASON_RUN,
  UNIT_TOKEN, WORD_NUMBER, HEDGE_TOKEN, HEDGE_OF_UNIT, SIZE_TOKEN, BESIDE, JOIN, BY, OF_SIZE, GAS, OPEN_RESTATED, SLASH,
  ARROW, ESCAPE, BROKEN_MENTION, BROKEN_REFERENCE, BROKEN_NOTE, UNCLOSED, LOST,
};

/** The characters at which each kind of run stops, from RUN on. */
static const char *const STOPS[] = {"", ",(", "()", "]", ")],;/"};

static bool give(TSLexer *lexer, enum Token token) { return lexer->result_symbol = (TSSymbol)token, true; }
static bool give_here(TSLexer *lexer, enum Token token) { return end_here(lexer), give(lexer, token); }

// ------------------------------------------------------------------------------------------------------------------ lines

static bool bullet(int32_t c) {
  return c == '-' || c == '*' || c == 0x2022 || c == 0xb7 || c == 0x2013 || c == 0x2014 || (c >= 0x25a0 && c <= 0x25ff) || c == 0x2610;
}

/** Behind a bullet's character: whether it was one. */
static bool bullet_ends(TSLexer *lexer, int32_t c) { return blank(at(lexer)) || (c > 0x2014 && !line_over(lexer)); }

/** `1.`, `2)`; behind the word Step `3:` too. */
static bool number_of_step(TSLexer *lexer, bool behind_word) {
  unsigned count = 0;
  for (; digit(at(lexer)); count++) next(lexer);
  if (count == 0 || count > 3) return false;
  blanks(lexer);
  if (!one_of(at(lexer), behind_word ? ".):" : ".)")) return false;
  next(lexer);
  return !digit(at(lexer));
}

/** "To come": an open question. */
static bool is_tk(const Word *word) { return word->capitals == 2 && is(word, "tk"); }

/** Behind the word "stet": whether a check's code follows. */
static bool stet_follows(TSLexer *lexer, const Word *word) {
  return is(word, "stet") && blanks(lexer) && letter(at(lexer));
}

/** The token of the label that this word is, else 0. */
static enum Token label(const Word *word) {
  for (unsigned i = 0, kind = LABEL_RECIPE; i < 7; i++, kind <<= 1)
    if (word->kinds & kind) return AT_LABELS + i;
  return 0;
}

/** Whether it is the label of a section that is a list: such a label stands alone on its line. */
static bool is_list(enum Token label) { return label >= METHOD - 2 && label < PROSE; }

/** The token of the label that starts with this word and ends before a colon, else 0. Reads on in "Make ahead". */
static enum Token label_ahead(TSLexer *lexer, Word *word) {
  if (!is(word, "make")) return at(lexer) == ':' ? label(word) : 0;
  if (at(lexer) == '-') next(lexer);
  blanks(lexer);
  read_word(lexer, word);
  return is(word, "ahead") && at(lexer) == ':' ? PROSE : 0;
}

/** At the start of the line below one of a list, a method or a head: the token that it starts with, where that is the bullet, the number or
 *  the label of another such line: then no token is needed that ends the line above. LINE or ON where it is seen to be none. False, and
 *  nothing read, where more must be looked at. */
static bool line_below(TSLexer *lexer, const bool *valid) {
  bool below_blank = newline(at(lexer));
  while (newline(at(lexer))) skip_newline(lexer);
  enum Token other = valid[ON] && !below_blank ? ON : LINE;
  int32_t c = at(lexer);
  if (valid[BULLET] && bullet(c)) {
    next(lexer);
    return bullet_ends(lexer, c) ? give_here(lexer, BULLET) : give(lexer, other);
  }
  if (valid[STEP_NUMBER] && digit(c)) return number_of_step(lexer, false) ? give_here(lexer, STEP_NUMBER) : give(lexer, other);
  if (below_blank) return give(lexer, LINE);
  if (!valid[HEADER] || !letter(c) || blank(c)) return false;
  Word word;
  read_word(lexer, &word);
  return label_ahead(lexer, &word) == HEADER ? give_here(lexer, HEADER) : give(lexer, LINE);
}

/** What follows a line: nothing that goes on with it (0), or text that does, and how. */
enum { INDENTED = 1, FLUSH = 2, STET_FIRST = 4, REMARK_FIRST = 8, LABEL_FIRST = 16 };

/** Whether a line at the left margin may go on with the one above. */
static bool goes_on(const bool *valid) { return valid[ON] || valid[ON_OR_LABEL]; }

/** Looks ahead from the start of a line. Lines of remarks are looked past, to see whether the item or paragraph above goes on behind them. A
 *  step's number never goes on, nor does a bullet, but for an indented one in a step; in prose both are prose. `word` is the last word read. */
static unsigned line_ahead(TSLexer *lexer, const bool *valid, Word *word) {
  bool step = valid[ARROW], prose = goes_on(valid) && !step;
  for (unsigned first = 0;; past_newline(lexer)) {
    unsigned found = blanks(lexer) ? INDENTED : FLUSH;
    int32_t c = at(lexer);
    word->size = 0;
    if (line_over(lexer)) return 0;
    if (one_of(c, "/?")) {
      next(lexer);
      if (at(lexer) != c) return found | first;
      if (!first) first = REMARK_FIRST;
    } else if (bullet(c)) {
      next(lexer);
      return !prose && (!step || found == FLUSH) && bullet_ends(lexer, c) ? 0 : found | first;
    } else if (digit(c)) {
      return !prose && number_of_step(lexer, false) ? 0 : found | first;
    } else {
      read_word(lexer, word);
      if (!word->size) return found | first;
      if (!first && found == FLUSH && label_ahead(lexer, word) > AT_LABELS) return FLUSH | LABEL_FIRST;
      if (!prose && is(word, "step") && blanks(lexer)) {
        word->size = 0;
        return number_of_step(lexer, true) ? 0 : found | first;
      }
      if (!stet_follows(lexer, word)) return found | first;
      if (!first) first = STET_FIRST | REMARK_FIRST;
    }
    past_line(lexer);
    if (ended(lexer)) return 0;
  }
}

/** At the end of a line. */
static bool line_end(TSLexer *lexer, const bool *valid) {
  if (ended(lexer) || valid[UNCLOSED]) {
    if (valid[LINE]) return give_here(lexer, LINE);
    return (valid[UNCLOSED] || valid[LOST]) && give_here(lexer, valid[UNCLOSED] ? UNCLOSED : LOST);
  }
  if (valid[LOST]) {  // inside a bracket that was seen to be closed: no second look ahead
    end_here(lexer);
    past_newline(lexer);
    return blanks(lexer) && !line_over(lexer) ? give_here(lexer, SOFT) : give(lexer, LOST);
  }
  skip_newline(lexer);
  end_here(lexer);
  if ((valid[BULLET] || valid[HEADER]) && line_below(lexer, valid)) return true;
  bool words = valid[RUN] || valid[ITEM_RUN] || valid[REASON_RUN];
  // Where only an indented line can go on, one that starts at the margin is not read here, unless it may be a remark.
  bool margin = !blank(at(lexer)) && !one_of(at(lexer), "/?");
  if (!words || (margin && !goes_on(valid))) return give(lexer, valid[LINE] ? LINE : SOFT);
  Word word;
  unsigned ahead = line_ahead(lexer, valid, &word);
  if (ahead & STET_FIRST && !valid[AT_STET]) ahead = 0;
  if (ahead & INDENTED && words) return give(lexer, ahead & STET_FIRST ? AT_STET : SOFT);
  if (ahead & FLUSH && goes_on(valid) && !(valid[ON_OR_LABEL] && ahead & LABEL_FIRST))
    return give(lexer, ahead & STET_FIRST ? AT_STET : valid[ON] ? ON : ON_OR_LABEL);
  return give(lexer, valid[LINE] ? LINE : SOFT);
}

/** Behind the first word of a line: whether the line is a heading. With `section` the word is a section's label, and a group may follow;
 *  a `bare` one, which starts with For or To, needs no colon where the next line is blank. */
static bool heading_ahead(TSLexer *lexer, bool section, bool bare) {
  bool bracket = false;
  unsigned words = 1;
  int32_t last = 0;
  if (section && blanks(lexer) && (bracket = at(lexer) == '(')) next(lexer);
  for (unsigned length = 0; length < 90 && !line_over(lexer); length++) {
    int32_t c = at(lexer);
    next(lexer);
    if (c == 0 || one_of(c, ".!?;[]=\"") || (c == '/' && at(lexer) == c) || (section && one_of(c, "()") && !(bracket && c == ')'))) return false;
    if (bracket && c == ')') {
      bracket = false;
      blanks(lexer);
      if (at(lexer) != ':') return false;
    } else if (c == ':') {
      bool space = blanks(lexer);
      if (line_over(lexer)) return !bracket;
      c = at(lexer);  // a remark may stand behind it
      next(lexer);
      return !bracket && space && one_of(c, "/?") && at(lexer) == c;
    }
    if (digit(c) || c == '/') bare = false;
    if (letter(c) && blank(last)) words++;
    last = c;
  }
  if (!bare || words < 2 || words > 6 || last == ',' || !newline(at(lexer))) return false;
  past_newline(lexer);
  blanks(lexer);
  return newline(at(lexer));
}

static enum Token kind_of_run(const bool *valid);
static bool run(TSLexer *lexer, const bool *valid, Word word, bool begun);

/** What starts at a line's first character. */
static bool line_start(TSLexer *lexer, const bool *valid, bool margin, bool below_blank) {
  Word word = {.size = 0};
  int32_t c = at(lexer);
  end_here(lexer);
  if (bullet(c) && valid[BULLET] && (margin || !valid[STEP_NUMBER])) {
    next(lexer);
    end_here(lexer);
    return bullet_ends(lexer, c) ? give(lexer, BULLET) : run(lexer, valid, word, true);
  }
  if (digit(c)) return valid[STEP_NUMBER] && number_of_step(lexer, false) && give_here(lexer, STEP_NUMBER);
  read_word(lexer, &word);
  if (!word.size || is_tk(&word)) return run(lexer, valid, word, false);
  if (margin && is_list(label(&word))) {
    end_here(lexer);
    return give(lexer, heading_ahead(lexer, true, false) ? label(&word) : kind_of_run(valid));
  }
  if (margin && is(&word, "make")) end_here(lexer);
  enum Token token = margin ? label_ahead(lexer, &word) : 0;
  if (token && valid[token]) return give_here(lexer, token);
  if (is(&word, "stet") && valid[AT_STET] && stet_follows(lexer, &word)) return give(lexer, AT_STET);
  if (is(&word, "step") && valid[STEP_NUMBER]) {
    end_here(lexer);
    return blanks(lexer), number_of_step(lexer, true) ? give_here(lexer, STEP_NUMBER) : give(lexer, RUN);
  }
  if (!valid[AT_GROUP] || !margin) return run(lexer, valid, word, false);
  bool bare = below_blank && (is(&word, "for") || is(&word, "to"));
  return give(lexer, heading_ahead(lexer, false, bare) ? AT_GROUP : AT_TEXT);
}

// --------------------------------------------------------------------------------------------------------------- measures

/** A dot behind a short unit: "2 tbsp. sugar", but not the end of a sentence. */
static void dot_of_unit(TSLexer *lexer) {
  next(lexer);
  if (!blanks(lexer)) return;
  int32_t c = at(lexer);
  if ((c >= 'a' && c <= 'z') || figure(c) || c == '(') end_here(lexer);
}

/** Behind "in": whether inches are meant: before punctuation, a number or a noun of size. */
static bool inches(TSLexer *lexer) {
  if (at(lexer) == '.') {
    next(lexer);
    end_here(lexer);
  }
  blanks(lexer);
  if (line_over(lexer) || one_of(at(lexer), "().,;:/]x") || at(lexer) == 0xd7) return true;
  Word noun;
  read_word(lexer, &noun);
  return noun.kinds & NOUN_OF_SIZE;
}

/** Degree signs and inch marks. */
static bool sign(TSLexer *lexer) {
  int32_t c = at(lexer);
  if (!degree(c) && !inch_mark(c)) return false;
  next(lexer);
  end_here(lexer);
  if (inch_mark(c) || c >= 0x2103) return true;
  blanks(lexer);
  if (one_of(at(lexer), "FfCc")) {
    next(lexer);
    if (!in_word(at(lexer))) end_here(lexer);
  }
  return true;
}

/** Behind a word that may be a unit: a second word that belongs to it, "fl oz", "degrees F". */
static bool two_words(TSLexer *lexer, const Word *first) {
  bool fluid = is(first, "fl") || is(first, "fluid");
  if (!fluid && !is(first, "degrees") && !is(first, "degree") && !is(first, "deg")) return false;
  if (at(lexer) == '.') next(lexer);
  blanks(lexer);
  Word second;
  read_word(lexer, &second);
  if (fluid ? !is(&second, "oz") && !is(&second, "ozs") && !is(&second, "ounce") && !is(&second, "ounces")
            : !is(&second, "f") && !is(&second, "c") && !is(&second, "fahrenheit") && !is(&second, "celsius") && !is(&second, "centigrade"))
    return false;
  if (fluid && at(lexer) == '.') next(lexer);
  end_here(lexer);
  return true;
}

/** Whether a measure may open with a word. */
static bool may_open(const Word *word) {
  return word->kinds & (NUMBER | HEDGE) || is(word, "up") || is(word, "at") || is(word, "gas");
}

/** A unit behind a number, with the hyphen before it, or a hedge or size before a unit: "2 heaping tbsp", "3 large cloves". Where it is
 *  neither, `word` is the word that was read, whose end is marked; it is emptied where more was read than it. */
static bool unit(TSLexer *lexer, const bool *valid, Word *word) {
  bool joined = !word->size && hyphen(at(lexer));
  if (joined) {
    next(lexer);
    end_here(lexer);
  }
  if (!word->size && sign(lexer)) return give(lexer, UNIT_TOKEN);
  if (!word->size) read_word(lexer, word);
  if (!word->size) return false;
  Word first = *word;
  // "7-a dozen": the hyphen stands alone before what may be an amount of its own.
  if (!joined || !may_open(&first) || first.kinds & SIZE) end_here(lexer);
  if (is_unit(&first) && at(lexer) == '.' && first.size <= 5) return dot_of_unit(lexer), give(lexer, UNIT_TOKEN);
  if (is(&first, "in")) return word->size = 0, (joined || inches(lexer)) && give(lexer, UNIT_TOKEN);
  if (is(&first, "fl") || is(&first, "fluid") || is(&first, "degrees") || is(&first, "degree") || is(&first, "deg")) word->size = 0;
  if (two_words(lexer, &first) || is_unit(&first)) return give(lexer, UNIT_TOKEN);
  if (first.kinds & SIZE && valid[SIZE_TOKEN] && blanks(lexer)) {
    Word second;
    read_word(lexer, &second);
    word->size = 0;
    return second.kinds & UNIT && second.size > 1 && give(lexer, first.kinds & HEDGE ? HEDGE_OF_UNIT : SIZE_TOKEN);
  }
  return false;
}

/** Enough of a number to look past it. */
static void past_number(TSLexer *lexer) {
  for (int i = 0; i < 2; i++) {
    while (figure(at(lexer)) || one_of(at(lexer), "./-,") || at(lexer) == 0x2044 || at(lexer) == 0x2013) next(lexer);
    if (i == 0 && !(blanks(lexer) && figure(at(lexer)))) return;
  }
  blanks(lexer);
}

/** Whether a number and a unit of these kinds follow. */
static bool amount_follows(TSLexer *lexer, unsigned kinds) {
  if (!figure(at(lexer))) return false;
  past_number(lexer);
  if (hyphen(at(lexer))) next(lexer);
  Word unit;
  read_word(lexer, &unit);
  return unit.kinds & kinds;
}

/** Behind a number or a unit: another term of the same sum (`1 lb 4 oz`, `1 cup plus 2 tbsp`), another side (`9 x 13 in`), or the size of
 *  each (`1 x 400 g can`, `2 14-oz cans`). Where it is none, `word` is the word that was read, whose end is marked; it is empty where more
 *  was read than it. */
static bool more_of_amount(TSLexer *lexer, const bool *valid, Word *word) {
  int32_t c = at(lexer);
  bool bare = valid[UNIT_TOKEN];  // no unit stands before
  if (figure(c)) {
    end_here(lexer);
    if (!bare) return valid[BESIDE] && amount_follows(lexer, UNIT_OF_SUMS) && give(lexer, BESIDE);
    while (figure(at(lexer)) || one_of(at(lexer), "./")) next(lexer);
    if (!valid[OF_SIZE] || !hyphen(at(lexer))) return false;
    next(lexer);
    Word size;
    read_word(lexer, &size);
    return size.kinds & UNIT_OF_PACKS && give(lexer, OF_SIZE);
  }
  read_word(lexer, word);
  bool by = c == 0xd7 || is(word, "x") || is(word, "by"), plus = one_of(c, "+&") || is(word, "plus") || is(word, "and");
  if (!word->size) next(lexer);
  end_here(lexer);
  if (!by && !plus) return false;
  blanks(lexer);
  if (!figure(at(lexer))) return false;
  word->size = 0;
  bool follows = amount_follows(lexer, by ? UNIT_OF_PACKS : UNIT_OF_SUMS);
  if (plus) return follows && valid[JOIN] && give(lexer, JOIN);
  return valid[BY] && give(lexer, follows && bare && valid[OF_SIZE] ? OF_SIZE : BY);
}

/** Whether everything up to `close` is amounts: numbers, units, hedges, and what joins them. `word` is the first word, if one was read. */
static bool only_amounts(TSLexer *lexer, int32_t close, Word word) {
  bool number = false, unit = false;
  for (unsigned length = 0; length < 120; length++) {
    int32_t c = at(lexer);
    if (!word.size && c == close) return number && unit;
    if (word.size || letter(c)) {
      if (!word.size) read_word(lexer, &word);
      bool close_kind = is(&word, "f") || is(&word, "c") || is(&word, "in");
      if (is_unit(&word) || close_kind || is(&word, "degrees") || is(&word, "gas") || is(&word, "fl")) unit = true;
      else if (!(word.kinds & (HEDGE | SIZE | BETWEEN_AMOUNTS | NUMBER))) return false;
      word.size = 0;
    } else if (newline(c)) {
      past_newline(lexer);
      if (!blanks(lexer) || line_over(lexer)) return false;
    } else {
      if (figure(c)) number = true;
      else if (degree(c) || inch_mark(c)) unit = true;
      else if (!blank(c) && !one_of(c, "-./,;+~") && c != 0x2044 && c != 0xd7 && c != 0x2248 && c != 0x2012 && c != 0x2013 && c != 0x2014)
        return false;
      next(lexer);
      if (c == '/' && at(lexer) == c) return false;
    }
  }
  return false;
}

/** Whether a number in words and a unit start with `word`: "half a cup", "two to three large spoonfuls". Marks the number's end with
 *  `mark`. `word` is the last word read. */
static bool words_and_unit(TSLexer *lexer, Word *word, bool mark) {
  bool part = word->kinds & PART, linked = false, open = false;
  for (unsigned count = 0; count < 6; count++) {
    if (mark && !open) end_here(lexer);
    bool joined = at(lexer) == '-';
    if (joined) next(lexer);
    if (!joined && !blanks(lexer)) break;
    read_word(lexer, word);
    if (!open && word->kinds & UNIT_OF_WORDS) return !is(word, "second");  // "in a second bowl"
    bool number = word->kinds & PART || (word->kinds & NUMBER && (open || joined)) ||
                  ((part || linked) && (is(word, "a") || is(word, "an") || is(word, "of")));
    part |= (word->kinds & PART) != 0;
    if (!number && !linked && (is(word, "to") || is(word, "or") || is(word, "and"))) linked = open = true;
    else if (number) open = false;
    else if (!open && word->kinds & SIZE && blanks(lexer)) return read_word(lexer, word), word->kinds & UNIT_OF_WORDS;
    else return false;
  }
  word->size = 0;
  return false;
}

/** The measure that opens with `word`, as the token that comes first: HEDGE, WORD_NUMBER or GAS; else 0. Marks the end of that token with
 *  `mark`. `word` is the last word read. */
static enum Token opening(TSLexer *lexer, Word *word, bool mark) {
  if (is(word, "gas")) {
    if (!blanks(lexer)) return word->size = 0, 0;
    read_word(lexer, word);
    if (!word->size || is(word, "mark")) {
      if (mark) end_here(lexer);
      blanks(lexer);
      return figure(at(lexer)) ? GAS : 0;
    }
    return 0;
  }
  bool up = is(word, "up"), least = is(word, "at");
  if (up || least || word->kinds & HEDGE) {
    if (mark) end_here(lexer);
    if (!blanks(lexer)) return word->size = 0, 0;
    if (figure(at(lexer))) return up || least ? 0 : HEDGE_TOKEN;
    read_word(lexer, word);
    if (up || least) {
      if (up ? !is(word, "to") : !is(word, "least") && !is(word, "most")) return 0;
      if (mark) end_here(lexer);
      if (!blanks(lexer)) return word->size = 0, 0;
      if (figure(at(lexer))) return HEDGE_TOKEN;
      read_word(lexer, word);
    }
    return word->kinds & NUMBER && words_and_unit(lexer, word, false) ? HEDGE_TOKEN : 0;
  }
  return word->kinds & NUMBER && words_and_unit(lexer, word, mark) ? WORD_NUMBER : 0;
}

// ------------------------------------------------------------------------------------------------------------------- runs

/** An address is one word: "https://example.org/2//x". */
static void past_address(TSLexer *lexer) {
  while (!line_over(lexer) && !blank(at(lexer)) && !one_of(at(lexer), "[])")) next(lexer);
}

/** The kind of run that is wanted here; RUN where none is. */
static enum Token kind_of_run(const bool *valid) {
  enum Token kind = AMOUNT_RUN;
  while (kind > RUN && !valid[kind]) kind--;
  return kind;
}

/** A run of plain words, or what stops it at its very start. `word` is a word that has been read already, `begun` tells that the token
 *  has an end behind something else. */
static bool run(TSLexer *lexer, const bool *valid, Word word, bool begun) {
  enum Token kind = kind_of_run(valid);
  const char *stops = STOPS[kind - RUN];
  bool spaced = true;
  lexer->result_symbol = (TSSymbol)kind;
  for (;; spaced = false) {
    if (!word.size) {
      if (blanks(lexer)) spaced = true;
      int32_t c = at(lexer);
      if (letter(c)) {
        read_word(lexer, &word);
      } else if (line_over(lexer)) {
        // A run goes on over the end of a line; a measure, a mention or a remark there is left to the next token.
        if (!begun || kind > ITEM_RUN || ended(lexer)) return begun;
        past_newline(lexer);
        if (!blank(at(lexer)) || line_ahead(lexer, valid, &word) != INDENTED) return begun;
        if (!word.size) return begun;
      } else {
        if (c == '[' || figure(c) || one_of(c, stops)) return begun;
        next(lexer);
        if (spaced && one_of(c, "/?") && at(lexer) == c) return begun;
        if (c == '.' && spaced && digit(at(lexer))) return begun;
        if (c == '=' && at(lexer) == '>' && valid[ARROW]) {
          if (begun) return true;
          next(lexer);
          return give_here(lexer, ARROW);
        }
        if (c == '\\' && one_of(at(lexer), "[]=/?\\")) {
          if (begun || !valid[ESCAPE]) return begun;
          next(lexer);
          return give_here(lexer, ESCAPE);
        }
        if ((c == '~' || c == 0x2248) && valid[HEDGE_TOKEN]) {
          if (!begun) end_here(lexer);
          blanks(lexer);
          if (figure(at(lexer))) return begun || give(lexer, HEDGE_TOKEN);
        }
        if (c == ':' && at(lexer) == '/') past_address(lexer);
        end_here(lexer);
        begun = true;
        continue;
      }
    }
    if (is_tk(&word)) return begun || give_here(lexer, QUERY);
    if (may_open(&word) && valid[HEDGE_TOKEN]) {
      if (!begun) end_here(lexer);
      enum Token token = opening(lexer, &word, !begun);
      if (token) return begun || give(lexer, token);
    } else {
      word.size = 0;
    }
    if (!word.size) end_here(lexer);
    begun = true;
  }
}

// --------------------------------------------------------------------------------------------------------------- brackets

/** Whether a bracket is closed before another opens (`[`), or before its item or paragraph ends. Starts inside it. */
static bool closed(TSLexer *lexer, int32_t close) {
  unsigned depth = 1;
  for (unsigned length = 0; length < 400 && !ended(lexer); length++) {
    int32_t c = at(lexer);
    if (c == close && --depth == 0) return true;
    if (newline(c)) {
      past_newline(lexer);
      if (!blanks(lexer) || line_over(lexer)) return false;
      continue;
    }
    next(lexer);
    if (c == '\\' && !line_over(lexer)) next(lexer);
    if (c == '(' && close == ')') depth++;
    if (c == '[') {
      if (close == ']') return false;
      while (!line_over(lexer) && at(lexer) != ']') next(lexer);
    }
  }
  return false;
}

/** At `[`: a query, a restatement; a mention or reference that nothing closes. */
static bool square_bracket(TSLexer *lexer, const bool *valid) {
  Word word = {.size = 0};
  bool may_open = valid[BROKEN_MENTION];
  if (!may_open) end_here(lexer);
  next(lexer);
  if (may_open) end_here(lexer);
  if (may_open && at(lexer) == '[') {
    next(lexer);
    end_here(lexer);
    return !closed(lexer, ']') && give(lexer, BROKEN_REFERENCE);
  }
  blanks(lexer);
  read_word(lexer, &word);
  if (at(lexer) == ':' && (is(&word, "au") || is(&word, "ed"))) {
    while (!line_over(lexer) && at(lexer) != ']') next(lexer);
    if (at(lexer) == ']') next(lexer);
    return give_here(lexer, QUERY);
  }
  if (!may_open) return (valid[UNCLOSED] || valid[LOST]) && give(lexer, valid[UNCLOSED] ? UNCLOSED : LOST);
  if (valid[OPEN_RESTATED] && only_amounts(lexer, ']', word)) return give(lexer, OPEN_RESTATED);
  return !closed(lexer, ']') && give(lexer, BROKEN_MENTION);
}

/** At `(`: a restatement, or a note that nothing closes; in prose a character as any other. */
static bool parenthesis(TSLexer *lexer, const bool *valid) {
  Word word = {.size = 0};
  bool note = valid[BROKEN_NOTE];
  next(lexer);
  end_here(lexer);
  if (!note && !valid[OPEN_RESTATED]) return run(lexer, valid, word, true);
  if (valid[OPEN_RESTATED] && only_amounts(lexer, ')', word)) return give(lexer, OPEN_RESTATED);
  if (note) return !closed(lexer, ')') && give(lexer, BROKEN_NOTE);
  return give(lexer, kind_of_run(valid));
}

/** The reason of a stet: up to the end of the line or a comment. */
static bool reason(TSLexer *lexer) {
  for (bool spaced = false; !line_over(lexer);) {
    spaced = blanks(lexer);
    if (line_over(lexer)) break;
    int32_t c = at(lexer);
    next(lexer);
    if (c == '/' && at(lexer) == '/' && spaced) break;
    end_here(lexer);
  }
  return give(lexer, REASON_RUN);
}

/** At `/` or `?`: a remark to the end of the line, or a slash before another amount. */
static bool slash_or_question(TSLexer *lexer, const bool *valid) {
  int32_t c = at(lexer);
  next(lexer);
  // Whatever stands before it: behind a number or a unit what is valid differs with how much of the text is parsed again.
  if (at(lexer) == c) {
    past_line(lexer);
    return give_here(lexer, c == '/' ? COMMENT : QUERY);
  }
  end_here(lexer);
  if (valid[REASON_RUN]) return reason(lexer);
  if (c == '/' && valid[SLASH]) {
    blanks(lexer);
    if (at(lexer) == '~' || at(lexer) == 0x2248) next(lexer);
    if (figure(at(lexer))) return give(lexer, SLASH);
  }
  if (one_of(c, STOPS[kind_of_run(valid) - RUN]) || !valid[kind_of_run(valid)]) return false;
  return run(lexer, valid, (Word){.size = 0}, true);
}

// ------------------------------------------------------------------------------------------------------------------- scan

/** Behind a number or a unit: the rest of the amount, or the words that follow it. */
static bool behind_number(TSLexer *lexer, const bool *valid) {
  int32_t c = at(lexer);
  Word word = {.size = 0};
  bool joins = (valid[BESIDE] || valid[JOIN] || valid[BY] || valid[OF_SIZE]) && (figure(c) || one_of(c, "xX+&pPaAbB") || c == 0xd7);
  if (joins) {
    if (more_of_amount(lexer, valid, &word)) return true;
    if (figure(c)) return false;
    if (!word.size) return valid[kind_of_run(valid)] && give(lexer, kind_of_run(valid));
  }
  if (valid[UNIT_TOKEN] && (word.size || letter(c) || degree(c) || hyphen(c) || inch_mark(c))) {
    if (unit(lexer, valid, &word)) return true;
    if (!valid[kind_of_run(valid)]) return false;
    if (!word.size) return give(lexer, kind_of_run(valid));
  }
  return valid[kind_of_run(valid)] && run(lexer, valid, word, hyphen(c));
}

/** Tells what starts here, of what is valid. */
static bool scan(TSLexer *lexer, const bool *valid) {
  bool start = valid[METHOD], spaced = false, below_blank = false;
  while (blank(at(lexer)) || (at(lexer) == 0 && !at_end(lexer)) || (start && newline(at(lexer)))) {
    if (newline(at(lexer))) below_blank = true;
    spaced = !newline(at(lexer)) && (spaced || at(lexer) != 0xfeff);  // a byte-order mark does not indent
    skip(lexer);
  }
  if (line_over(lexer)) return !start && line_end(lexer, valid);
  int32_t c = at(lexer);
  if (c == '/' || c == '?') return slash_or_question(lexer, valid);
  if (valid[REASON_RUN]) return c != ':' && reason(lexer);
  if (c == '[') return square_bracket(lexer, valid);
  if (c == '(' && valid[kind_of_run(valid)]) return parenthesis(lexer, valid);
  if (start) return line_start(lexer, valid, !spaced, below_blank);
  if (valid[UNIT_TOKEN] || valid[BESIDE] || valid[JOIN]) return behind_number(lexer, valid);
  Word word = {.size = 0};
  if (valid[kind_of_run(valid)]) return run(lexer, valid, word, false);
  if (!valid[WORD_NUMBER] || figure(c)) return false;
  if (c == '~' || c == 0x2248) return next(lexer), give_here(lexer, HEDGE_TOKEN);
  read_word(lexer, &word);
  enum Token token = opening(lexer, &word, true);
  return token && give(lexer, token);
}

#ifndef NODES
void *tree_sitter_tamis_external_scanner_create(void) { return NULL; }
void tree_sitter_tamis_external_scanner_destroy(void *payload) { (void)payload; }
unsigned tree_sitter_tamis_external_scanner_serialize(void *payload, char *buffer) { return (void)payload, (void)buffer, 0; }
void tree_sitter_tamis_external_scanner_deserialize(void *payload, const char *buffer, unsigned length) {
  (void)payload, (void)buffer, (void)length;
}
bool tree_sitter_tamis_external_scanner_scan(void *payload, TSLexer *lexer, const bool *valid) { return (void)payload, scan(lexer, valid); }
#endif

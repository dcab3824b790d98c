// Tells lines apart, takes runs of plain words in one bite, and knows a unit behind a number.
//
// What needs a look ahead that a regular expression cannot give stands here: what kind of line starts, where a run of plain words must
// stop because the next word opens a measure ("half a cup"), whether a parenthesis holds nothing but amounts. No state is kept, so any
// point of a manuscript can be read afresh. The unit words come from units.h, which is made from units.json.

#include "tree_sitter/parser.h"
#include "units.h"
#include <string.h>

enum Token {
  LINE, BLANK, SOFT,
  AT_RECIPE, AT_HEADER, AT_EQUIPMENT, AT_INGREDIENTS, AT_METHOD, AT_TESTS, AT_PROSE, AT_GROUP, AT_STET, AT_COMMENT, AT_QUERY, AT_STEP,
  AT_BULLET, AT_TEXT,
  RUN, ITEM_RUN, UNIT, WORD_NUMBER, HEDGE, JOIN, RESTATED, SLASH, BY, GAS, UNCLOSED,
};

#define WIDTH 24  // longer words are in no list
typedef struct { char text[WIDTH + 3]; unsigned size; } Word;

static const char *const LABELS[] = {  // in the order of the tokens from AT_RECIPE on
  " recipe ", " yield serves time course cuisine diet allergens author photo keywords status ", " equipment ", " ingredients ",
  " method directions instructions preparation steps ", " tests ", " notes storage make_ahead variations sidebar ",
};
static const char *const WORD_NUMBERS =
  " a an one two three four five six seven eight nine ten eleven twelve fifteen twenty thirty forty half quarter couple ";
static const char *const HEDGES =
  " about approx approximately around roughly nearly almost scant generous heaping heaped rounded level ";
static const char *const SIZE_NOUNS =
  " thick thickness long length lengths wide width deep high tall square diameter across apart piece pieces cube cubes slice slices strip"
  " strips round rounds chunk chunks dice pan dish tin cake loaf skillet ring cutter ";
static const char *const AMONG = " x by plus each or to and total about in all drained net of ";

static int32_t at(TSLexer *lexer) { return lexer->lookahead; }
static void next(TSLexer *lexer) { lexer->advance(lexer, false); }
static bool ended(TSLexer *lexer) { return at(lexer) == 0 && lexer->eof(lexer); }
static bool newline(int32_t c) { return c == '\n' || c == '\r'; }
static bool line_over(TSLexer *lexer) { return newline(at(lexer)) || ended(lexer); }
static bool blank(int32_t c) {
  return c == ' ' || c == '\t' || c == '\f' || c == '\v' || c == 0xa0 || c == 0x85 || c == 0xfeff || c == 0x3000 || c == 0x202f ||
         c == 0x205f || (c >= 0x2000 && c <= 0x200b) || c == 0x2028 || c == 0x2029;
}
static bool digit(int32_t c) { return c >= '0' && c <= '9'; }
static bool figure(int32_t c) { return digit(c) || (c >= 0xbc && c <= 0xbe) || (c >= 0x2150 && c <= 0x215e); }
static bool degree(int32_t c) { return c == 0xb0 || c == 0xba || c == 0x2da || c == 0x2103 || c == 0x2109; }
static bool letter(int32_t c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= 0xc0 && c < 0x2000 && c != 0xd7 && c != 0xf7) || c > 0x3040; }
static bool one_of(int32_t c, const char *set) { return c > 0 && c < 128 && strchr(set, c) != NULL; }
static bool wordly(int32_t c) { return letter(c) || digit(c) || c == '\'' || c == 0x2019 || (c >= 0x300 && c <= 0x36f); }
static unsigned blanks(TSLexer *lexer) {
  unsigned count = 0;
  for (; blank(at(lexer)); count++) next(lexer);
  return count;
}
static void put(Word *word, int32_t c) { if (word->size < WIDTH + 1) word->text[word->size++] = c < 128 ? (char)c : '#'; }
static void lower(Word *word) {
  for (unsigned i = 0; i < word->size; i++) if (word->text[i] >= 'A' && word->text[i] <= 'Z') word->text[i] += 32;
}
static bool listed(const Word *word, const char *list) {  // every word of `list` has a space before and behind it
  char padded[WIDTH + 5] = " ";
  if (word->size == 0 || word->size > WIDTH) return false;
  memcpy(padded + 1, word->text, word->size);
  memcpy(padded + 1 + word->size, " ", 2);
  return strstr(list, padded) != NULL;
}
/** A word of letters; digits and apostrophes may follow the first letter. */
static void read_word(TSLexer *lexer, Word *word) {
  word->size = 0;
  if (!letter(at(lexer))) return;
  for (; wordly(at(lexer)); next(lexer)) put(word, at(lexer));
}

/** Whether `word`, as written, is a unit (of any kind, or only of those that a number in words may stand before). */
static bool is_unit(const Word *word, bool in_words) {
  Word folded = *word;
  lower(&folded);
  if (!in_words && word->size <= 2 && listed(word, CASED_UNITS)) return true;
  return listed(&folded, in_words ? WORDED_UNITS : UNITS);
}

/** AT_STEP before `1.`, `2)`, `Step 3:`, AT_BULLET before `- `, else AT_TEXT; `word` gets the line's first word. */
static enum Token opening(TSLexer *lexer, Word *word) {
  int32_t c = at(lexer);
  read_word(lexer, word);
  lower(word);
  if (listed(word, " step ")) blanks(lexer);
  if (word->size && !(listed(word, " step ") && digit(at(lexer)))) return AT_TEXT;
  if (digit(at(lexer))) {
    unsigned count = 0;
    for (; digit(at(lexer)); count++) next(lexer);
    if (count > 3) return AT_TEXT;
    blanks(lexer);
    if (!one_of(at(lexer), word->size ? ".):" : ".)")) return AT_TEXT;
    next(lexer);
    return digit(at(lexer)) ? AT_TEXT : AT_STEP;
  }
  if (one_of(c, "-*") || c == 0x2022 || c == 0xb7 || c == 0x2013 || c == 0x2014 || (c >= 0x25a0 && c <= 0x25ff) || c == 0x2610) {
    next(lexer);
    return blank(at(lexer)) || (c > 127 && !line_over(lexer)) ? AT_BULLET : AT_TEXT;
  }
  return AT_TEXT;
}

/** LINE, BLANK or SOFT at the end of a line. */
static bool line_end(TSLexer *lexer, const bool *valid) {
  if (ended(lexer)) {
    lexer->mark_end(lexer);
    lexer->result_symbol = valid[BLANK] ? BLANK : LINE;
    return valid[BLANK] || valid[LINE];
  }
  unsigned lines = 0, indent = 0;
  while (newline(at(lexer))) {
    bool cr = at(lexer) == '\r';
    next(lexer);
    if (cr && at(lexer) == '\n') next(lexer);
    lines++;
    lexer->mark_end(lexer);
    indent = blanks(lexer);
  }
  if (ended(lexer)) { lexer->mark_end(lexer); lines++; }
  if (lines == 1 && indent > 0 && valid[SOFT]) {
    if (at(lexer) == '/') {  // an indented comment is a line of its own
      next(lexer);
      if (at(lexer) == '/') return lexer->result_symbol = LINE, valid[LINE];
      return lexer->result_symbol = SOFT, true;
    }
    Word word;  // so are an indented bullet and a numbered step
    enum Token kind = opening(lexer, &word);
    lexer->result_symbol = kind != AT_TEXT && valid[LINE] ? LINE : SOFT;
    return true;
  }
  lexer->result_symbol = lines > 1 || !valid[LINE] ? BLANK : LINE;
  return valid[lexer->result_symbol];
}

/** What kind of line starts here: a token without width. */
static bool line_start(TSLexer *lexer, const bool *valid, bool margin) {
  Word word;
  int32_t c = at(lexer);
  lexer->mark_end(lexer);
  enum Token kind = opening(lexer, &word);
  if (kind == AT_TEXT && one_of(c, "/?") && at(lexer) == c) {
    next(lexer);
    if (at(lexer) == c) kind = c == '/' ? AT_COMMENT : AT_QUERY;
  } else if (kind == AT_TEXT && margin && word.size) {
    if (listed(&word, " stet ") && blank(at(lexer))) kind = AT_STET;
    Word two = word;
    unsigned words = 1, length = 0;
    bool lead = listed(&word, " for ") || listed(&word, " to "), plain = true, colon = false, label_ends = at(lexer) == ':';
    int32_t last = 0;
    unsigned blank_at = blanks(lexer);
    if (blank_at && !label_ends) {  // "make ahead:" is a label of two words
      Word second;
      if (at(lexer) == '-') next(lexer);
      read_word(lexer, &second);
      lower(&second);
      put(&two, '_');
      for (unsigned i = 0; i < second.size; i++) put(&two, second.text[i]);
      words = second.size ? 2 : 1;
      if (!second.size && at(lexer) == '(') plain = true;
    } else if (at(lexer) == '-') {
      next(lexer);
      Word second;
      read_word(lexer, &second);
      lower(&second);
      put(&two, '_');
      for (unsigned i = 0; i < second.size; i++) put(&two, second.text[i]);
    }
    bool two_ends = at(lexer) == ':';
    for (; !line_over(lexer) && length < 200; length++) {
      c = at(lexer);
      if (c == ':' && !colon) colon = true;
      else if (colon && !blank(c)) colon = false, plain = false;
      if (blank(c) && !blank(last)) words++;
      if (one_of(c, ".!?;[]=\"") || digit(c)) plain = false;
      last = c;
      next(lexer);
    }
    bool alone = line_over(lexer) && colon;
    for (int i = 0; kind == AT_TEXT && i < 7; i++) {
      enum Token token = AT_RECIPE + i;
      bool first = listed(&word, LABELS[i]), second = listed(&two, LABELS[i]);
      if (token >= AT_EQUIPMENT && token <= AT_TESTS ? first && alone && plain : (first && label_ends) || (second && two_ends)) kind = token;
    }
    if (kind == AT_TEXT && alone && plain && length < 90) kind = AT_GROUP;
    if (kind == AT_TEXT && lead && plain && !colon && words <= 6 && line_over(lexer) && valid[AT_GROUP] && last != ',') {
      bool cr = at(lexer) == '\r';  // alone between blank lines
      if (!ended(lexer)) next(lexer);
      if (cr && at(lexer) == '\n') next(lexer);
      blanks(lexer);
      if (newline(at(lexer))) kind = AT_GROUP;
    }
  }
  lexer->result_symbol = valid[kind] ? kind : AT_TEXT;
  return valid[lexer->result_symbol];
}

/** Whether everything up to `close` is amounts: numbers, units, hedges, and what joins them. Starts behind the bracket. */
static bool only_amounts(TSLexer *lexer, int32_t close) {
  bool number = false, unit = false;
  for (unsigned length = 0; length < 120; length++) {
    int32_t c = at(lexer);
    if (ended(lexer)) return false;
    if (c == close) return number && unit;
    if (figure(c)) { number = true; next(lexer); continue; }
    if (degree(c) || one_of(c, "\"") || c == 0x2033) { unit = true; next(lexer); continue; }
    if (letter(c)) {
      Word word;
      read_word(lexer, &word);
      Word folded = word;
      lower(&folded);
      if (is_unit(&word, false) || listed(&folded, " in fl fluid degrees gas mark fan f c ")) unit = true;
      else if (!listed(&folded, HEDGES) && !listed(&folded, AMONG) && !listed(&folded, WORD_NUMBERS)) return false;
      continue;
    }
    if (newline(c)) {
      next(lexer);
      if (!blank(at(lexer)) && !newline(at(lexer))) return false;
      continue;
    }
    if (!blank(c) && !one_of(c, "-./,;+~x") && c != 0x2044 && c != 0xd7 && c != 0x2248 && c != 0x2013 && c != 0x2012 && c != 0x2014) return false;
    next(lexer);
  }
  return false;
}

/** A unit behind a number, with the hyphen before it. `word` keeps what was read where it is none; the end is then marked behind it. */
static bool unit(TSLexer *lexer, Word *word) {
  bool hyphen = at(lexer) == '-' || at(lexer) == 0x2010 || at(lexer) == 0x2011;
  if (hyphen) next(lexer);
  if (degree(at(lexer))) {
    bool whole = at(lexer) >= 0x2103;
    next(lexer);
    lexer->mark_end(lexer);
    if (whole) return true;
    blanks(lexer);
    if (one_of(at(lexer), "FfCc")) {
      next(lexer);
      if (!wordly(at(lexer))) lexer->mark_end(lexer);
    }
    return true;
  }
  if (one_of(at(lexer), "\"") || at(lexer) == 0x2033 || at(lexer) == 0x201d) { next(lexer); lexer->mark_end(lexer); return true; }
  read_word(lexer, word);
  if (!word->size) return false;
  lexer->mark_end(lexer);
  Word folded = *word;
  lower(&folded);
  if (listed(&folded, " in ")) {
    if (hyphen) return true;
    bool dot = at(lexer) == '.';
    if (dot) { next(lexer); lexer->mark_end(lexer); }
    blanks(lexer);
    Word noun;
    if (line_over(lexer) || one_of(at(lexer), "().,;/]x") || at(lexer) == 0xd7) return true;
    read_word(lexer, &noun);
    lower(&noun);
    return listed(&noun, SIZE_NOUNS);
  }
  bool short_form = listed(&folded, " fl fluid degrees degree deg "), known = is_unit(word, false);
  if (short_form) {
    if (at(lexer) == '.') next(lexer);
    blanks(lexer);
    Word second;
    read_word(lexer, &second);
    lower(&second);
    if (listed(&folded, " fl fluid ") ? listed(&second, " oz ozs ounce ounces ") : listed(&second, " f c fahrenheit celsius centigrade ")) {
      if (at(lexer) == '.') next(lexer);
      lexer->mark_end(lexer);
      return true;
    }
    return known;
  }
  if (known && at(lexer) == '.' && word->size <= 5) {  // "tbsp. sugar", no end of a sentence
    next(lexer);
    if (blank(at(lexer))) {
      blanks(lexer);
      if ((at(lexer) >= 'a' && at(lexer) <= 'z') || figure(at(lexer)) || at(lexer) == '(') lexer->mark_end(lexer);
    }
  }
  return known;
}

/** The digits of a number, and what stands between them: enough to look past it. */
static void past_number(TSLexer *lexer) {
  while (figure(at(lexer)) || one_of(at(lexer), "./-") || at(lexer) == 0x2044 || at(lexer) == 0x2013) next(lexer);
}

/** Whether another term of the same sum follows a unit: `1 lb 4 oz`, `1 cup plus 2 tbsp`. A word that is read and no "plus" stays in `word`. */
static bool join(TSLexer *lexer, Word *word) {
  lexer->mark_end(lexer);
  if (at(lexer) == '+' || at(lexer) == '&') {
    next(lexer);
    lexer->mark_end(lexer);
  } else if (letter(at(lexer))) {
    read_word(lexer, word);
    lexer->mark_end(lexer);
    Word folded = *word;
    lower(&folded);
    if (!listed(&folded, " plus and ")) return false;
  }
  blanks(lexer);
  if (!figure(at(lexer))) return false;
  past_number(lexer);
  blanks(lexer);
  past_number(lexer);
  blanks(lexer);
  Word unit;
  read_word(lexer, &unit);
  lower(&unit);
  return listed(&unit, SUMMED_UNITS);
}

/** A run of plain words, or what stops it at its very start. `item` stops at commas and parentheses too. */
static bool run(TSLexer *lexer, const bool *valid, Word word, bool begun) {
  bool item = !valid[RUN], spaced = true;
  lexer->result_symbol = item ? ITEM_RUN : RUN;
  for (;;) {
    if (!word.size) {
      if (blank(at(lexer))) { blanks(lexer); spaced = true; }
      int32_t c = at(lexer);
      if (line_over(lexer) || one_of(c, "[]\\") || (item && one_of(c, ",()"))) return begun;
      if (figure(c) || degree(c)) return begun;
      if (!letter(c)) {
        next(lexer);
        if ((c == '/' && at(lexer) == '/' && spaced) || (c == '?' && at(lexer) == '?' && spaced) || (c == '=' && at(lexer) == '>')) return begun;
        if (c == '~' || c == 0x2248) {
          if (figure(at(lexer))) {
            if (begun || !valid[HEDGE]) return begun;
            lexer->mark_end(lexer);
            return lexer->result_symbol = HEDGE, true;
          }
        }
        lexer->mark_end(lexer);
        begun = true;
        spaced = one_of(c, "(");
        continue;
      }
      read_word(lexer, &word);
    }
    Word folded = word;
    lower(&folded);
    word.size = 0;
    spaced = false;
    if (word.text[0] == 'T' && folded.size == 2 && folded.text[0] == 't' && folded.text[1] == 'k' && word.text[1] == 'K') return begun;
    bool hedge = listed(&folded, HEDGES) || listed(&folded, " up at "), number = listed(&folded, WORD_NUMBERS), gas = listed(&folded, " gas ");
    if ((hedge || number || gas) && (blank(at(lexer)) || (number && at(lexer) == '-'))) {
      // Whether a measure opens here: the end is not marked until that is known.
      TSLexer *l = lexer;
      if (!begun) l->mark_end(l);
      unsigned gap = blanks(l);
      if (at(l) == '-') next(l);
      Word second;
      read_word(l, &second);
      Word low = second;
      lower(&low);
      if (gas && listed(&low, " mark ")) {
        if (!begun) l->mark_end(l);
        blanks(l);
        low.size = 0;
      }
      if (gas && figure(at(l))) {
        if (begun) return true;
        return valid[GAS] ? (l->result_symbol = GAS, true) : true;
      }
      if (hedge && listed(&folded, " up at ")) {
        bool whole = listed(&folded, " up ") ? listed(&low, " to ") : listed(&low, " least most ");
        if (whole) {
          if (!begun) l->mark_end(l);
          blanks(l);
          if (figure(at(l))) return begun ? true : valid[HEDGE] ? (l->result_symbol = HEDGE, true) : true;
        }
      } else if (hedge && !second.size && figure(at(l))) {
        return begun ? true : valid[HEDGE] ? (l->result_symbol = HEDGE, true) : true;
      }
      if (number && second.size) {
        bool article = listed(&folded, " half quarter couple ") && listed(&low, " a an of ");
        if (article) {
          if (!begun) l->mark_end(l);
          blanks(l);
          read_word(l, &second);
        }
        if (is_unit(&second, true)) return begun ? true : valid[WORD_NUMBER] ? (l->result_symbol = WORD_NUMBER, true) : true;
      }
      l->mark_end(l);
      begun = true;
      (void)gap;
      if (second.size) word = second;
      continue;
    }
    lexer->mark_end(lexer);
    begun = true;
  }
}

void *tree_sitter_tamis_external_scanner_create(void) { return NULL; }
void tree_sitter_tamis_external_scanner_destroy(void *payload) { (void)payload; }
unsigned tree_sitter_tamis_external_scanner_serialize(void *payload, char *buffer) { (void)payload; (void)buffer; return 0; }
void tree_sitter_tamis_external_scanner_deserialize(void *payload, const char *buffer, unsigned length) {
  (void)payload; (void)buffer; (void)length;
}

bool tree_sitter_tamis_external_scanner_scan(void *payload, TSLexer *lexer, const bool *valid) {
  (void)payload;
  bool lost = valid[RUN] && valid[AT_RECIPE];  // after an error everything is allowed
  unsigned indent = 0;
  for (; blank(at(lexer)) || (at(lexer) == 0 && !lexer->eof(lexer)); indent++) lexer->advance(lexer, true);
  if (line_over(lexer)) {
    if (valid[UNCLOSED] && !lost && !valid[BLANK]) {  // a bracket may go on in an indented line, and is closed by any other
      lexer->mark_end(lexer);
      bool cr = at(lexer) == '\r';
      if (!ended(lexer)) next(lexer);
      if (cr && at(lexer) == '\n') next(lexer);
      unsigned indented = blanks(lexer);
      if (!indented || line_over(lexer)) return lexer->result_symbol = UNCLOSED, true;
      lexer->mark_end(lexer);
      return lexer->result_symbol = SOFT, true;
    }
    return (valid[LINE] || valid[BLANK] || valid[SOFT]) && line_end(lexer, valid);
  }
  if (lost ? lexer->get_column(lexer) == indent : valid[AT_TEXT] || valid[AT_BULLET] || valid[AT_RECIPE] || valid[AT_STEP] || valid[AT_GROUP] || valid[AT_COMMENT])
    return line_start(lexer, valid, indent == 0 || lost);
  int32_t c = at(lexer);
  Word word = {{0}, 0};
  if (lost) return run(lexer, valid, word, false);
  if (valid[RESTATED] && one_of(c, "([")) {
    next(lexer);
    lexer->mark_end(lexer);
    if (only_amounts(lexer, c == '(' ? ')' : ']')) return lexer->result_symbol = RESTATED, true;
    return c == '(' && valid[RUN] ? (lexer->result_symbol = RUN, true) : false;
  }
  if (valid[SLASH] && c == '/') {
    next(lexer);
    lexer->mark_end(lexer);
    blanks(lexer);
    if (at(lexer) == '~' || at(lexer) == 0x2248) next(lexer);
    if (figure(at(lexer))) return lexer->result_symbol = SLASH, true;
    lexer->result_symbol = valid[RUN] ? RUN : ITEM_RUN;
    return at(lexer) != '/' && (valid[RUN] || valid[ITEM_RUN]);
  }
  if (valid[JOIN] && (figure(c) || one_of(c, valid[UNIT] ? "+&" : "+&pPaA"))) {
    if (join(lexer, &word)) return lexer->result_symbol = JOIN, true;
    if (figure(c) || !(valid[RUN] || valid[ITEM_RUN])) return false;
    lexer->result_symbol = valid[RUN] ? RUN : ITEM_RUN;
    return true;
  }
  if (valid[BY] && (one_of(c, "xX") || c == 0xd7 || c == 'b')) {
    read_word(lexer, &word);
    if (!word.size) next(lexer);
    lexer->mark_end(lexer);
    Word folded = word;
    lower(&folded);
    bool by = !word.size || listed(&folded, " x by ");
    if (by) {
      blanks(lexer);
      if (figure(at(lexer))) return lexer->result_symbol = BY, true;
    }
    if (valid[UNIT] && is_unit(&word, false)) return lexer->result_symbol = UNIT, true;
    return run(lexer, valid, word, false) || (lexer->result_symbol = valid[RUN] ? RUN : ITEM_RUN, true);
  }
  if (valid[UNIT] && (letter(c) || degree(c) || one_of(c, "-\"") || c == 0x2010 || c == 0x2011 || c == 0x2033 || c == 0x201d)) {
    if (unit(lexer, &word)) return lexer->result_symbol = UNIT, true;
    if (!word.size) return false;
    lexer->result_symbol = valid[RUN] ? RUN : ITEM_RUN;
    return valid[RUN] || valid[ITEM_RUN];
  }
  if (valid[RUN] || valid[ITEM_RUN]) return run(lexer, valid, word, false);
  return false;
}

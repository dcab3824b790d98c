// Characters and words as the scanner reads them.

#include "tree_sitter/parser.h"
#include "words.h"
#include <string.h>

/** A word in lower case, with what words.h knows of it. Only the start is kept of words longer than any in the table. */
typedef struct {
  char text[LONGEST_WORD + 1];
  unsigned size, kinds, capitals;
} Word;

// nodes.c, which reads a text that lies before it, has its own way from character to character.
#ifndef NODES
static inline void next(TSLexer *lexer) { lexer->advance(lexer, false); }
static inline void skip(TSLexer *lexer) { lexer->advance(lexer, true); }
static inline void end_here(TSLexer *lexer) { lexer->mark_end(lexer); }
static inline bool at_end(TSLexer *lexer) { return lexer->eof(lexer); }
#endif

static inline int32_t at(TSLexer *lexer) { return lexer->lookahead; }
static inline bool ended(TSLexer *lexer) { return at(lexer) == 0 && at_end(lexer); }
static inline bool newline(int32_t c) { return c == '\n' || c == '\r'; }
static inline bool line_over(TSLexer *lexer) { return newline(at(lexer)) || ended(lexer); }
static inline bool digit(int32_t c) { return c >= '0' && c <= '9'; }
static inline bool figure(int32_t c) { return digit(c) || (c >= 0xbc && c <= 0xbe) || (c >= 0x2150 && c <= 0x215e); }
static inline bool degree(int32_t c) { return c == 0xb0 || c == 0xba || c == 0x2da || c == 0x2103 || c == 0x2109; }
static inline bool hyphen(int32_t c) { return c == '-' || c == 0x2010 || c == 0x2011; }
static inline bool inch_mark(int32_t c) { return c == '"' || c == 0x2033 || c == 0x201d; }

static inline bool one_of(int32_t c, const char *set) {
  while (*set && *set != c) set++;
  return *set;
}

static inline bool blank(int32_t c) {
  if (c < 128) return c == ' ' || c == '\t' || c == '\f' || c == '\v';
  return c == 0xa0 || c == 0x85 || c == 0xfeff || c == 0x3000 || c == 0x202f || c == 0x205f || (c >= 0x2000 && c <= 0x200b) ||
         c == 0x2028 || c == 0x2029;
}

static inline bool letter(int32_t c) {
  if (c < 128) return (c | 32) >= 'a' && (c | 32) <= 'z';
  return (c >= 0xc0 && c < 0x2000 && c != 0xd7 && c != 0xf7) || c > 0x3040;
}

/** What may stand in a word behind its first letter, in lower case: letters, digits, apostrophes; 0 for all else. */
static const unsigned char IN_WORD[256] = {
  ['\''] = '\'', ['0'] = '0', '1', '2', '3', '4', '5', '6', '7', '8', '9',
  ['A'] = 'a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'i', 'j', 'k', 'l', 'm', 'n', 'o', 'p', 'q', 'r', 's', 't', 'u', 'v', 'w', 'x', 'y', 'z',
  ['a'] = 'a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'i', 'j', 'k', 'l', 'm', 'n', 'o', 'p', 'q', 'r', 's', 't', 'u', 'v', 'w', 'x', 'y', 'z',
};

/** The same of any character. Letters that no word of the table has, combining marks among them, are all '#'. */
static inline unsigned char in_word(int32_t c) {
  if (c >= 0 && c < 128) return IN_WORD[c];
  return letter(c) || c == 0x2019 ? '#' : 0;
}

static inline unsigned blanks(TSLexer *lexer) {
  unsigned count = 0;
  for (; blank(at(lexer)); count++) next(lexer);
  return count;
}

/** The end of a line as one: LF, CRLF or CR. */
static void past_newline(TSLexer *lexer) {
  bool cr = at(lexer) == '\r';
  next(lexer);
  if (cr && at(lexer) == '\n') next(lexer);
}

/** The same, before the start of the token. */
static void skip_newline(TSLexer *lexer) {
  bool cr = at(lexer) == '\r';
  skip(lexer);
  if (cr && at(lexer) == '\n') skip(lexer);
}

static void past_line(TSLexer *lexer) {
  while (!line_over(lexer)) next(lexer);
}

static inline bool is(const Word *word, const char *text) { return word->text[0] == text[0] && strcmp(word->text, text) == 0; }

/** Looks the word up; the hash is the one of examples/generate.rs. */
static void look_up(Word *word, unsigned hash) {
  for (unsigned slot = (hash ^ hash >> 10) % SLOTS; WORDS[slot].text; slot = (slot + 1) % SLOTS) {
    if (WORDS[slot].text[0] == word->text[0] && strcmp(WORDS[slot].text, word->text) == 0) {
      word->kinds = WORDS[slot].kinds;
      return;
    }
  }
}

/** Reads the word that starts here; its size is 0 where none does. */
static void read_word(TSLexer *lexer, Word *word) {
  unsigned hash = 0, size = 0, capitals = 0;
  if (letter(at(lexer))) {
    unsigned char small;
#ifdef NODES
    // The letters of most words are of one byte each, and are taken from where they lie.
    Reader *reader = (Reader *)lexer;
    const uint8_t *letters = reader->text + reader->at;
    uint32_t left = reader->size - reader->at, room = left < LONGEST_WORD ? left : LONGEST_WORD;
    for (; size < room && (small = IN_WORD[letters[size]]); size++) {
      capitals += letters[size] != small;
      word->text[size] = (char)small;
      hash = hash * 31 + small;
    }
    reader->at += size;
    look(reader);
#endif
    for (int32_t c = at(lexer); (small = in_word(c)); c = at(lexer), size++) {
      if (c != small && c < 128) capitals++;
      if (size < LONGEST_WORD) {
        word->text[size] = (char)small;
        hash = hash * 31 + small;
      }
      next(lexer);
    }
  }
  word->size = size, word->capitals = capitals, word->kinds = 0;
  word->text[size < LONGEST_WORD ? size : LONGEST_WORD] = 0;
  if (size && size <= LONGEST_WORD) look_up(word, hash);
}

/** Whether the word, as written, is a unit: `T` is a tablespoon, `t` a teaspoon. */
static bool is_unit(const Word *word) {
  if (word->size == 1 && word->kinds & (word->capitals ? UNIT_IN_UPPER_CASE : UNIT_IN_LOWER_CASE)) return true;
  return word->kinds & UNIT;
}

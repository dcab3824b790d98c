// Reads a text by the tables of the generated parser and notes its nodes, with no tree.
//
// A tree that can be edited, and mended where it is broken, takes four times as long to make as the nodes take to be noted, and whoever
// checks a recipe wants nothing but the nodes. So this does what a tree-sitter parser does with the same tables and the same scanner, as
// long as the text can be read in one way only. Where it cannot, it gives up, and the text is one for that parser.

#include "tree_sitter/parser.h"
#include <string.h>

// The steps from character to character, of which a text takes the most by far, stand in line in this copy of the scanner.
#define NODES

const TSLanguage *tree_sitter_tamis(void);

/** A text with a place in it, as a scanner asks for it. */
typedef struct {
  TSLexer lexer;
  const uint8_t *text;
  uint32_t size, at, width;
  /** Where the token starts and, if that has been marked, ends. */
  uint32_t start, end;
  bool marked;
} Reader;

// ------------------------------------------------------------------------------------------------------------- characters

/** Takes a character of more than one byte. The text is UTF-8, whole characters of it. */
static void look_wide(Reader *reader) {
  const uint8_t *text = reader->text + reader->at;
  unsigned width = text[0] < 0xe0 ? 2 : text[0] < 0xf0 ? 3 : 4;
  int32_t c = text[0] & (0xff >> (width + 1));
  for (unsigned i = 1; i < width; i++) c = c << 6 | (text[i] & 0x3f);
  reader->lexer.lookahead = c;
  reader->width = width;
}

static inline void look(Reader *reader) {
  if (reader->at >= reader->size) {
    reader->lexer.lookahead = 0;
    reader->width = 0;
  } else if (reader->text[reader->at] < 0x80) {
    reader->lexer.lookahead = reader->text[reader->at];
    reader->width = 1;
  } else {
    look_wide(reader);
  }
}

static inline void next(TSLexer *lexer) {
  Reader *reader = (Reader *)lexer;
  reader->at += reader->width;
  look(reader);
}

/** Goes on from a character that belongs to no token. */
static inline void skip(TSLexer *lexer) {
  Reader *reader = (Reader *)lexer;
  if (reader->width) reader->start = reader->at + reader->width;
  next(lexer);
}

static inline void end_here(TSLexer *lexer) {
  Reader *reader = (Reader *)lexer;
  reader->end = reader->at;
  reader->marked = true;
}

static inline bool at_end(const TSLexer *lexer) {
  const Reader *reader = (const Reader *)lexer;
  return reader->at >= reader->size;
}

#include "scanner.c"

// The same for the generated lexer.
static void advance(TSLexer *lexer, bool skips) { skips ? skip(lexer) : next(lexer); }
static void mark_end(TSLexer *lexer) { end_here(lexer); }
static bool eof(const TSLexer *lexer) { return at_end(lexer); }

/** Bytes from the start of the line; the scanner has no need of it. */
static uint32_t get_column(TSLexer *lexer) {
  const Reader *reader = (const Reader *)lexer;
  uint32_t start = reader->at;
  while (start > 0 && reader->text[start - 1] != '\n') start--;
  return reader->at - start;
}

static bool is_at_included_range_start(const TSLexer *lexer) { return ((const Reader *)lexer)->at == 0; }
static void say_nothing(const TSLexer *lexer, const char *format, ...) { (void)lexer, (void)format; }

/** A node, noted behind all below it. */
typedef struct {
  /** Its first byte, and that behind its last. */
  uint32_t start, end;
  /** How many are noted of it: itself and all below it. */
  uint32_t count;
  /** What it is, by the number that the grammar shows; hidden ones are noted too. */
  TSSymbol symbol;
} Noted;

/** What has been read and not yet been put together. */
typedef struct {
  uint32_t start, end;
  /** The place of the first that was noted of it. Its own is the last. */
  uint32_t first;
  TSStateId state;
  bool extra;
} Entry;

/** So many entries at once are enough for brackets within brackets, some hundred deep. */
enum { DEEPEST = 1024 };

/** What is told where nothing, or not all, could be noted. */
enum { GIVEN_UP = -1, NO_ROOM = -2 };

/** What the tables have for a state and a symbol. To look it up takes longer than all else, and most texts ask for the same few hundred. */
typedef struct {
  /** The state and the symbol as one number; 0 for none. */
  uint32_t pair;
  /** The place of the action for a token; the next state behind a phrase; 0 for nothing. */
  uint16_t found;
} Known;

/** So many of them are kept, each at the place that its number gives it. */
enum { KNOWN = 2048 };

typedef struct {
  const TSLanguage *language;
  Known *known;
  Reader reader;
  Noted *noted;
  uint32_t count, room;
  uint32_t depth;
  Entry stack[DEEPEST];
} Reading;

static void start_token(Reader *reader, uint32_t at) {
  reader->at = reader->start = at;
  reader->marked = false;
  reader->lexer.result_symbol = 0;
  look(reader);
  // A byte-order mark is no text.
  if (at == 0 && reader->lexer.lookahead == 0xfeff) skip(&reader->lexer);
}

static void finish_token(Reader *reader) {
  if (!reader->marked) reader->end = reader->at;
  if (reader->end < reader->start) reader->start = reader->end;
}

// ----------------------------------------------------------------------------------------------------------------- tables

/** What the tables have for a symbol in a state: the place of its actions, or the next state; 0 for nothing. */
static uint16_t looked_up(const TSLanguage *language, TSStateId state, TSSymbol symbol) {
  if (state < language->large_state_count) return language->parse_table[state * language->symbol_count + symbol];
  const uint16_t *data = language->small_parse_table + language->small_parse_table_map[state - language->large_state_count];
  for (unsigned groups = *data++; groups > 0; groups--) {
    uint16_t value = *data++;
    for (unsigned symbols = *data++; symbols > 0; symbols--)
      if (*data++ == symbol) return value;
  }
  return 0;
}

/** The place of the one action among those at an entry; 0 where there are several, or none. The shifts within a repetition are not taken:
 *  what they stand beside is. */
static uint16_t only_action(const TSLanguage *language, uint16_t entry) {
  const TSParseActionEntry *entries = language->parse_actions + entry;
  uint16_t found = 0;
  for (uint16_t i = 1; i <= entries->entry.count; i++) {
    const TSParseAction *action = &entries[i].action;
    if (action->type == TSParseActionTypeShift && action->shift.repetition) continue;
    if (found) return 0;
    found = entry + i;
  }
  return found;
}

/** What is known of a state and a symbol. */
static inline uint16_t found_for(Reading *reading, TSStateId state, TSSymbol symbol) {
  const TSLanguage *language = reading->language;
  uint32_t pair = (uint32_t)state << 16 | symbol;
  // The factor is one by which few pairs of the texts that people write come to the same place.
  Known *known = &reading->known[(state * 47u + symbol) % KNOWN];
  if (known->pair != pair) {
    uint16_t entry = looked_up(language, state, symbol);
    *known = (Known){pair, symbol < language->token_count ? only_action(language, entry) : entry};
  }
  return known->found;
}

/** The one action for a token in a state; none where there are several, or none. */
static const TSParseAction *action_of(Reading *reading, TSStateId state, TSSymbol symbol) {
  uint16_t place = found_for(reading, state, symbol);
  return place ? &reading->language->parse_actions[place].action : NULL;
}

/** Whether a token may stand anywhere, as a remark may. */
static bool is_extra(Reading *reading, TSStateId state, TSSymbol symbol) {
  const TSParseAction *action = action_of(reading, state, symbol);
  return action && action->type == TSParseActionTypeShift && (action->shift.extra || action->shift.state == state);
}

// ------------------------------------------------------------------------------------------------------------------ tokens

/** Reads the token at a place. False where there is none. */
static bool lex(Reading *reading, TSStateId state, uint32_t at, TSSymbol *symbol) {
  const TSLanguage *language = reading->language;
  Reader *reader = &reading->reader;
  TSLexerMode mode = language->lex_modes[state];
  if (mode.lex_state == (uint16_t)-1) return false;
  if (mode.external_lex_state) {
    const bool *valid = language->external_scanner.states + mode.external_lex_state * language->external_token_count;
    start_token(reader, at);
    if (scan(&reader->lexer, valid)) {
      finish_token(reader);
      *symbol = language->external_scanner.symbol_map[reader->lexer.result_symbol];
      // One without a letter that may stand anywhere would be read for ever.
      if (reader->end > at || !is_extra(reading, state, *symbol)) return true;
    }
  }
  start_token(reader, at);
  if (!language->lex_fn(&reader->lexer, mode.lex_state)) return false;
  finish_token(reader);
  *symbol = reader->lexer.result_symbol;
  return true;
}

// ----------------------------------------------------------------------------------------------------------------- phrases

static bool note(Reading *reading, Noted noted) {
  if (reading->count == reading->room) return false;
  noted.symbol = reading->language->public_symbol_map[noted.symbol];
  reading->noted[reading->count++] = noted;
  return true;
}

/** Puts a token on the stack. One that may stand anywhere is noted only where it shows. */
static int shift(Reading *reading, TSSymbol symbol, TSStateId state, bool extra) {
  if (reading->depth == DEEPEST) return GIVEN_UP;
  uint32_t start = reading->reader.start, end = reading->reader.end;
  reading->stack[reading->depth++] = (Entry){start, end, reading->count, state, extra};
  if (extra && !reading->language->symbol_metadata[symbol].visible) return 0;
  return note(reading, (Noted){start, end, 1, symbol}) ? 0 : NO_ROOM;
}

/** Makes one of the last entries. What may stand anywhere behind them stays outside. */
static int reduce(Reading *reading, const TSParseAction *action) {
  const TSLanguage *language = reading->language;
  Entry *stack = reading->stack;
  const TSSymbol *aliases = language->alias_sequences + action->reduce.production_id * language->max_alias_sequence_length;
  unsigned behind = reading->depth;
  while (stack[behind - 1].extra) behind--;
  unsigned first = behind;
  for (unsigned left = action->reduce.child_count; left > 0;) {
    uint32_t own = (first == reading->depth ? reading->count : stack[first].first) - 1;
    if (--first == 0) return GIVEN_UP;
    if (stack[first].extra) continue;
    left--;
    TSSymbol alias = action->reduce.production_id ? aliases[left] : 0;
    if (alias) reading->noted[own].symbol = language->public_symbol_map[alias];
  }
  if (first == behind) return GIVEN_UP;
  TSStateId state = found_for(reading, stack[first - 1].state, action->reduce.symbol);
  Entry *made = &stack[first];
  made->end = stack[behind - 1].end;
  made->state = state;
  made->extra = false;
  uint32_t place = behind == reading->depth ? reading->count : stack[behind].first;
  Noted own = {made->start, made->end, place - made->first + 1, action->reduce.symbol};
  if (!note(reading, own)) return NO_ROOM;
  if (behind < reading->depth) {
    Noted last = reading->noted[reading->count - 1];
    memmove(reading->noted + place + 1, reading->noted + place, (reading->count - 1 - place) * sizeof(Noted));
    reading->noted[place] = last;
  }
  unsigned depth = first + 1;
  for (unsigned extra = behind; extra < reading->depth; extra++, depth++) {
    stack[depth] = stack[extra];
    stack[depth].first++;
    stack[depth].state = state;
  }
  reading->depth = depth;
  return 0;
}

/** Makes the root of all that is left, with what may stand anywhere before it and behind. */
static int accept(Reading *reading) {
  unsigned root = 0;
  for (unsigned place = 1; place < reading->depth; place++) {
    if (reading->stack[place].extra) continue;
    if (root) return GIVEN_UP;
    root = place;
  }
  if (!root) return GIVEN_UP;
  Noted *own = &reading->noted[(root + 1 < reading->depth ? reading->stack[root + 1].first : reading->count) - 1];
  TSSymbol symbol = own->symbol;
  own->symbol = ts_builtin_sym_end;
  return note(reading, (Noted){reading->stack[1].start, reading->reader.end, reading->count + 1, symbol}) ? 0 : NO_ROOM;
}

/** Reads all. */
static int read_text(Reading *reading) {
  for (uint32_t at = 0;; at = reading->reader.end) {
    TSStateId state = reading->stack[reading->depth - 1].state;
    TSSymbol symbol;
    if (!lex(reading, state, at, &symbol)) return GIVEN_UP;
    const TSParseAction *action;
    while ((action = action_of(reading, state, symbol)) && action->type == TSParseActionTypeReduce) {
      int told = reduce(reading, action);
      if (told < 0) return told;
      state = reading->stack[reading->depth - 1].state;
    }
    if (!action) return GIVEN_UP;
    if (action->type == TSParseActionTypeAccept) return accept(reading);
    if (action->type != TSParseActionTypeShift) return GIVEN_UP;
    int told = shift(reading, symbol, action->shift.extra ? state : action->shift.state, action->shift.extra);
    if (told < 0) return told;
  }
}

/** Notes the nodes of a text in UTF-8, each behind all below it, where there is room for so many. Tells their number; GIVEN_UP for a text
 *  that it cannot read, NO_ROOM for one that has more nodes. What it has found in the tables it keeps in `known`: KNOWN of them, at first 0. */
int64_t tree_sitter_tamis_nodes(const uint8_t *text, uint32_t size, Noted *noted, uint32_t room, Known *known) {
  Reading reading;
  reading.known = known;
  reading.language = tree_sitter_tamis();
  reading.reader = (Reader){
    .lexer = {0, 0, advance, mark_end, get_column, is_at_included_range_start, eof, say_nothing}, .text = text, .size = size};
  reading.noted = noted;
  reading.count = 0;
  reading.room = room;
  reading.depth = 1;
  reading.stack[0] = (Entry){.state = 1};
  int told = read_text(&reading);
  return told < 0 ? told : (int64_t)reading.count;
}

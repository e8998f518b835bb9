/* tokens.h: Lua's tokens, one after another, of any text whatever: strings, long brackets
 * of every level, comments and numerals end where Lua ends them.
 *
 *     struct reader r = reader_at(text, length, 0, 1);
 *     struct token t;
 *     while (t = token_read(&r), t.kind != TOKEN_END) ...
 *
 * Flat: no recursion, no memory, one look at each byte. Blanks and comments are skipped;
 * a text that Lua could not read on from gives TOKEN_BROKEN where it goes wrong. */
#ifndef SPINNEY_LANG_TOKENS_H
#define SPINNEY_LANG_TOKENS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum token_kind {
    TOKEN_END,
    TOKEN_NAME,
    TOKEN_KEYWORD,
    TOKEN_NUMBER, /* as Lua reads one, well formed or not, with letters glued to it */
    TOKEN_STRING,
    TOKEN_SYMBOL,
    TOKEN_LITERAL, /* a measure, range or date as one operand: never from token_read */
    TOKEN_BROKEN   /* a string or long bracket without an end */
};

enum keyword {
    KEYWORD_NONE,
    KEYWORD_AND,
    KEYWORD_BREAK,
    KEYWORD_DO,
    KEYWORD_ELSE,
    KEYWORD_ELSEIF,
    KEYWORD_END,
    KEYWORD_FALSE,
    KEYWORD_FOR,
    KEYWORD_FUNCTION,
    KEYWORD_GOTO,
    KEYWORD_IF,
    KEYWORD_IN,
    KEYWORD_LOCAL,
    KEYWORD_NIL,
    KEYWORD_NOT,
    KEYWORD_OR,
    KEYWORD_REPEAT,
    KEYWORD_RETURN,
    KEYWORD_THEN,
    KEYWORD_TRUE,
    KEYWORD_UNTIL,
    KEYWORD_WHILE
};

struct token {
    uint32_t at, length, line; /* line from 1, where it starts */
    uint16_t symbol;           /* SYMBOL('=', '='), SYMBOL1('('); 0 for other kinds */
    uint8_t kind;              /* enum token_kind */
    uint8_t keyword;           /* enum keyword */
};

#define SYMBOL(a, b) ((uint16_t)((unsigned char)(a) | (unsigned char)(b) << 8))
#define SYMBOL1(a)   ((uint16_t)(unsigned char)(a))
#define SYMBOL_DOTS  ((uint16_t)0xffff) /* ... */

struct reader {
    const char *text;
    size_t length, at;
    uint32_t line;
};

/* `at` is the start of a token, of blanks or of a comment; `line` the line it is on. The
 * text is not more than 4 GB and not copied. */
struct reader reader_at(const char *text, size_t length, size_t at, uint32_t line);
struct token token_read(struct reader *r);
enum keyword keyword_read(const char *text, size_t length);

/* Letters, digits and _ of the C locale. */
bool is_name_start(char c);
bool is_name_part(char c);
bool is_digit(char c);
/* What may stand between tokens of one line. */
bool is_blank(char c);
/* The first byte at or after `at` that is no such blank. */
size_t skip_blanks(const char *text, size_t length, size_t at);
/* The end of the name, or of the letters and digits, that start at `at`. */
size_t skip_word(const char *text, size_t length, size_t at);
/* How many bytes the newline at `at` takes, 0 when there is none: \r\n and \n\r are
 * one. */
size_t newline_size(const char *text, size_t length, size_t at);

enum numeral {
    NUMERAL_NONE,  /* Lua refuses it: 3..4, 5m, 1_000, 0x */
    NUMERAL_WHOLE, /* decimal digits only */
    NUMERAL_DECIMAL,
    NUMERAL_HEX
};
enum numeral numeral_kind(const char *text, size_t length);
/* The longest start of the text that is a numeral to Lua; 0 for none. */
size_t numeral_start(const char *text, size_t length);

#endif

#include "lang/tokens.h"

#include <string.h>

bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

bool is_name_start(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}

bool is_name_part(char c)
{
    return is_name_start(c) || is_digit(c);
}

bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\v' || c == '\f';
}

static bool is_newline(char c)
{
    return c == '\n' || c == '\r';
}

static bool is_hex(char c)
{
    return is_digit(c) || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F');
}

size_t skip_blanks(const char *text, size_t length, size_t at)
{
    while (at < length && is_blank(text[at]))
        at++;
    return at;
}

size_t skip_word(const char *text, size_t length, size_t at)
{
    while (at < length && is_name_part(text[at]))
        at++;
    return at;
}

size_t newline_size(const char *text, size_t length, size_t at)
{
    if (at >= length || !is_newline(text[at]))
        return 0;
    bool pair = at + 1 < length && is_newline(text[at + 1]) && text[at + 1] != text[at];
    return pair ? 2 : 1;
}

static const struct {
    char text[9];
    uint8_t length;
} keywords[] = {
    [KEYWORD_AND] = { "and", 3 },
    [KEYWORD_BREAK] = { "break", 5 },
    [KEYWORD_DO] = { "do", 2 },
    [KEYWORD_ELSE] = { "else", 4 },
    [KEYWORD_ELSEIF] = { "elseif", 6 },
    [KEYWORD_END] = { "end", 3 },
    [KEYWORD_FALSE] = { "false", 5 },
    [KEYWORD_FOR] = { "for", 3 },
    [KEYWORD_FUNCTION] = { "function", 8 },
    [KEYWORD_GOTO] = { "goto", 4 },
    [KEYWORD_IF] = { "if", 2 },
    [KEYWORD_IN] = { "in", 2 },
    [KEYWORD_LOCAL] = { "local", 5 },
    [KEYWORD_NIL] = { "nil", 3 },
    [KEYWORD_NOT] = { "not", 3 },
    [KEYWORD_OR] = { "or", 2 },
    [KEYWORD_REPEAT] = { "repeat", 6 },
    [KEYWORD_RETURN] = { "return", 6 },
    [KEYWORD_THEN] = { "then", 4 },
    [KEYWORD_TRUE] = { "true", 4 },
    [KEYWORD_UNTIL] = { "until", 5 },
    [KEYWORD_WHILE] = { "while", 5 },
};

enum keyword keyword_read(const char *text, size_t length)
{
    /* The list is in the order of the alphabet: only those of one letter are compared. */
    static const uint8_t first_of[26] = {
        ['a' - 'a'] = KEYWORD_AND,    ['b' - 'a'] = KEYWORD_BREAK,
        ['d' - 'a'] = KEYWORD_DO,     ['e' - 'a'] = KEYWORD_ELSE,
        ['f' - 'a'] = KEYWORD_FALSE,  ['g' - 'a'] = KEYWORD_GOTO,
        ['i' - 'a'] = KEYWORD_IF,     ['l' - 'a'] = KEYWORD_LOCAL,
        ['n' - 'a'] = KEYWORD_NIL,    ['o' - 'a'] = KEYWORD_OR,
        ['r' - 'a'] = KEYWORD_REPEAT, ['t' - 'a'] = KEYWORD_THEN,
        ['u' - 'a'] = KEYWORD_UNTIL,  ['w' - 'a'] = KEYWORD_WHILE,
    };
    if (length < 2 || length > 8 || text[0] < 'a' || text[0] > 'z')
        return KEYWORD_NONE;
    size_t k = first_of[text[0] - 'a'];
    if (k == KEYWORD_NONE)
        return KEYWORD_NONE;
    for (; k <= KEYWORD_WHILE && keywords[k].text[0] == text[0]; k++)
        if (keywords[k].length == length && memcmp(keywords[k].text, text, length) == 0)
            return (enum keyword)k;
    return KEYWORD_NONE;
}

struct reader reader_at(const char *text, size_t length, size_t at, uint32_t line)
{
    return (struct reader){ .text = text, .length = length, .at = at, .line = line };
}

static char peek(const struct reader *r, size_t ahead)
{
    return r->at + ahead < r->length ? r->text[r->at + ahead] : '\0';
}

static bool at_newline(const struct reader *r)
{
    return r->at < r->length && is_newline(r->text[r->at]);
}

static void pass_newline(struct reader *r)
{
    r->at += newline_size(r->text, r->length, r->at);
    r->line++;
}

/* The level of the long bracket that opens here, -1 for none: 2 for `[==[`. */
static int long_level(const struct reader *r)
{
    size_t at = r->at + 1;
    while (at < r->length && r->text[at] == '=')
        at++;
    return at < r->length && r->text[at] == '[' ? (int)(at - r->at - 1) : -1;
}

/* Passes a long bracket whose `[==[` is at hand; false when it has no end. */
static bool pass_long(struct reader *r, size_t level)
{
    r->at += level + 2;
    while (r->at < r->length) {
        if (is_newline(r->text[r->at])) {
            pass_newline(r);
        } else if (r->text[r->at++] == ']') {
            size_t at = r->at;
            while (at < r->length && r->text[at] == '=')
                at++;
            bool closes = at - r->at == level && at < r->length && r->text[at] == ']';
            r->at = closes ? at + 1 : at;
            if (closes)
                return true;
        }
    }
    return false;
}

static void pass_line(struct reader *r)
{
    while (r->at < r->length && !is_newline(r->text[r->at]))
        r->at++;
}

/* Passes blanks, newlines and comments; false at a comment without an end. */
static bool pass_space(struct reader *r)
{
    while (r->at < r->length) {
        char c = r->text[r->at];
        if (is_newline(c)) {
            pass_newline(r);
        } else if (is_blank(c)) {
            r->at++;
        } else if (c == '-' && peek(r, 1) == '-') {
            struct reader inner = *r;
            inner.at += 2;
            int level = peek(&inner, 0) == '[' ? long_level(&inner) : -1;
            if (level < 0) {
                pass_line(r);
                continue;
            }
            bool closed = pass_long(&inner, (size_t)level);
            *r = inner;
            if (!closed)
                return false;
        } else {
            return true;
        }
    }
    return true;
}

/* Passes a quoted string; false when the line or the text ends within it. */
static bool pass_quoted(struct reader *r)
{
    char quote = r->text[r->at++];
    while (r->at < r->length && !at_newline(r)) {
        char c = r->text[r->at++];
        if (c == quote)
            return true;
        if (c != '\\' || r->at == r->length)
            continue;
        if (at_newline(r)) {
            pass_newline(r);
        } else if (r->text[r->at++] == 'z') {
            while (at_newline(r) || (r->at < r->length && is_blank(r->text[r->at]))) {
                if (at_newline(r))
                    pass_newline(r);
                else
                    r->at++;
            }
        }
    }
    return false;
}

/* As Lua reads a numeral: greedily, to be judged afterwards. Letters and points glued to
 * its end belong to it here, since Lua reads no further then. */
static void pass_number(struct reader *r)
{
    bool hex = peek(r, 0) == '0' && (peek(r, 1) == 'x' || peek(r, 1) == 'X');
    char small = hex ? 'p' : 'e', large = hex ? 'P' : 'E';
    r->at += hex ? 2 : 1;
    while (r->at < r->length) {
        char c = r->text[r->at];
        if (c == small || c == large)
            r->at += peek(r, 1) == '+' || peek(r, 1) == '-' ? 2 : 1;
        else if (is_hex(c) || c == '.')
            r->at++;
        else
            break;
    }
    r->at = skip_word(r->text, r->length, r->at);
}

static uint16_t read_symbol(struct reader *r)
{
    char a = peek(r, 0), b = peek(r, 1);
    bool twin =
        a == b && (a == '=' || a == '/' || a == ':' || a == '.' || a == '<' || a == '>');
    bool compares = b == '=' && (a == '~' || a == '<' || a == '>');
    if (a == '.' && b == '.' && peek(r, 2) == '.') {
        r->at += 3;
        return SYMBOL_DOTS;
    }
    r->at += twin || compares ? 2 : 1;
    if (twin || compares)
        return SYMBOL(a, b);
    return SYMBOL1(a);
}

struct token token_read(struct reader *r)
{
    struct token t = { .kind = TOKEN_END, .keyword = KEYWORD_NONE };
    size_t opened = r->at;
    if (!pass_space(r)) {
        t.kind = TOKEN_BROKEN;
        t.at = (uint32_t)opened;
        t.line = r->line;
        t.length = (uint32_t)(r->at - opened);
        return t;
    }
    t.at = (uint32_t)r->at;
    t.line = r->line;
    if (r->at == r->length)
        return t;
    char c = r->text[r->at];
    int level = c == '[' ? long_level(r) : -1;
    if (is_name_start(c)) {
        r->at = skip_word(r->text, r->length, r->at);
        t.keyword = (uint8_t)keyword_read(r->text + t.at, r->at - t.at);
        t.kind = t.keyword == KEYWORD_NONE ? TOKEN_NAME : TOKEN_KEYWORD;
    } else if (is_digit(c) || (c == '.' && is_digit(peek(r, 1)))) {
        t.kind = TOKEN_NUMBER;
        pass_number(r);
    } else if (c == '"' || c == '\'') {
        t.kind = pass_quoted(r) ? TOKEN_STRING : TOKEN_BROKEN;
    } else if (level >= 0) {
        t.kind = pass_long(r, (size_t)level) ? TOKEN_STRING : TOKEN_BROKEN;
    } else {
        bool half = c == '[' && peek(r, 1) == '='; /* `[=` opens nothing in Lua */
        t.kind = half ? TOKEN_BROKEN : TOKEN_SYMBOL;
        t.symbol = read_symbol(r);
    }
    t.length = (uint32_t)(r->at - t.at);
    return t;
}

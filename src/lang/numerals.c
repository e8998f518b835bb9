/* The shape of Lua's numerals: what its reader, greedy at first, accepts in the end. */
#include "lang/tokens.h"

static bool is_hex(char c)
{
    return is_digit(c) || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F');
}

static size_t skip_digits(const char *text, size_t length, size_t at, bool hex)
{
    while (at < length && (hex ? is_hex(text[at]) : is_digit(text[at])))
        at++;
    return at;
}

/* The end of the exponent at `at`, or `at` when there is none. */
static size_t skip_exponent(const char *text, size_t length, size_t at, bool hex)
{
    if (at == length || (text[at] | 0x20) != (hex ? 'p' : 'e'))
        return at;
    size_t digits = at + 1;
    if (digits < length && (text[digits] == '+' || text[digits] == '-'))
        digits++;
    size_t end = skip_digits(text, length, digits, false);
    return end > digits ? end : at;
}

static size_t measure(const char *text, size_t length, enum numeral *kind)
{
    bool hex = length > 1 && text[0] == '0' && (text[1] | 0x20) == 'x';
    size_t start = hex ? 2 : 0;
    size_t whole = skip_digits(text, length, start, hex), end = whole;
    size_t digits = whole - start;
    if (end < length && text[end] == '.') {
        size_t part = skip_digits(text, length, end + 1, hex);
        digits += part - end - 1;
        end = part;
    }
    *kind = NUMERAL_NONE;
    if (digits == 0)
        return hex ? 1 : 0; /* the 0 before an x is a numeral of its own */
    end = skip_exponent(text, length, end, hex);
    *kind = hex ? NUMERAL_HEX : end == whole ? NUMERAL_WHOLE : NUMERAL_DECIMAL;
    return end;
}

enum numeral numeral_kind(const char *text, size_t length)
{
    enum numeral kind;
    return measure(text, length, &kind) == length ? kind : NUMERAL_NONE;
}

size_t numeral_start(const char *text, size_t length)
{
    enum numeral kind;
    return measure(text, length, &kind);
}

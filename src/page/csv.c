#include "page/csv.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

#include "base/buf.h"
#include "base/num.h"
#include "base/utf8.h"

static void next_cell(struct csv *c)
{
    if (c->begun)
        buf_putc(c->out, ',');
    c->begun = true;
}

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}

/* Would a spreadsheet compute it? Blanks before the sign do not keep it from that. */
static bool is_formula(const char *text, size_t length)
{
    size_t at = 0;
    while (at < length && is_blank(text[at]))
        at++;
    return at < length && memchr("=+-@", text[at], 4);
}

static bool wants_quotes(const char *text, size_t length)
{
    return memchr(text, '"', length) || memchr(text, ',', length) ||
           is_blank(text[0]) || is_blank(text[length - 1]);
}

static void put_character(struct buf *out, const char *at, size_t step, uint32_t code)
{
    if (code == '\n' || code == '\r' || code == '\t')
        buf_putc(out, ' ');
    else if (code == UTF8_BAD || utf8_steers(code))
        buf_putc(out, '?');
    else if (code == '"')
        buf_puts(out, "\"\"");
    else
        buf_put(out, at, step);
}

void csv_text(struct csv *c, const char *text, size_t length)
{
    next_cell(c);
    if (length == 0)
        return;
    bool quoted = wants_quotes(text, length);
    if (quoted)
        buf_putc(c->out, '"');
    if (is_formula(text, length))
        buf_putc(c->out, '\'');
    for (size_t at = 0; at < length;) {
        uint32_t code;
        size_t step = utf8_next(text + at, length - at, &code);
        put_character(c->out, text + at, step, code);
        at += step;
    }
    if (quoted)
        buf_putc(c->out, '"');
}

void csv_number(struct csv *c, double value, int decimals)
{
    next_cell(c);
    if (isfinite(value))
        num_fixed(c->out, value, decimals, false);
}

void csv_empty(struct csv *c)
{
    next_cell(c);
}

void csv_end(struct csv *c)
{
    buf_puts(c->out, "\r\n");
    c->begun = false;
}

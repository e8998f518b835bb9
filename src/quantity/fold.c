#include "quantity/fold.h"

#include <string.h>

#include "base/buf.h"
#include "base/utf8.h"

enum { DEEPER = 4 };

/* Bytes of the word at the start of the text. */
static size_t word_length(const char *text)
{
    return strcspn(text, " ");
}

/* As many bytes as fit into `columns`, one character at least. */
static size_t fitting(const char *text, size_t length, size_t columns)
{
    size_t taken = 0, wide = 0;
    while (taken < length) {
        uint32_t code;
        size_t step = utf8_next(text + taken, length - taken, &code);
        size_t width = utf8_columns(text + taken, step);
        if (taken > 0 && wide + width > columns)
            break;
        wide += width;
        taken += step;
    }
    return taken;
}

static void put_word(struct buf *out, const char *text, size_t length)
{
    for (size_t i = 0; i < length; i++)
        buf_putc(out, text[i] == FOLD_BLANK ? ' ' : text[i]);
}

void fold_line(struct buf *out, const char *text, int indent, int width)
{
    size_t wide = (size_t)(width < FOLD_NARROWEST ? FOLD_NARROWEST : width);
    size_t first = (size_t)(indent < 0 ? 0 : indent);
    first = first > wide / 2 ? wide / 2 : first;
    size_t column = first;
    bool fresh = true; /* nothing on this line yet */
    buf_fill(out, ' ', first);
    while (*text) {
        size_t length = word_length(text), columns = utf8_columns(text, length);
        if (!fresh && column + 1 + columns > wide) {
            buf_putc(out, '\n');
            buf_fill(out, ' ', first + DEEPER);
            column = first + DEEPER;
            fresh = true;
        }
        if (!fresh) {
            buf_putc(out, ' ');
            column++;
        }
        size_t cut = fitting(text, length, wide - column);
        put_word(out, text, cut);
        column += utf8_columns(text, cut);
        fresh = false;
        text += cut;
        if (cut < length)
            column = wide; /* the rest of the word goes onto the next line */
        else
            text += strspn(text, " ");
    }
    buf_putc(out, '\n');
}

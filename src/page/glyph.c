#include "page/glyph.h"

#include <stdbool.h>

#include "base/buf.h"
#include "base/utf8.h"

static bool is_blank(uint32_t code)
{
    return code == ' ' || (code >= '\t' && code <= '\r') || code == 0x85 ||
           code == 0x1680 || (code >= 0x2000 && code <= 0x200A && code != 0x2007) ||
           code == 0x2028 || code == 0x2029 || code == 0x205F || code == 0x3000;
}

/* Those that steer, and those that show nothing: the soft hyphen, blanks of no width, the
 * word joiner and the invisible signs of mathematics and annotation. */
static bool is_removed(uint32_t code)
{
    return code == 0xAD || code == 0x200B || (code >= 0x2060 && code <= 0x206F) ||
           (code >= 0xFFF9 && code <= 0xFFFB) || utf8_steers(code);
}

struct glyph glyph_next(const char *text, size_t length)
{
    struct glyph g = { .kind = GLYPH_SHOWN, .columns = 1 };
    g.bytes = utf8_next(text, length, &g.code);
    if (g.code > 0x20 && g.code < 0x7F)
        return g;
    if (g.code == UTF8_BAD) {
        g.code = 0xFFFD;
    } else if (is_blank(g.code)) {
        g.kind = GLYPH_BLANK;
    } else if (g.code == 0xA0 || g.code == 0x2007 || g.code == 0x202F) {
        g.kind = GLYPH_STIFF;
    } else if (is_removed(g.code)) {
        g.kind = GLYPH_REMOVED;
        g.columns = 0;
    } else {
        g.columns = (int)utf8_width(g.code);
        g.kind = g.columns > 0 ? GLYPH_SHOWN : GLYPH_COMBINING;
    }
    return g;
}

int glyph_columns(const char *text, size_t length)
{
    int columns = 0;
    struct glyph g;
    for (size_t i = 0; i < length; i += g.bytes) {
        g = glyph_next(text + i, length - i);
        columns += g.columns;
    }
    return columns;
}

void glyph_mend(struct buf *out, const char *text, size_t length)
{
    size_t step, from = 0;
    for (size_t i = 0; i < length; i += step) {
        uint32_t code;
        step = utf8_next(text + i, length - i, &code);
        if (code != UTF8_BAD)
            continue;
        buf_put(out, text + from, i - from);
        buf_puts(out, "\xEF\xBF\xBD");
        from = i + step;
    }
    buf_put(out, text + from, length - from);
}

#include "base/utf8.h"

#include "base/buf.h"

size_t utf8_next(const char *text, size_t length, uint32_t *code)
{
    unsigned char first = (unsigned char)text[0];
    *code = first;
    if (first < 0x80)
        return 1;
    size_t size = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
    *code = UTF8_BAD;
    if (first < 0xC2 || first > 0xF4 || size > length)
        return 1;
    uint32_t value = first & (0xFFu >> (size + 1));
    for (size_t i = 1; i < size; i++) {
        unsigned char next = (unsigned char)text[i];
        if ((next & 0xC0) != 0x80)
            return 1;
        value = value << 6 | (next & 0x3Fu);
    }
    /* Longer than needed, half of a surrogate pair, or past the last character. */
    if ((size == 3 && value < 0x800) || (size == 4 && value < 0x10000) ||
        (value >= 0xD800 && value <= 0xDFFF) || value > 0x10FFFF)
        return 1;
    *code = value;
    return size;
}

bool utf8_steers(uint32_t code)
{
    return code < 0x20 || (code >= 0x7F && code < 0xA0) || code == 0x061C ||
           code == 0x200E || code == 0x200F || (code >= 0x2028 && code <= 0x202E) ||
           (code >= 0x2066 && code <= 0x2069) || code == 0xFEFF || code == UTF8_BAD;
}

struct stretch {
    uint32_t first, last;
};

static bool falls_in(const struct stretch *list, size_t count, uint32_t code)
{
    for (size_t i = 0; i < count; i++) {
        if (code >= list[i].first && code <= list[i].last)
            return true;
    }
    return false;
}

size_t utf8_width(uint32_t code)
{
    /* The blocks an author is likely to type, from the charts of Unicode 15. */
    static const struct stretch none[] = {
        { 0x0300, 0x036F }, { 0x1AB0, 0x1AFF }, { 0x1DC0, 0x1DFF }, { 0x200B, 0x200D },
        { 0x20D0, 0x20FF }, { 0xFE00, 0xFE0F }, { 0xFE20, 0xFE2F },
    };
    static const struct stretch wide[] = {
        { 0x1100, 0x115F },   { 0x2E80, 0x303E },   { 0x3041, 0xA4CF },
        { 0xAC00, 0xD7A3 },   { 0xF900, 0xFAFF },   { 0xFE30, 0xFE6F },
        { 0xFF00, 0xFF60 },   { 0xFFE0, 0xFFE6 },   { 0x1F300, 0x1F64F },
        { 0x1F680, 0x1F6FF }, { 0x1F900, 0x1F9FF }, { 0x20000, 0x3FFFD },
    };
    if (code < 0x300 || code == UTF8_BAD)
        return 1;
    if (falls_in(none, sizeof none / sizeof none[0], code))
        return 0;
    return falls_in(wide, sizeof wide / sizeof wide[0], code) ? 2 : 1;
}

size_t utf8_columns(const char *text, size_t length)
{
    size_t columns = 0;
    for (size_t at = 0; at < length;) {
        uint32_t code;
        at += utf8_next(text + at, length - at, &code);
        columns += utf8_steers(code) ? 1 : utf8_width(code);
    }
    return columns;
}

void utf8_put_plain(struct buf *out, const char *text, size_t length)
{
    for (size_t at = 0; at < length;) {
        uint32_t code;
        size_t step = utf8_next(text + at, length - at, &code);
        if (utf8_steers(code))
            buf_putc(out, '?');
        else
            buf_put(out, text + at, step);
        at += step;
    }
}

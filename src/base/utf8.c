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

/* From a place in the value of a string to the place in its text. */
#include "base/fault.h"
#include "lang/script_inner.h"

static size_t hex_end(const char *text, size_t at, size_t end)
{
    while (at < end && (is_digit(text[at]) || (text[at] >= 'a' && text[at] <= 'f') ||
                        (text[at] >= 'A' && text[at] <= 'F')))
        at++;
    return at;
}

static size_t utf8_size(const char *text, size_t at, size_t end)
{
    uint32_t code = 0;
    for (; at < end && code < 0x4000000; at++) {
        char c = text[at];
        code = code * 16 + (uint32_t)(is_digit(c) ? c - '0' : (c | 0x20) - 'a' + 10);
    }
    static const uint32_t limits[] = { 0x80, 0x800, 0x10000, 0x200000, 0x4000000 };
    size_t size = 1;
    while (size < 6 && code >= limits[size - 1])
        size++;
    return size;
}

/* One step of a string: the end of what starts at `at`, and how many bytes of the value
 * it makes. */
static size_t string_step(const char *text, size_t at, size_t end, bool escapes,
                          size_t *bytes)
{
    size_t newline = newline_size(text, end, at);
    *bytes = 1;
    if (newline > 0)
        return at + newline;
    if (!escapes || text[at] != '\\' || at + 1 >= end)
        return at + 1;
    char c = text[at + 1];
    newline = newline_size(text, end, at + 1);
    if (newline > 0)
        return at + 1 + newline;
    size_t stop = at + 2;
    if (c == 'z') {
        *bytes = 0;
        while (stop < end && (is_blank(text[stop]) || newline_size(text, end, stop) > 0))
            stop++;
    } else if (c == 'x') {
        stop = stop + 2 < end ? stop + 2 : end;
    } else if (c == 'u' && stop < end && text[stop] == '{') {
        size_t close = hex_end(text, stop + 1, end);
        *bytes = utf8_size(text, stop + 1, close);
        stop = close < end ? close + 1 : end;
    } else if (is_digit(c)) {
        while (stop < end && stop < at + 4 && is_digit(text[stop]))
            stop++;
    }
    return stop;
}

struct span script_inside_string(const struct script *s, const struct sources *all,
                                 struct span inside, size_t offset, size_t length)
{
    size_t size;
    const char *text = source_text(all, s->source, &size);
    size_t at = inside.at, end = at + inside.length, passed = 0;
    if (at == 0 || end > size)
        return SPAN_NONE;
    char before = text[at - 1];
    bool escapes = before == '"' || before == '\'';
    size_t from = end;
    while (at < end && passed < offset + length) {
        size_t bytes, next = string_step(text, at, end, escapes, &bytes);
        if (bytes > 0 && from == end && passed + bytes > offset)
            from = at;
        passed += bytes;
        at = next;
    }
    if (from == end && at < end)
        from = at; /* an empty stretch */
    return (struct span){ s->source, (uint32_t)from,
                          (uint32_t)(at > from ? at - from : 0) };
}

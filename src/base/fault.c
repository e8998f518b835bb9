#include "base/fault.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/buf.h"
#include "base/utf8.h"

void fault_clear(struct fault *f)
{
    *f = (struct fault){ .id = NULL };
}

/* Fills a fixed-size text; what does not fit is cut between two characters with "...". */
__attribute__((format(printf, 3, 0))) static void
text_set(char *text, size_t size, const char *format, va_list list)
{
    int wanted = vsnprintf(text, size, format, list);
    if (wanted < 0)
        text[0] = '\0';
    if (wanted < (int)size)
        return;
    size_t end = size - sizeof "...";
    while (end > 0 && ((unsigned char)text[end] & 0xC0) == 0x80)
        end--;
    memcpy(text + end, "...", sizeof "...");
}

bool fault_set(struct fault *f, const char *id, struct span at, const char *format, ...)
{
    if (fault_is_set(f))
        return false;
    fault_clear(f);
    f->id = id;
    f->at = at;
    va_list list;
    va_start(list, format);
    text_set(f->message, sizeof f->message, format, list);
    va_end(list);
    return false;
}

void fault_hint(struct fault *f, const char *format, ...)
{
    if (!fault_is_set(f) || f->hint[0] != '\0')
        return;
    va_list list;
    va_start(list, format);
    text_set(f->hint, sizeof f->hint, format, list);
    va_end(list);
}

void fault_place(struct fault *f, struct span at)
{
    if (fault_is_set(f) && f->at.source == 0)
        f->at = at;
}

bool fault_no_memory(struct fault *f)
{
    return fault_set(f, "memory", SPAN_NONE, "the computer has no memory left for this");
}

/* Source order; what has no place comes first. */
static int fault_compare(const struct fault *a, const struct fault *b)
{
    if (a->at.source != b->at.source)
        return a->at.source < b->at.source ? -1 : 1;
    if (a->at.at != b->at.at)
        return a->at.at < b->at.at ? -1 : 1;
    return 0;
}

static bool fault_repeats(const struct fault *a, const struct fault *b)
{
    return fault_compare(a, b) == 0 && a->at.length == b->at.length &&
           strcmp(a->id, b->id) == 0 && strcmp(a->message, b->message) == 0;
}

void faults_add(struct faults *all, const struct fault *f)
{
    if (!fault_is_set(f))
        return;
    size_t slot = all->count;
    for (size_t i = 0; i < all->count; i++) {
        if (fault_repeats(&all->list[i], f))
            return;
        if (slot == all->count && fault_compare(f, &all->list[i]) < 0)
            slot = i;
    }
    if (all->count == FAULTS_MOST) {
        all->more++;
        if (slot == FAULTS_MOST)
            return;
    } else {
        all->count++;
    }
    memmove(&all->list[slot + 1], &all->list[slot],
            (all->count - slot - 1) * sizeof all->list[0]);
    all->list[slot] = *f;
}

/* A message may have several lines; the later ones are set in like the author's line. */
static void put_lines(struct buf *out, const char *text)
{
    for (;;) {
        size_t length = strcspn(text, "\n");
        utf8_put_plain(out, text, length);
        buf_putc(out, '\n');
        if (text[length] == '\0' || text[length + 1] == '\0')
            return;
        text += length + 1;
        buf_fill(out, ' ', 4);
    }
}

void fault_show(const struct sources *all, const struct fault *f, const char *level,
                struct buf *out)
{
    struct place p = source_place(all, f->at);
    if (p.line > 0) {
        utf8_put_plain(out, p.file, strlen(p.file));
        buf_printf(out, ":%u:%u: ", p.line, p.column);
    }
    buf_printf(out, "%s: ", level);
    put_lines(out, f->message);
    source_show(all, f->at, f->other, out);
    if (f->hint[0] != '\0') {
        buf_puts(out, "    try: ");
        put_lines(out, f->hint);
    }
}

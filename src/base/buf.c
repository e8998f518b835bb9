#include "base/buf.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* What `data` points at while nothing is held: one NUL, never written to. */
static char buf_nothing[1];

void buf_init(struct buf *b)
{
    *b = (struct buf){ .data = buf_nothing };
}

void buf_clear(struct buf *b)
{
    if (b->capacity > 0)
        free(b->data);
    buf_init(b);
}

/* Makes room for `more` bytes and the closing NUL. */
static bool buf_reserve(struct buf *b, size_t more)
{
    if (b->failed)
        return false;
    if (b->capacity > b->length && more < b->capacity - b->length)
        return true;
    if (more >= SIZE_MAX / 2 - b->length) {
        b->failed = true;
        return false;
    }
    size_t wanted = b->length + more + 1;
    if (wanted <= b->capacity)
        return true;
    size_t capacity = b->capacity > 0 ? b->capacity : 64;
    while (capacity < wanted)
        capacity *= 2;
    char *data = realloc(b->capacity > 0 ? b->data : NULL, capacity);
    if (!data) {
        b->failed = true;
        return false;
    }
    data[b->length] = '\0';
    b->data = data;
    b->capacity = capacity;
    return true;
}

void buf_put(struct buf *b, const char *text, size_t length)
{
    if (length == 0 || !buf_reserve(b, length))
        return;
    memcpy(b->data + b->length, text, length);
    b->length += length;
    b->data[b->length] = '\0';
}

void buf_puts(struct buf *b, const char *text)
{
    buf_put(b, text, strlen(text));
}

void buf_putc(struct buf *b, char c)
{
    if (!buf_reserve(b, 1))
        return;
    b->data[b->length++] = c;
    b->data[b->length] = '\0';
}

void buf_fill(struct buf *b, char c, size_t count)
{
    if (count == 0 || !buf_reserve(b, count))
        return;
    memset(b->data + b->length, c, count);
    b->length += count;
    b->data[b->length] = '\0';
}

void buf_printf(struct buf *b, const char *format, ...)
{
    va_list list;
    va_start(list, format);
    int length = vsnprintf(NULL, 0, format, list);
    va_end(list);
    if (length < 0) {
        b->failed = true;
        return;
    }
    if (length == 0 || !buf_reserve(b, (size_t)length))
        return;
    va_start(list, format);
    vsnprintf(b->data + b->length, (size_t)length + 1, format, list);
    va_end(list);
    b->length += (size_t)length;
}

char *buf_take(struct buf *b)
{
    /* An empty text is still one that the caller can free. */
    char *data = buf_reserve(b, 0) ? b->data : NULL;
    if (data)
        buf_init(b);
    else
        buf_clear(b);
    return data;
}

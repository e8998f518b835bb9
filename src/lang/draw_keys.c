#include "lang/draw_keys.h"

#include <stdlib.h>

#include "base/buf.h"
#include "base/grow.h"
#include "base/source.h"
#include "quantity/graph.h"

struct line {
    uint64_t key; /* of its text; later also of how many came before it */
    uint32_t number;
};

struct draw_keys {
    struct line *lines; /* by number, from 1, once made */
    size_t count, room;
};

static int by_key(const void *a, const void *b)
{
    const struct line *x = a, *y = b;
    if (x->key != y->key)
        return x->key < y->key ? -1 : 1;
    return x->number < y->number ? -1 : x->number > y->number;
}

static int by_number(const void *a, const void *b)
{
    const struct line *x = a, *y = b;
    return x->number < y->number ? -1 : x->number > y->number;
}

/* The key of numbers after a key. */
static uint64_t more(uint64_t key, uint32_t a, uint32_t b)
{
    char name[17];
    for (int i = 0; i < 16; i++)
        name[i] = "0123456789abcdef"[key >> (60 - 4 * i) & 15];
    name[16] = '\0';
    return graph_key(name, a, b);
}

static bool read_lines(struct draw_keys *keys, const struct sources *all, uint32_t source,
                       const char *name)
{
    size_t length;
    const char *text = source_text(all, source, &length);
    struct buf words;
    buf_init(&words);
    bool ok = true;
    for (uint32_t number = 1; ok; number++) {
        struct span at = source_line(all, source, number);
        if (at.source == 0)
            break;
        struct line *lines = grow(keys->lines, &keys->room, keys->count, sizeof *lines);
        words.length = 0;
        buf_puts(&words, name);
        buf_putc(&words, '\n');
        buf_put(&words, text + at.at, at.length);
        if (lines)
            keys->lines = lines; /* the old ones may be gone already */
        ok = lines && !words.failed;
        if (!ok)
            break;
        lines[keys->count++] = (struct line){ graph_key(words.data, 0, 0), number };
    }
    buf_clear(&words);
    return ok;
}

struct draw_keys *draw_keys_new(const struct sources *all, uint32_t source,
                                const char *name)
{
    struct draw_keys *keys = calloc(1, sizeof *keys);
    if (!keys || !read_lines(keys, all, source, name)) {
        draw_keys_free(keys);
        return NULL;
    }
    if (keys->count == 0)
        return keys;
    qsort(keys->lines, keys->count, sizeof *keys->lines, by_key);
    uint64_t key = 0;
    uint32_t before = 0;
    for (size_t i = 0; i < keys->count; i++) {
        before = i > 0 && keys->lines[i].key == key ? before + 1 : 0;
        key = keys->lines[i].key;
        keys->lines[i].key = more(key, before, 0);
    }
    qsort(keys->lines, keys->count, sizeof *keys->lines, by_number);
    return keys;
}

void draw_keys_free(struct draw_keys *keys)
{
    if (!keys)
        return;
    free(keys->lines);
    free(keys);
}

uint64_t draw_keys_at(const struct draw_keys *keys, uint32_t line, uint32_t column,
                      uint32_t occurrence)
{
    bool known = line > 0 && line <= keys->count;
    return more(known ? keys->lines[line - 1].key : 0, column, occurrence);
}

#include "base/source.h"

#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "base/utf8.h"

struct source {
    char *name, *text;
    size_t length;
    uint32_t *starts; /* where each line begins */
    uint32_t lines;
};

struct sources {
    struct source *list; /* id 1 is list[0] */
    uint32_t count, capacity;
};

struct sources *sources_new(void)
{
    return calloc(1, sizeof(struct sources));
}

static void source_clear(struct source *s)
{
    free(s->name);
    free(s->text);
    free(s->starts);
}

void sources_free(struct sources *all)
{
    if (!all)
        return;
    for (uint32_t i = 0; i < all->count; i++)
        source_clear(&all->list[i]);
    free(all->list);
    free(all);
}

static char *copy(const char *text, size_t length)
{
    char *made = malloc(length + 1);
    if (made) {
        if (length > 0)
            memcpy(made, text, length);
        made[length] = '\0';
    }
    return made;
}

/* Bytes of the line end at `at`, 0 when there is none. A line ends as it does for Lua, so
 * that its line numbers are ours: "\n", "\r", "\r\n" or "\n\r". */
static size_t line_end(const char *text, size_t length, size_t at)
{
    if (at >= length || (text[at] != '\n' && text[at] != '\r'))
        return 0;
    bool pair = at + 1 < length && (text[at + 1] == '\n' || text[at + 1] == '\r') &&
                text[at + 1] != text[at];
    return pair ? 2 : 1;
}

/* Finds the lines: counts them when `starts` is NULL, else writes where they begin. */
static uint32_t find_lines(const char *text, size_t length, uint32_t *starts)
{
    /* A byte order mark is no character that an editor shows. */
    size_t at = length >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;
    uint32_t lines = 1;
    if (starts)
        starts[0] = (uint32_t)at;
    bool usual = length > 0 && !memchr(text, '\r', length);
    while (at < length) {
        if (usual) { /* no need to look at every byte */
            const char *end = memchr(text + at, '\n', length - at);
            at = end ? (size_t)(end - text) : length;
        }
        size_t step = line_end(text, length, at);
        at += step > 0 ? step : 1;
        if (step > 0) {
            if (starts)
                starts[lines] = (uint32_t)at;
            lines++;
        }
    }
    return lines;
}

uint32_t sources_add(struct sources *all, const char *name, const char *text,
                     size_t length)
{
    if (length >= UINT32_MAX - 1)
        return 0;
    if (all->count == all->capacity) {
        uint32_t capacity = all->capacity > 0 ? all->capacity * 2 : 8;
        struct source *list = realloc(all->list, capacity * sizeof *list);
        if (!list)
            return 0;
        all->list = list;
        all->capacity = capacity;
    }
    struct source s = { .length = length, .lines = find_lines(text, length, NULL) };
    s.name = copy(name, strlen(name));
    s.text = copy(text, length);
    s.starts = malloc(s.lines * sizeof *s.starts);
    if (!s.name || !s.text || !s.starts) {
        source_clear(&s);
        return 0;
    }
    find_lines(text, length, s.starts);
    all->list[all->count++] = s;
    return all->count;
}

static const struct source *source_get(const struct sources *all, uint32_t id)
{
    return id > 0 && id <= all->count ? &all->list[id - 1] : NULL;
}

uint32_t sources_find(const struct sources *all, const char *name)
{
    for (uint32_t id = all->count; id > 0; id--) {
        if (strcmp(all->list[id - 1].name, name) == 0)
            return id;
    }
    return 0;
}

const char *source_name(const struct sources *all, uint32_t id)
{
    const struct source *s = source_get(all, id);
    return s ? s->name : "";
}

const char *source_text(const struct sources *all, uint32_t id, size_t *length)
{
    const struct source *s = source_get(all, id);
    *length = s ? s->length : 0;
    return s ? s->text : "";
}

/* The line, from 0, that holds the byte `at`. */
static uint32_t line_of(const struct source *s, size_t at)
{
    uint32_t low = 0, high = s->lines;
    while (high - low > 1) {
        uint32_t middle = low + (high - low) / 2;
        if (s->starts[middle] <= at)
            low = middle;
        else
            high = middle;
    }
    return low;
}

struct place source_place(const struct sources *all, struct span at)
{
    const struct source *s = source_get(all, at.source);
    if (!s)
        return (struct place){ "", 0, 0 };
    size_t target = at.at < s->length ? at.at : s->length;
    uint32_t line = line_of(s, target), column = 1;
    for (size_t i = s->starts[line]; i < target; column++) {
        uint32_t code;
        size_t step = utf8_next(s->text + i, s->length - i, &code);
        if (i + step > target)
            break; /* `at` is inside this character */
        i += step;
    }
    return (struct place){ s->name, line + 1, column };
}

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\v' || c == '\f';
}

/* Where the line (from 0) ends, its end not counted. */
static size_t line_stop(const struct source *s, uint32_t line)
{
    size_t stop = line + 1 < s->lines ? s->starts[line + 1] : s->length;
    while (stop > s->starts[line] &&
           (s->text[stop - 1] == '\n' || s->text[stop - 1] == '\r'))
        stop--;
    return stop;
}

struct span source_full_line(const struct sources *all, uint32_t id, uint32_t line)
{
    const struct source *s = source_get(all, id);
    if (!s || line == 0 || line > s->lines)
        return (struct span){ 0, 0, 0 };
    size_t start = s->starts[line - 1], stop = line_stop(s, line - 1);
    return (struct span){ id, (uint32_t)start, (uint32_t)(stop - start) };
}

struct span source_line(const struct sources *all, uint32_t id, uint32_t line)
{
    struct span full = source_full_line(all, id, line);
    if (full.source == 0)
        return full;
    const char *text = all->list[id - 1].text;
    while (full.length > 0 && is_blank(text[full.at])) {
        full.at++;
        full.length--;
    }
    while (full.length > 0 && is_blank(text[full.at + full.length - 1]))
        full.length--;
    return full;
}

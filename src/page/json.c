#include "page/json.h"

#include <assert.h>
#include <jansson.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/grow.h"
#include "base/num.h"
#include "page/glyph.h"
#include "page/printed.h"

/* A figure whose numbers are put in when all are known; the json_t is held. */
struct waiting {
    json_t *object;
    size_t number; /* among the printed */
};

struct json {
    json_t *open[JSON_DEPTH_MOST];
    size_t depth;
    struct printed printed;
    struct waiting *waiting;
    size_t count, capacity;
    bool failed;
};

struct json *json_new(struct graph *g)
{
    struct json *j = calloc(1, sizeof *j);
    if (j == NULL)
        return NULL;
    printed_init(&j->printed, g);
    j->open[0] = json_object();
    j->depth = 1;
    j->failed = j->open[0] == NULL;
    return j;
}

void json_free(struct json *j)
{
    if (j == NULL)
        return;
    for (size_t i = 0; i < j->count; i++)
        json_decref(j->waiting[i].object);
    free(j->waiting);
    json_decref(j->open[0]);
    printed_clear(&j->printed);
    free(j);
}

/* Adds a value to the innermost open one, which then owns it. */
static void add(struct json *j, const char *key, json_t *take)
{
    json_t *inside = j->open[j->depth - 1];
    bool added = false;
    if (j->failed || take == NULL) {
        json_decref(take);
    } else if (json_is_array(inside)) {
        assert(key == NULL);
        added = json_array_append_new(inside, take) == 0;
    } else {
        assert(key != NULL);
        struct buf mended;
        buf_init(&mended);
        glyph_mend(&mended, key, strlen(key));
        if (mended.failed)
            json_decref(take);
        else
            added = json_object_set_new_nocheck(inside, mended.data, take) == 0;
        buf_clear(&mended);
    }
    j->failed = !added;
}

static void open_with(struct json *j, const char *key, json_t *take)
{
    assert(j->depth < JSON_DEPTH_MOST);
    add(j, key, take);
    j->open[j->depth++] = take; /* when that failed it is never looked at */
}

void json_object_open(struct json *j, const char *key)
{
    open_with(j, key, json_object());
}

void json_list_open(struct json *j, const char *key)
{
    open_with(j, key, json_array());
}

void json_close(struct json *j)
{
    assert(j->depth > 1);
    j->depth--;
}

void json_text_bytes(struct json *j, const char *key, const char *text, size_t length)
{
    struct buf mended;
    buf_init(&mended);
    glyph_mend(&mended, text, length);
    add(j, key, mended.failed ? NULL : json_stringn_nocheck(mended.data, mended.length));
    buf_clear(&mended);
}

void json_text(struct json *j, const char *key, const char *text)
{
    if (text == NULL)
        json_nothing(j, key);
    else
        json_text_bytes(j, key, text, strlen(text));
}

/* The number that num_data writes: rounded to its digits first, so that noise in the last
 * bits does not show; a whole one as an integer, or jansson would add ".0". */
static json_t *number(double value)
{
    struct buf text;
    buf_init(&text);
    num_data(&text, value);
    const char *digits = text.data;
    bool minus = *digits == '-';
    double rounded;
    json_t *made = NULL;
    size_t length = text.length - minus;
    if (text.failed)
        made = NULL;
    else if (num_read(digits + minus, length, &rounded) != length)
        made = json_null();
    else if (length <= 15 && strspn(digits + minus, "0123456789") == length)
        made = json_integer((json_int_t)(minus ? -rounded : rounded));
    else
        made = json_real(minus ? -rounded : rounded);
    buf_clear(&text);
    return made;
}

void json_number(struct json *j, const char *key, double value)
{
    add(j, key, number(value));
}

void json_truth(struct json *j, const char *key, bool value)
{
    add(j, key, json_boolean(value));
}

void json_nothing(struct json *j, const char *key)
{
    add(j, key, json_null());
}

void json_day(struct json *j, const char *key, struct date when)
{
    struct buf text;
    buf_init(&text);
    date_print(when, DATE_DATA, &text);
    add(j, key, text.failed ? NULL : json_stringn_nocheck(text.data, text.length));
    buf_clear(&text);
}

void json_figure(struct json *j, const char *key, struct qty q)
{
    if (!qty_is(q)) {
        json_nothing(j, key);
        return;
    }
    struct waiting *all = grow(j->waiting, &j->capacity, j->count, sizeof *all);
    if (all == NULL) {
        j->failed = true;
        return;
    }
    j->waiting = all;
    size_t which = printed_add(&j->printed, q, true);
    json_t *object = json_object();
    add(j, key, json_incref(object));
    if (object == NULL || which == PRINTED_NONE) {
        json_decref(object);
        j->failed = true;
        return;
    }
    all[j->count++] = (struct waiting){ object, which };
}

static bool fill(struct json *j, const struct waiting *w)
{
    const struct graph *g = j->printed.graph;
    const struct spread *s = &j->printed.spreads[w->number];
    struct unit_id unit = graph_unit(g, j->printed.list[w->number]);
    double factor = unit_factor(graph_units(g), unit);
    const char *name = unit_name(graph_units(g), unit, false);
    bool done = json_object_set_new(w->object, "value", number(s->value / factor)) == 0 &&
                json_object_set_new(w->object, "low", number(s->low / factor)) == 0 &&
                json_object_set_new(w->object, "high", number(s->high / factor)) == 0 &&
                json_object_set_new(w->object, "unit", json_string(name)) == 0;
    if (done && s->skewed)
        done = json_object_set_new(w->object, "median", number(s->median / factor)) == 0;
    return done;
}

/* The control character of one or two bytes at the start of a text, of those that jansson
 * writes as they are though a terminal obeys them; 0 for none. */
static unsigned control(const char *text, size_t length, size_t *size)
{
    const unsigned char *at = (const unsigned char *)text;
    *size = at[0] == 0x7F ? 1 : 2;
    if (at[0] == 0x7F)
        return at[0];
    return length > 1 && at[0] == 0xC2 && at[1] < 0xA0 ? at[1] : 0;
}

static int append(const char *text, size_t length, void *out)
{
    struct buf *b = out;
    size_t from = 0, size;
    for (size_t i = 0; i < length; i++) {
        unsigned c = control(text + i, length - i, &size);
        if (c == 0)
            continue;
        buf_put(b, text + from, i - from);
        buf_printf(b, "\\u%04X", c);
        from = i + size;
        i = from - 1;
    }
    buf_put(b, text + from, length - from);
    return b->failed ? -1 : 0;
}

bool json_write(struct json *j, struct buf *out, struct fault *f)
{
    assert(j->depth == 1);
    if (j->failed)
        return fault_no_memory(f);
    if (!printed_settle(&j->printed, f))
        return false;
    for (size_t i = 0; i < j->count; i++) {
        if (!fill(j, &j->waiting[i]))
            return fault_no_memory(f);
    }
    /* 15 digits show every number as num_data wrote it, which takes at most 13. */
    size_t flags = JSON_INDENT(2) | JSON_PRESERVE_ORDER | JSON_REAL_PRECISION(15);
    if (json_dump_callback(j->open[0], append, out, flags) != 0)
        return fault_no_memory(f);
    buf_putc(out, '\n');
    return out->failed ? fault_no_memory(f) : true;
}

/* How a quantity and its dimension are put in words. */
#include <math.h>
#include <string.h>

#include "base/buf.h"
#include "base/num.h"
#include "quantity/unit_inner.h"

struct unit_id unit_printed(const struct units *u, struct unit_id id, double base)
{
    double size = fabs(base) / unit_factor(u, id);
    if (size == 0)
        return id;
    for (int i = 0; i < UNIT_NEIGHBOURS; i++) {
        if (id.i == u->neighbours[i][0].i && size > 10000)
            return u->neighbours[i][1];
        if (id.i == u->neighbours[i][1].i && size < 0.01)
            return u->neighbours[i][0];
    }
    return id;
}

void unit_print(const struct units *u, struct unit_id id, double base, struct buf *out)
{
    id = unit_printed(u, id, base);
    size_t start = out->length;
    num_trade(out, base / unit_factor(u, id));
    if (id.i == 0 || out->failed)
        return;
    bool one = strcmp(out->data + start, "1") == 0;
    const char *name = unit_name(u, id, one);
    if (strncmp(name, "1/", 2) == 0) {
        buf_puts(out, " per ");
        name += 2;
    } else {
        buf_putc(out, ' ');
    }
    buf_puts(out, name);
}

struct noun {
    const char *bare, *with_article;
};

static const struct noun nouns[DIM_FIRST_ADDED] = {
    [DIM_LENGTH] = { "length", "a length" },
    [DIM_MASS] = { "weight", "a weight" },
    [DIM_WORK] = { "working time", "working time" },
    [DIM_CALENDAR] = { "calendar time", "calendar time" },
    [DIM_STEMS] = { "stems", "a count of stems" },
    [DIM_TREES] = { "trees", "a count of trees" },
    [DIM_PLANTS] = { "plants", "a count of plants" },
    [DIM_MONEY] = { "money", "money" },
    [DIM_ANGLE] = { "angle", "an angle" },
    [DIM_TREE_LENGTH] = { "tree lengths", "a length in tree lengths" },
};
static const struct noun areas = { "area", "an area" };
static const struct noun volumes = { "volume", "a volume" };

/* A pack's own base is called by its unit. */
static void says_added(const struct units *u, int base, bool article, struct buf *out)
{
    const struct simple *s = u->simples;
    while (s->group != base)
        s++;
    bool money = strncmp(s->words, "money", 5) == 0;
    if (article && !money)
        buf_puts(out, "a count of ");
    buf_puts(out, s->plural);
}

static void says_base(const struct units *u, int base, int sixths, bool article,
                      struct buf *out)
{
    int power = sixths % DIM_WHOLE == 0 ? sixths / DIM_WHOLE : 0;
    if (base >= DIM_FIRST_ADDED) {
        says_added(u, base, article && power == 1, out);
    } else {
        const struct noun *n = &nouns[base];
        bool geometric = base == DIM_LENGTH && (power == 2 || power == 3);
        if (geometric)
            n = power == 2 ? &areas : &volumes;
        buf_puts(out, article ? n->with_article : n->bare);
        if (geometric)
            return;
    }
    if (power == 0)
        buf_printf(out, " to the power %d/%d", sixths, DIM_WHOLE);
    else if (power != 1)
        buf_printf(out, " to the power %d", power);
}

/* Powers of each base above and below the line, apart: ac/gal is an area per volume. */
struct sides {
    int above[DIM_BASES], below[DIM_BASES];
};

static struct sides sides_of(const struct units *u, const struct unit *unit)
{
    struct sides s = { { 0 }, { 0 } };
    for (size_t i = 0; i < unit->count; i++) {
        const struct part *part = &unit->parts[i];
        const struct simple *simple = &u->simples[part->simple];
        if (unit->land && simple->land && part->sixths < 0)
            continue; /* said at the end */
        for (int base = 0; base < u->bases; base++) {
            int sixths = simple->dim.sixths[base] * part->sixths / DIM_WHOLE;
            s.above[base] += sixths > 0 ? sixths : 0;
            s.below[base] -= sixths < 0 ? sixths : 0;
        }
    }
    return s;
}

static int said_bases(const struct units *u, const int *sixths)
{
    int count = 0;
    for (int base = 0; base < u->bases; base++)
        count += sixths[base] != 0;
    return count;
}

static void says_share(const struct units *u, const struct unit *unit, struct buf *out)
{
    bool percent = unit->count == 1
                   && strcmp(u->simples[unit->parts[0].simple].name, "percent") == 0;
    buf_puts(out, percent ? "a percentage" : "a bare number");
}

void unit_says(const struct units *u, struct unit_id id, struct buf *out)
{
    const struct unit *unit = &u->list[id.i];
    struct sides s = sides_of(u, unit);
    int above = said_bases(u, s.above), below = said_bases(u, s.below);
    if (unit->land == 1 && above == 1 && !below && s.above[DIM_LENGTH] == 2 * DIM_WHOLE) {
        buf_puts(out, "basal area per area of land");
        return;
    }
    if (above + below == 0) {
        says_share(u, unit, out);
        return;
    }
    bool article = above == 1 && below == 0 && !unit->land;
    for (int base = 0, said = 0; base < u->bases; base++) {
        if (s.above[base] == 0)
            continue;
        buf_puts(out, said++ ? " times " : "");
        says_base(u, base, s.above[base], article, out);
    }
    if (above == 0)
        buf_puts(out, "a number");
    for (int base = 0; base < u->bases; base++) {
        if (s.below[base] == 0)
            continue;
        buf_puts(out, " per ");
        says_base(u, base, s.below[base], false, out);
    }
    if (unit->land)
        buf_puts(out, " per area of land");
    if (unit->land > 1)
        buf_printf(out, " to the power %d", unit->land);
}

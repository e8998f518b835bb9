/* Compound units: one entry for each product of powers, found again by its parts. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/fault.h"
#include "quantity/unit_inner.h"

static bool power_fits(int sixths)
{
    return sixths >= -UNIT_POWER * DIM_WHOLE && sixths <= UNIT_POWER * DIM_WHOLE;
}

bool unit_part_add(struct part *parts, size_t *count, size_t most, uint16_t simple,
                   int sixths)
{
    if (sixths == 0)
        return true;
    for (size_t i = 0; i < *count; i++) {
        if (parts[i].simple != simple)
            continue;
        int sum = parts[i].sixths + sixths;
        if (!power_fits(sum))
            return false;
        parts[i].sixths = (int8_t)sum;
        if (sum == 0) {
            memmove(&parts[i], &parts[i + 1], (*count - i - 1) * sizeof *parts);
            --*count;
        }
        return true;
    }
    if (*count == most || !power_fits(sixths))
        return false;
    parts[(*count)++] = (struct part){ simple, (int8_t)sixths };
    return true;
}

/* Per land is a length, area or volume over a power of a land area. Where something else
 * stands above too and the rest would cancel (ft2 x trees/ac), it is no saying of its
 * own: that is so many trees. */
int unit_land(const struct units *u, const struct part *parts, size_t count)
{
    int land = 0, above = 0;
    bool others = false;
    for (size_t i = 0; i < count; i++) {
        const struct simple *s = &u->simples[parts[i].simple];
        if (s->land && parts[i].sixths < 0)
            land -= parts[i].sixths;
        else if (s->group == DIM_LENGTH)
            above += parts[i].sixths * s->rank;
        else
            others |= parts[i].sixths > 0;
    }
    if (land == 0 || land % DIM_WHOLE != 0 || above <= 0 || (others && above == 2 * land))
        return 0;
    return land / DIM_WHOLE;
}

/* What stands above first, then in the order of the table. */
static void sort_parts(struct part *parts, size_t count)
{
    for (size_t i = 1; i < count; i++)
        for (size_t j = i; j > 0; j--) {
            struct part *a = &parts[j - 1], *b = &parts[j];
            bool above_a = a->sixths > 0, above_b = b->sixths > 0;
            if (above_a != above_b ? above_a : a->simple < b->simple)
                break;
            struct part t = *a;
            *a = *b;
            *b = t;
        }
}

static double raise(double factor, int sixths)
{
    double product = 1;
    if (sixths % DIM_WHOLE != 0)
        return pow(factor, (double)sixths / DIM_WHOLE);
    for (int i = 0; i < sixths / DIM_WHOLE; i++)
        product *= factor;
    return product;
}

/* One rounding at most: the products above and below are whole numbers of base units. */
static double factor_of(const struct units *u, const struct part *parts, size_t count)
{
    double above = 1, below = 1;
    for (size_t i = 0; i < count; i++) {
        double factor = u->simples[parts[i].simple].factor;
        if (parts[i].sixths > 0)
            above *= raise(factor, parts[i].sixths);
        else
            below *= raise(factor, -parts[i].sixths);
    }
    return above / below;
}

/* Longest: eight factors, each a name, a power such as "^5/6" and a sign between. */
enum { NAMES_SIZE = UNIT_PARTS * (UNIT_NAME + 8) + 8 };

static size_t write_name(const struct units *u, const struct part *parts, size_t count,
                         bool one, char *out)
{
    size_t at = 0;
    if (count > 0 && parts[0].sixths < 0)
        out[at++] = '1';
    for (size_t i = 0; i < count; i++) {
        const struct simple *s = &u->simples[parts[i].simple];
        bool above = parts[i].sixths > 0;
        int sixths = above ? parts[i].sixths : -parts[i].sixths;
        const char *name = above && !one ? s->plural : s->name;
        if (!above || i > 0)
            out[at++] = above ? '*' : '/';
        size_t length = strlen(name);
        memcpy(out + at, name, length);
        at += length;
        if (sixths == DIM_WHOLE)
            continue;
        if (sixths % DIM_WHOLE == 0) {
            out[at++] = (char)('0' + sixths / DIM_WHOLE);
            continue;
        }
        int step = sixths % 3 == 0 ? 3 : sixths % 2 == 0 ? 2 : 1;
        int wrote = snprintf(out + at, 8, "^%d/%d", sixths / step, DIM_WHOLE / step);
        at += (size_t)wrote;
    }
    out[at++] = '\0';
    return at;
}

static bool kind_intern(struct units *u, struct dim dim, int8_t land, uint16_t *out,
                        struct fault *f)
{
    for (size_t i = 0; i < u->kinds_count; i++)
        if (u->kinds[i].land == land && dim_equal(u->kinds[i].dim, dim)) {
            *out = (uint16_t)i;
            return true;
        }
    if (u->kinds_count == u->kinds_capacity) {
        struct kind *moved = memory_grow(&u->memory, u->kinds, &u->kinds_capacity,
                                         u->kinds_count + 1, sizeof *u->kinds);
        if (!moved)
            return fault_no_memory(f);
        u->kinds = moved;
    }
    u->kinds[u->kinds_count] = (struct kind){ dim, land };
    *out = (uint16_t)u->kinds_count++;
    return true;
}

bool unit_too_high(struct fault *f)
{
    fault_set(f, "unit-powers", SPAN_NONE,
              "the result would have a unit with more parts or higher powers than any "
              "quantity of the trade");
    fault_hint(f, "look for a quantity that is multiplied by itself again and again");
    return false;
}

static bool dim_of_parts(const struct units *u, const struct part *parts, size_t count,
                         struct dim *out)
{
    *out = DIM_NUMBER;
    for (size_t i = 0; i < count; i++) {
        struct dim d;
        if (!dim_power(u->simples[parts[i].simple].dim, parts[i].sixths, DIM_WHOLE, &d)
            || !dim_multiply(*out, d, out))
            return false;
    }
    return true;
}

static bool unit_add(struct units *u, const struct part *parts, size_t count,
                     struct unit_id *out, struct fault *f)
{
    struct unit unit = { .count = (uint8_t)count,
                         .land = (int8_t)unit_land(u, parts, count),
                         .factor = factor_of(u, parts, count) };
    struct dim dim;
    bool counts = isfinite(unit.factor) && unit.factor > 0;
    if (!counts || !dim_of_parts(u, parts, count, &dim))
        return unit_too_high(f);
    if (u->count >= UNIT_MOST) {
        fault_set(f, "unit-full", SPAN_NONE, "too many different units in one run");
        fault_hint(f, "at most %d, products and quotients counted", UNIT_MOST);
        return false;
    }
    if (!kind_intern(u, dim, unit.land, &unit.kind, f))
        return false;
    if (u->count == u->capacity) {
        struct unit *moved = memory_grow(&u->memory, u->list, &u->capacity, u->count + 1,
                                         sizeof *u->list);
        if (!moved)
            return fault_no_memory(f);
        u->list = moved;
    }
    char names[2 * NAMES_SIZE];
    unit.plural_at = write_name(u, parts, count, true, names);
    unit.names_size = unit.plural_at
                      + write_name(u, parts, count, false, names + unit.plural_at);
    unit.names = memory_resize(&u->memory, NULL, 0, unit.names_size);
    if (!unit.names)
        return fault_no_memory(f);
    memcpy(unit.names, names, unit.names_size);
    if (count)
        memcpy(unit.parts, parts, count * sizeof *parts);
    u->list[u->count] = unit;
    *out = (struct unit_id){ (uint16_t)u->count++ };
    return true;
}

bool unit_intern(struct units *u, struct part *parts, size_t count, struct unit_id *out,
                 struct fault *f)
{
    sort_parts(parts, count);
    for (size_t i = 0; i < u->count; i++) {
        const struct unit *unit = &u->list[i];
        if (unit->count != count)
            continue;
        bool same = true;
        for (size_t j = 0; same && j < count; j++)
            same = unit->parts[j].simple == parts[j].simple
                   && unit->parts[j].sixths == parts[j].sixths;
        if (same) {
            *out = (struct unit_id){ (uint16_t)i };
            return true;
        }
    }
    return unit_add(u, parts, count, out, f);
}

struct dim unit_dim(const struct units *u, struct unit_id id)
{
    return u->kinds[u->list[id.i].kind].dim;
}

double unit_factor(const struct units *u, struct unit_id id)
{
    return u->list[id.i].factor;
}

bool unit_is_per_land(const struct units *u, struct unit_id id)
{
    return u->list[id.i].land != 0;
}

const char *unit_name(const struct units *u, struct unit_id id, bool one)
{
    const struct unit *unit = &u->list[id.i];
    return unit->names + (one ? 0 : unit->plural_at);
}

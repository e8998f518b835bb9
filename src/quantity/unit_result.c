/* The unit a result is said in. The rules, in order:
 *
 * 1. The same unit above and below cancels: trees/ac x ac is trees.
 * 2. Units of one kind are brought together, to the first of them that fits: ft x in is
 *    ft2, lb/oz a bare number. ac and ha are brought together before anything else.
 * 3. A length, area or volume over a land area is kept as said (ft2/ac, gal/ac), as long
 *    as it is at most a volume per area; ft2 x trees/ac is trees, gal/ac x ft2 is gal.
 * 4. Other lengths, areas and volumes become one plain unit: ac/ft is ft, gal/ft2 is ft.
 * 5. A percentage of something is said in that something.
 * 6. One over a unit, and whole powers, are kept as said: 1/(20 gal/ac) is ac/gal. */
#include <string.h>

#include "base/fault.h"
#include "quantity/unit_inner.h"

struct list {
    struct part parts[2 * UNIT_PARTS];
    size_t count;
};

enum which { ALL, LAND_ONLY, LAND_NOT };

static bool gather(const struct units *u, struct list *l, struct unit_id id, int sign)
{
    const struct unit *unit = &u->list[id.i];
    for (size_t i = 0; i < unit->count; i++)
        if (!unit_part_add(l->parts, &l->count, 2 * UNIT_PARTS, unit->parts[i].simple,
                           sign * unit->parts[i].sixths))
            return false;
    return true;
}

static bool belongs(const struct units *u, struct part p, int group, enum which which)
{
    const struct simple *s = &u->simples[p.simple];
    if (s->group != group)
        return false;
    return which == ALL || s->land == (which == LAND_ONLY);
}

/* The unit that `net` (in sixths of the base) is said in: one that is just that; a unit
 * of the plain base from the same side, from the other side; foot or metre; for the rest
 * the base's own first unit. */
static uint16_t choose(const struct units *u, const struct list *l, int group,
                       enum which which, int net)
{
    uint16_t same = UINT16_MAX, other = UINT16_MAX;
    bool metric = false, seen = false;
    for (size_t i = 0; i < l->count; i++) {
        struct part p = l->parts[i];
        if (!belongs(u, p, group, which))
            continue;
        const struct simple *s = &u->simples[p.simple];
        bool same_side = (p.sixths * s->rank > 0) == (net > 0);
        if (same_side && (net == s->rank * DIM_WHOLE || net == -s->rank * DIM_WHOLE))
            return p.simple;
        if (which == LAND_ONLY && same_side)
            return p.simple;
        if (s->rank == 1 && same_side && same == UINT16_MAX)
            same = p.simple;
        if (s->rank == 1 && other == UINT16_MAX)
            other = p.simple;
        if (!seen)
            metric = s->metric;
        seen = true;
    }
    if (same != UINT16_MAX)
        return same;
    if (other != UINT16_MAX)
        return other;
    if (group == DIM_LENGTH)
        return metric ? u->metre : u->foot;
    for (uint16_t i = 0; i < u->simples_count; i++)
        if (u->simples[i].group == group && u->simples[i].rank == 1)
            return i;
    return UINT16_MAX; /* not reached: every base has a unit of its own */
}

static bool bring_together(const struct units *u, struct list *l, int group,
                           enum which which)
{
    int net = 0, members = 0;
    bool broken = false; /* half an acre's power: better said as a length */
    for (size_t i = 0; i < l->count; i++) {
        if (!belongs(u, l->parts[i], group, which))
            continue;
        int rank = u->simples[l->parts[i].simple].rank;
        net += l->parts[i].sixths * rank;
        broken |= l->parts[i].sixths % DIM_WHOLE != 0 && rank != 1;
        members++;
    }
    if (members == 0 || (members == 1 && !(broken && which == ALL)))
        return true;
    uint16_t chosen = net ? choose(u, l, group, which, net) : 0;
    struct list left = { .count = 0 };
    for (size_t i = 0; i < l->count; i++)
        if (!belongs(u, l->parts[i], group, which))
            left.parts[left.count++] = l->parts[i];
    *l = left;
    if (net == 0)
        return true;
    int rank = u->simples[chosen].rank;
    return net % rank == 0
           && unit_part_add(l->parts, &l->count, 2 * UNIT_PARTS, chosen, net / rank);
}

static bool is_share(const struct units *u, struct part p)
{
    return u->simples[p.simple].group == GROUP_SHARE;
}

/* Rule 5: a percentage stays only where nothing else stands above. */
static void settle_shares(const struct units *u, struct list *l)
{
    int net = 0;
    bool above = false;
    uint16_t share = 0;
    struct list left = { .count = 0 };
    for (size_t i = 0; i < l->count; i++) {
        struct part p = l->parts[i];
        if (is_share(u, p)) {
            share = net > 0 ? share : p.simple;
            net += p.sixths;
            continue;
        }
        above |= p.sixths > 0;
        left.parts[left.count++] = p;
    }
    *l = left;
    if (net > 0 && !above)
        l->parts[l->count++] = (struct part){ share, DIM_WHOLE };
}

/* At most a volume for each time per land: gal x ft2/ac is no saying of anybody's. */
static bool is_said_per_land(const struct units *u, const struct list *l)
{
    int land = unit_land(u, l->parts, l->count), above = 0;
    for (size_t i = 0; i < l->count; i++) {
        const struct simple *s = &u->simples[l->parts[i].simple];
        if (s->group == DIM_LENGTH && !s->land)
            above += l->parts[i].sixths * s->rank;
    }
    return land > 0 && above <= 3 * land * DIM_WHOLE;
}

static bool settle(struct units *u, struct list *l, struct unit_id *out, struct fault *f)
{
    settle_shares(u, l);
    bool good = bring_together(u, l, DIM_LENGTH, LAND_ONLY);
    enum which which = is_said_per_land(u, l) ? LAND_NOT : ALL;
    good = good && bring_together(u, l, DIM_LENGTH, which);
    for (int base = 0; good && base < u->bases; base++)
        if (base != DIM_LENGTH)
            good = bring_together(u, l, base, ALL);
    if (!good || l->count > UNIT_PARTS)
        return unit_too_high(f);
    return unit_intern(u, l->parts, l->count, out, f);
}

bool unit_product(struct units *u, struct unit_id a, struct unit_id b, int sign,
                  struct unit_id *out, struct fault *f)
{
    if (b.i == 0) {
        *out = a;
        return true;
    }
    if (a.i == 0 && sign > 0) {
        *out = b;
        return true;
    }
    struct unit_memo *memo = &u->memo[(a.i * 37u + b.i * 2u + (sign > 0)) % UNIT_MEMO];
    if (memo->a == a.i && memo->b == b.i && memo->sign == sign) {
        *out = (struct unit_id){ memo->out };
        return true;
    }
    struct list l = { .count = 0 };
    if (!gather(u, &l, a, 1) || !gather(u, &l, b, sign))
        return unit_too_high(f);
    /* Rule 6; but one over a percentage is a number. */
    bool inverse = a.i == 0 && !is_share(u, l.parts[0]);
    if (inverse ? !unit_intern(u, l.parts, l.count, out, f) : !settle(u, &l, out, f))
        return false;
    *memo = (struct unit_memo){ a.i, b.i, out->i, (int8_t)sign };
    return true;
}

bool unit_raise(struct units *u, struct unit_id a, int numerator, int denominator,
                struct unit_id *out, struct fault *f)
{
    const struct unit *unit = &u->list[a.i];
    struct list l = { .count = 0 };
    bool whole = true;
    for (size_t i = 0; i < unit->count; i++) {
        int raised = unit->parts[i].sixths * numerator;
        if (denominator == 0 || raised % denominator != 0
            || !unit_part_add(l.parts, &l.count, UNIT_PARTS, unit->parts[i].simple,
                              raised / denominator))
            return unit_too_high(f);
        whole = whole && raised / denominator % DIM_WHOLE == 0;
    }
    bool share = unit->count > 0 && is_share(u, unit->parts[0]);
    if (whole && !share)
        return unit_intern(u, l.parts, l.count, out, f);
    return settle(u, &l, out, f);
}

static struct unit_id either(bool good, struct unit_id id)
{
    return good ? id : UNIT_NONE;
}

struct unit_id unit_multiply(struct units *u, struct unit_id a, struct unit_id b)
{
    struct unit_id out = UNIT_NONE;
    struct fault ignored;
    fault_clear(&ignored);
    return either(unit_product(u, a, b, 1, &out, &ignored), out);
}

struct unit_id unit_divide(struct units *u, struct unit_id a, struct unit_id b)
{
    struct unit_id out = UNIT_NONE;
    struct fault ignored;
    fault_clear(&ignored);
    return either(unit_product(u, a, b, -1, &out, &ignored), out);
}

struct unit_id unit_power(struct units *u, struct unit_id a, int numerator,
                          int denominator)
{
    struct unit_id out = UNIT_NONE;
    struct fault ignored;
    fault_clear(&ignored);
    return either(unit_raise(u, a, numerator, denominator, &out, &ignored), out);
}

/* The usual simple unit of a base, and the area and volume of the trade. */
static uint16_t usual_simple(const struct units *u, int base, int sixths)
{
    static const struct {
        int base, rank;
        const char *name;
    } usual[] = {
        { DIM_LENGTH, 1, "ft" }, { DIM_LENGTH, 2, "ac" }, { DIM_LENGTH, 3, "gal" },
        { DIM_MASS, 1, "lb" },   { DIM_WORK, 1, "h" },    { DIM_CALENDAR, 1, "d" },
    };
    int power = sixths < 0 ? -sixths : sixths;
    const char *name = NULL;
    for (size_t i = 0; i < sizeof usual / sizeof *usual; i++)
        if (usual[i].base == base && (usual[i].rank == 1
                                      || usual[i].rank * DIM_WHOLE == power))
            name = usual[i].name;
    if (name)
        return u->list[unit_name_find(u, name, strlen(name))->unit].parts[0].simple;
    for (uint16_t i = 0; i < u->simples_count; i++)
        if (u->simples[i].group == base && u->simples[i].rank == 1)
            return i;
    return UINT16_MAX; /* not reached: every base in use has a unit */
}

struct unit_id unit_usual(struct units *u, struct dim d)
{
    struct part parts[UNIT_PARTS];
    size_t count = 0;
    struct unit_id out = UNIT_NONE;
    struct fault ignored;
    fault_clear(&ignored);
    for (int base = 0; base < u->bases; base++) {
        if (d.sixths[base] == 0)
            continue;
        uint16_t simple = usual_simple(u, base, d.sixths[base]);
        if (!unit_part_add(parts, &count, UNIT_PARTS, simple,
                           d.sixths[base] / u->simples[simple].rank))
            return UNIT_NONE;
    }
    return either(unit_intern(u, parts, count, &out, &ignored), out);
}

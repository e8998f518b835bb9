/* The table of units in memory, and their names. */
#include "quantity/unit.h"

#include <string.h>

#include "base/fault.h"
#include "base/suggest.h"
#include "quantity/unit_inner.h"

static uint32_t hash_name(const char *text, size_t length)
{
    uint32_t h = 2166136261u;
    for (size_t i = 0; i < length; i++)
        h = (h ^ (uint8_t)text[i]) * 16777619u;
    return h ^ (h >> 15);
}

const struct unit_name *unit_name_find(const struct units *u, const char *text,
                                       size_t length)
{
    if (u->name_hash_size == 0)
        return NULL;
    size_t at = hash_name(text, length) & (u->name_hash_size - 1);
    for (; u->name_hash[at]; at = (at + 1) & (u->name_hash_size - 1)) {
        const struct unit_name *n = &u->names[u->name_hash[at] - 1];
        if (n->length == length && memcmp(n->text, text, length) == 0)
            return n;
    }
    return NULL;
}

static void hash_put(struct units *u, size_t index)
{
    const struct unit_name *n = &u->names[index];
    size_t at = hash_name(n->text, n->length) & (u->name_hash_size - 1);
    while (u->name_hash[at])
        at = (at + 1) & (u->name_hash_size - 1);
    u->name_hash[at] = (uint16_t)(index + 1);
}

bool unit_names_room(struct units *u, size_t more, struct fault *f)
{
    if (u->names_count + more > u->names_capacity) {
        struct unit_name *moved = memory_grow(&u->memory, u->names, &u->names_capacity,
                                              u->names_count + more, sizeof *u->names);
        if (!moved)
            return fault_no_memory(f);
        u->names = moved;
    }
    size_t size = u->name_hash_size ? u->name_hash_size : 512;
    while (size < 2 * (u->names_count + more))
        size *= 2;
    if (size == u->name_hash_size)
        return true;
    uint16_t *places = memory_resize(&u->memory, NULL, 0, size * sizeof *places);
    if (!places)
        return fault_no_memory(f);
    memset(places, 0, size * sizeof *places);
    memory_resize(&u->memory, u->name_hash, u->name_hash_size * sizeof *places, 0);
    u->name_hash = places;
    u->name_hash_size = size;
    for (size_t i = 0; i < u->names_count; i++)
        hash_put(u, i);
    return true;
}

void unit_name_add(struct units *u, const char *text, struct unit_id unit, bool primary)
{
    if (unit_name_find(u, text, strlen(text)))
        return; /* a plural that is its singular */
    u->names[u->names_count] = (struct unit_name){ text, strlen(text), unit.i, primary };
    hash_put(u, u->names_count++);
}

bool unit_simple_add(struct units *u, struct simple s, struct unit_id *out,
                     struct fault *f)
{
    if (u->simples_count == u->simples_capacity) {
        struct simple *moved = memory_grow(&u->memory, u->simples, &u->simples_capacity,
                                           u->simples_count + 1, sizeof *u->simples);
        if (!moved)
            return fault_no_memory(f);
        u->simples = moved;
    }
    u->simples[u->simples_count] = s;
    struct part once = { (uint16_t)u->simples_count++, DIM_WHOLE };
    if (unit_intern(u, &once, 1, out, f))
        return true;
    u->simples_count--;
    return false;
}

static bool spec_add(struct units *u, const struct unit_spec *spec, struct fault *f)
{
    struct simple s = { .name = spec->name, .plural = spec->plural, .words = spec->words,
                        .source = spec->source, .factor = spec->factor,
                        .group = (uint8_t)spec->base, .rank = (int8_t)spec->rank,
                        .land = spec->land, .metric = spec->metric };
    if (spec->base < DIM_BASES)
        s.dim = dim_of(spec->base, spec->rank);
    struct unit_id id;
    if (!unit_names_room(u, 2 + sizeof spec->aliases / sizeof *spec->aliases, f)
        || !unit_simple_add(u, s, &id, f))
        return false;
    unit_name_add(u, spec->name, id, true);
    unit_name_add(u, spec->plural, id, true);
    for (size_t i = 0; i < sizeof spec->aliases / sizeof *spec->aliases; i++)
        if (spec->aliases[i])
            unit_name_add(u, spec->aliases[i], id, false);
    return true;
}

/* Neighbours among which a figure that would read badly is moved: see unit_print. */
static const char *const neighbour_names[UNIT_NEIGHBOURS][2] = {
    { "ft2", "ac" }, { "in", "ft" }, { "min", "h" }, { "fl oz", "gal" }, { "oz", "lb" },
};

static bool fill(struct units *u, struct fault *f)
{
    struct unit_id id;
    if (!unit_intern(u, NULL, 0, &id, f)) /* the bare number, id 0 */
        return false;
    for (size_t i = 0; unit_spec(i); i++)
        if (!spec_add(u, unit_spec(i), f))
            return false;
    for (size_t i = 0; unit_spelling(i); i++) {
        const struct unit_spelling *s = unit_spelling(i);
        if (!unit_names_room(u, 1, f)
            || !units_find(u, s->means, strlen(s->means), &id, f))
            return false;
        unit_name_add(u, s->name, id, false);
    }
    for (int i = 0; i < UNIT_NEIGHBOURS; i++)
        for (int j = 0; j < 2; j++)
            if (!units_find(u, neighbour_names[i][j], strlen(neighbour_names[i][j]),
                            &u->neighbours[i][j], f))
                return false;
    u->foot = u->list[unit_name_find(u, "ft", 2)->unit].parts[0].simple;
    u->metre = u->list[unit_name_find(u, "m", 1)->unit].parts[0].simple;
    return true;
}

struct units *units_new_on(struct memory m)
{
    struct units *u = memory_resize(&m, NULL, 0, sizeof *u);
    if (!u)
        return NULL;
    *u = (struct units){ .memory = m, .bases = DIM_FIRST_ADDED };
    struct fault f;
    fault_clear(&f);
    if (!fill(u, &f)) {
        units_free(u);
        return NULL;
    }
    return u;
}

struct units *units_new(void)
{
    return units_new_on(memory_plain());
}

void units_free(struct units *u)
{
    if (!u)
        return;
    struct memory m = u->memory;
    for (size_t i = 0; i < u->count; i++)
        memory_resize(&m, u->list[i].names, u->list[i].names_size, 0);
    for (size_t i = 0; i < u->simples_count; i++)
        memory_resize(&m, u->simples[i].owned, u->simples[i].owned_size, 0);
    memory_resize(&m, u->list, u->capacity * sizeof *u->list, 0);
    memory_resize(&m, u->simples, u->simples_capacity * sizeof *u->simples, 0);
    memory_resize(&m, u->kinds, u->kinds_capacity * sizeof *u->kinds, 0);
    memory_resize(&m, u->names, u->names_capacity * sizeof *u->names, 0);
    memory_resize(&m, u->name_hash, u->name_hash_size * sizeof *u->name_hash, 0);
    memory_resize(&m, u, sizeof *u, 0);
}

void units_offer(const struct units *u, struct suggest *s)
{
    for (size_t i = 0; i < u->names_count; i++)
        suggest_offer(s, u->names[i].text);
}

bool units_is_name(const struct units *u, const char *word, size_t length)
{
    return unit_name_find(u, word, length) != NULL;
}

bool units_row(const struct units *u, size_t index, struct unit_row *out)
{
    if (index >= u->simples_count)
        return false;
    const struct simple *s = &u->simples[index];
    *out = (struct unit_row){ .name = s->name, .plural = s->plural, .words = s->words,
                              .source = s->source, .dim = s->dim, .factor = s->factor };
    return true;
}

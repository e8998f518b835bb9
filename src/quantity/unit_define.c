/* Units that packs add. */
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/num.h"
#include "quantity/unit_inner.h"

/* Words after a number that mean something else in a script: Lua's own, and ours. */
static const char *const reserved[] = {
    "and", "around", "break", "do", "else", "elseif", "end", "false", "for", "function",
    "goto", "if", "in", "local", "nil", "not", "or", "repeat", "return", "then", "to",
    "true", "until", "while",
};

static bool name_is_good(const char *name)
{
    size_t length = strlen(name), first = unit_word_length(name, length), second = 0;
    if (first == 0 || length > UNIT_NAME)
        return false;
    if (first < length) {
        if (name[first] != ' ')
            return false;
        second = unit_word_length(name + first + 1, length - first - 1);
        if (second == 0 || first + 1 + second != length)
            return false;
    }
    for (size_t i = 0; i < sizeof reserved / sizeof *reserved; i++)
        if (first == strlen(reserved[i]) && memcmp(name, reserved[i], first) == 0)
            return false;
    return true;
}

static bool check_name(const struct units *u, const char *name, struct fault *f)
{
    if (!name_is_good(name)) {
        fault_set(f, "unit-name", SPAN_NONE, "`%.40s` cannot be the name of a unit",
                  name);
        fault_hint(f, "one or two words of letters, at most %d, the first no word of the "
                   "language", UNIT_NAME);
        return false;
    }
    const struct unit_name *n = unit_name_find(u, name, strlen(name));
    if (!n)
        return true;
    fault_set(f, "unit-taken", SPAN_NONE, "`%s` is a unit already: %s", name,
              u->simples[u->list[n->unit].parts[0].simple].words);
    fault_hint(f, "choose another name");
    return false;
}

/* The one base that a dimension is a whole power of, or GROUP_MIXED. */
static uint8_t group_of(struct dim d, int8_t *rank)
{
    uint8_t group = GROUP_MIXED;
    *rank = 0;
    for (int i = 0; i < DIM_BASES; i++) {
        if (d.sixths[i] == 0)
            continue;
        if (group != GROUP_MIXED || d.sixths[i] % DIM_WHOLE != 0) {
            *rank = 0;
            return GROUP_MIXED;
        }
        group = (uint8_t)i;
        *rank = (int8_t)(d.sixths[i] / DIM_WHOLE);
    }
    return dim_is_number(d) ? GROUP_SHARE : group;
}

/* A pack's texts live in one block: name, plural, words, source. */
static bool own_texts(struct units *u, struct simple *s, const char *name,
                      const char *plural, const char *words, const char *source,
                      struct fault *f)
{
    const char *texts[4] = { name, plural, words, source };
    const char **into[4] = { &s->name, &s->plural, &s->words, &s->source };
    for (int i = 0; i < 4; i++)
        s->owned_size += strlen(texts[i]) + 1;
    s->owned = memory_resize(&u->memory, NULL, 0, s->owned_size);
    if (!s->owned)
        return fault_no_memory(f);
    char *at = s->owned;
    for (int i = 0; i < 4; i++) {
        size_t size = strlen(texts[i]) + 1;
        *into[i] = memcpy(at, texts[i], size);
        at += size;
    }
    return true;
}

static bool is_currency(const char *name)
{
    for (int i = 0; i < 3; i++)
        if (name[i] < 'A' || name[i] > 'Z')
            return false;
    return name[3] == '\0';
}

/* The very same definition a second time is no clash: two packs may need it. */
static bool same_again(const struct units *u, const char *name, const struct simple *new)
{
    const struct unit_name *n = unit_name_find(u, name, strlen(name));
    if (!n || !n->primary)
        return false;
    const struct simple *s = &u->simples[u->list[n->unit].parts[0].simple];
    if (!s->owned || strcmp(s->name, name) != 0 || s->own_base != new->own_base)
        return false;
    return s->own_base || (dim_equal(s->dim, new->dim) && s->factor == new->factor);
}

/* The new unit is `factor` times the known one. */
static bool be_like(struct units *u, struct simple *s, const char *name, const char *like,
                    double factor, struct fault *f)
{
    struct unit_id id;
    if (!units_find(u, like, strlen(like), &id, f))
        return false;
    const struct unit *known = &u->list[id.i];
    s->dim = unit_dim(u, id);
    s->factor = factor * known->factor;
    s->group = group_of(s->dim, &s->rank);
    if (known->land) {
        /* Its dimension alone would not tell it from a bare number. */
        fault_set(f, "unit-like", SPAN_NONE, "`%s` cannot stand for so many %s", name,
                  like);
        fault_hint(f, "say it in %s itself", like);
        return false;
    }
    if (!(factor > 0) || !(s->factor > 1e-100 && s->factor < 1e100)) {
        fault_set(f, "unit-factor", SPAN_NONE, "a %s must be a number of %s above zero",
                  name, like);
        return false;
    }
    if (known->count == 1 && known->parts[0].sixths == DIM_WHOLE) {
        s->land = u->simples[known->parts[0].simple].land;
        s->metric = u->simples[known->parts[0].simple].metric;
    }
    return true;
}

static bool no_room(const char *name, struct fault *f)
{
    fault_set(f, "unit-full", SPAN_NONE, "no room for another kind of unit (`%s`)", name);
    fault_hint(f, "at most %d kinds of count or currency can be added",
               DIM_BASES - DIM_FIRST_ADDED);
    return false;
}

/* Takes on the simple unit, its names and its texts. */
static bool take_on(struct units *u, struct simple *s, const char *name,
                    const char *plural, const char *words, const char *source,
                    struct fault *f)
{
    struct unit_id id;
    if (!own_texts(u, s, name, plural, words, source ? source : "no source", f))
        return false;
    if (!unit_names_room(u, 2, f) || !unit_simple_add(u, *s, &id, f)) {
        memory_resize(&u->memory, s->owned, s->owned_size, 0);
        return false;
    }
    unit_name_add(u, s->name, id, true);
    unit_name_add(u, s->plural, id, true);
    u->bases += s->own_base;
    return true;
}

bool units_define(struct units *u, const char *name, const char *plural, const char *like,
                  double factor, const char *source, struct fault *f)
{
    struct simple s = { .factor = 1, .own_base = !like };
    struct buf words;
    if (!plural)
        plural = name;
    if (like && !be_like(u, &s, name, like, factor, f))
        return false;
    if (same_again(u, name, &s))
        return true;
    bool one_name = strcmp(plural, name) == 0;
    if (!check_name(u, name, f) || (!one_name && !check_name(u, plural, f)))
        return false;
    if (!like) {
        if (u->bases == DIM_BASES)
            return no_room(name, f);
        s.dim = dim_of(u->bases, 1);
        s.group = group_of(s.dim, &s.rank);
    }
    buf_init(&words);
    if (like) {
        num_trade(&words, factor);
        buf_printf(&words, " %s, from a pack", like);
    } else {
        buf_puts(&words, is_currency(name) ? "money" : "a count");
    }
    bool good = words.failed ? fault_no_memory(f)
                             : take_on(u, &s, name, plural, words.data, source, f);
    buf_clear(&words);
    return good;
}

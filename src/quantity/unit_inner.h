/* unit_inner.h: how the units are kept, for the files of this module and its tests.
 *
 *     struct units *u = units_new_on(memory);          // any allocator
 *     struct unit_id id;
 *     if (!unit_product(u, a, b, -1, &id, f)) ...       // unit_divide, with its fault
 *
 * A simple unit is a row of the table or a pack's. A unit (what an id names) is a product
 * of powers of simple units, its parts in canonical order, so that equal units have equal
 * ids. A kind is a dimension together with how many times the unit is per land: what may
 * be added to what. */
#ifndef SPINNEY_QUANTITY_UNIT_INNER_H
#define SPINNEY_QUANTITY_UNIT_INNER_H

#include "quantity/memory.h"
#include "quantity/unit.h"

enum {
    UNIT_PARTS = 8,       /* the most factors of a compound */
    UNIT_POWER = 6,       /* the highest whole power of one factor */
    UNIT_NAME = 24,       /* the longest name of a simple unit */
    UNIT_NEIGHBOURS = 5,
    UNIT_MOST = 4096,     /* different units in one run, compounds included */
    UNIT_MEMO = 1024,
    /* Groups beyond the bases of dimensions: percent, and units of more than one base. */
    GROUP_SHARE = DIM_BASES,
    GROUP_MIXED
};

/* A row of the built-in table: `factor` base units of `base` to the power `rank`. */
struct unit_spec {
    const char *name, *plural;
    int base, rank;
    double factor;
    const char *words, *source;
    const char *aliases[6];
    bool land, metric; /* ac, ha; ha, L, mL: lengths left over are in m, not ft */
};
const struct unit_spec *unit_spec(size_t index); /* NULL past the end */
/* Second ways of writing powers ("sq ft"); NULL past the end. */
struct unit_spelling {
    const char *name, *means;
};
const struct unit_spelling *unit_spelling(size_t index);

struct simple {
    const char *name, *plural, *words, *source;
    struct dim dim;
    double factor;
    uint8_t group; /* the one base it is a power of, or GROUP_SHARE, GROUP_MIXED */
    int8_t rank;   /* that power */
    bool land, metric;
    bool own_base; /* a pack's, with a base of its own */
    char *owned;   /* a pack's: its texts, in one block */
    size_t owned_size;
};

struct part {
    uint16_t simple;
    int8_t sixths; /* power, in sixths */
};

struct unit {
    struct part parts[UNIT_PARTS];
    uint8_t count;
    int8_t land; /* how many times per land, 0 for none */
    uint16_t kind;
    double factor;
    char *names; /* singular, NUL, plural, NUL */
    size_t names_size, plural_at;
};

struct kind {
    struct dim dim;
    int8_t land;
};

struct unit_name {
    const char *text;
    size_t length;
    uint16_t unit;
    bool primary; /* not an alias */
};

struct unit_memo {
    uint16_t a, b, out;
    int8_t sign; /* 1 product, -1 quotient, 0 empty */
};

struct units {
    struct memory memory;
    struct simple *simples;
    size_t simples_count, simples_capacity;
    struct unit *list;
    size_t count, capacity;
    struct kind *kinds;
    size_t kinds_count, kinds_capacity;
    struct unit_name *names;
    size_t names_count, names_capacity;
    uint16_t *name_hash; /* index + 1 into names; a power of two of places */
    size_t name_hash_size;
    int bases;           /* bases of dimensions in use */
    uint16_t foot, metre; /* simple units that leftovers are brought to */
    struct unit_id neighbours[UNIT_NEIGHBOURS][2]; /* small, large: see unit_print */
    struct unit_memo memo[UNIT_MEMO];
};

struct units *units_new_on(struct memory m);

/* unit.c */
const struct unit_name *unit_name_find(const struct units *u, const char *text,
                                       size_t length);
/* Room for `more` names, so that adding them cannot fail half way. */
bool unit_names_room(struct units *u, size_t more, struct fault *f);
/* A second name of the same text is left out. */
void unit_name_add(struct units *u, const char *text, struct unit_id unit, bool primary);
/* A simple unit, and the unit that is once that. */
bool unit_simple_add(struct units *u, struct simple s, struct unit_id *out,
                     struct fault *f);

/* unit_read.c: how many letters (and '_') `text` starts with. */
size_t unit_word_length(const char *text, size_t length);

/* unit_compound.c: the unit made of these parts as they are (identical ones already
 * brought together); sorts them. Faults: unit-powers, unit-full, memory. */
bool unit_intern(struct units *u, struct part *parts, size_t count, struct unit_id *out,
                 struct fault *f);
/* Adds a part to a list, into the one of the same simple unit if there is one; parts that
 * come to nothing are dropped. False when the list or the power is full. */
bool unit_part_add(struct part *parts, size_t *count, size_t most, uint16_t simple,
                   int sixths);
/* The fault of a unit with too many parts or too high powers; false. */
bool unit_too_high(struct fault *f);
/* Times per land of a list of parts, 0 for none. */
int unit_land(const struct units *u, const struct part *parts, size_t count);

/* unit_result.c: a times b (sign 1) or a over b (sign -1). */
bool unit_product(struct units *u, struct unit_id a, struct unit_id b, int sign,
                  struct unit_id *out, struct fault *f);
bool unit_raise(struct units *u, struct unit_id a, int numerator, int denominator,
                struct unit_id *out, struct fault *f);

/* unit_says.c: the unit that unit_print uses: the neighbour when `base` is too large or
 * too small for this one. */
struct unit_id unit_printed(const struct units *u, struct unit_id id, double base);

static inline uint16_t unit_kind(const struct units *u, struct unit_id id)
{
    return u->list[id.i].kind;
}

#endif

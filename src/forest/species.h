/* species.h: the trees and shrubs a plan may name: what they are called, what groups they
 * belong to and what they do when they are cut. Rows come one by one from the layers
 * (built-in, region, pack, property, plan); a later row of the same name replaces the one
 * before, and both layers are remembered.
 *
 *     struct species_table *t = species_table_new();
 *     species_add(t, &row, f);
 *     if (!species_select(t, "aspen", 5, &set, f)) ...     // a group: several species
 *     if (!species_find(t, "BTA", 3, &index, f)) ...       // one species, or a fault
 *
 * Words are compared folded: small letters, `-` `_` and blanks alike. A row is known by
 * its name, plural, scientific name, code and aliases; these words belong to
 * one species only. A group's word may be plural too ("oaks"). The words of the flags
 * below are groups as well. */
#ifndef SPINNEY_FOREST_SPECIES_H
#define SPINNEY_FOREST_SPECIES_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct fault;
struct species_table;
struct suggest;

enum { SPECIES_MOST = 256 };

enum species_flag {
    SPECIES_SUCKERS = 1, /* comes again from its roots over the whole patch */
    SPECIES_SPROUTS = 2, /* comes again from the stump */
    SPECIES_WILTS = 4,   /* takes oak wilt through fresh wounds */
    SPECIES_MAST = 8,    /* bears nuts or acorns */
    SPECIES_EVERGREEN = 16,
    SPECIES_SHRUB = 32, /* brush: counted in stems, no cords */
    SPECIES_INVASIVE = 64
};

/* Numbers of a species, by the words they have in a script. What is not known is NAN. */
enum species_trait {
    SPECIES_WOOD_GRAVITY, /* specific gravity of the wood, green volume and dry weight */
    SPECIES_CROWN_START,  /* crown width in ft of a tree of no diameter, and */
    SPECIES_CROWN_SLOPE,  /*   how much wider for each inch of diameter */
    SPECIES_INSIDE_BARK,  /* diameter inside bark, as a part of that outside */
    SPECIES_SHADE_TOLERANCE,   /* 1 (none) to 5 (much) */
    SPECIES_BROWSE_RANK,       /* 0 left alone, 1 eaten when hungry, 2 eaten, 3 sought */
    SPECIES_SPROUT_FROM,       /* stump diameter in in, and */
    SPECIES_SPROUT_SHARE_FROM, /* percent of such stumps that sprout; */
    SPECIES_SPROUT_TO,         /* a thicker one, and */
    SPECIES_SPROUT_SHARE_TO,   /* its percent; straight between, level outside */
    SPECIES_MAST_0,            /* lb of nuts a tree in a mean year: a polynomial of its */
    SPECIES_MAST_1,            /*   diameter in in, */
    SPECIES_MAST_2,
    SPECIES_MAST_3,
    SPECIES_MAST_4,
    SPECIES_MAST_FROM, /* good from this diameter in in */
    SPECIES_MAST_TO,   /* up to that one */
    SPECIES_BIOMASS_0, /* dry kg above ground = exp(0 + 1 ln D), D in cm */
    SPECIES_BIOMASS_1,
    SPECIES_TRAITS
};

/* What a layer says of a species. Text is copied. Lists end in NULL; NULL is no list. */
struct species_row {
    const char *name;   /* needed */
    const char *plural; /* NULL: the name with an s */
    const char *scientific, *code;
    const char *const *aliases;
    const char *const *groups;
    unsigned flags;
    double tons_per_cord; /* green; 0 when not known */
    const char *tons_source;
    const double *traits; /* SPECIES_TRAITS of them, or NULL */
    const char *traits_source;
    const char *source; /* of the names and flags */
    const char *layer;  /* "stdlib", "lake-states", "plan.rx:3" */
};

/* The row that holds, borrowed until species_table_free or the next species_add. */
struct species {
    const char *name, *plural, *scientific, *code; /* "" where there is none */
    unsigned flags;
    double tons_per_cord;
    double traits[SPECIES_TRAITS];
    const char *traits_source[SPECIES_TRAITS]; /* "" where the trait is not known */
    const char *tons_source, *source, *layer;
    const char *replaced_layer; /* "" when no earlier layer had it */
};

struct species_set {
    uint64_t bits[SPECIES_MOST / 64];
};

struct species_table *species_table_new(void);
void species_table_free(struct species_table *t);
/* A row of a name that is there already keeps what the new one does not say: its other
 * names, groups, flags (when it has none of its own), tons and traits.
 * Faults: species-name (none, or not made of letters), species-taken (a word that already
 * names another species), species-full, memory. */
bool species_add(struct species_table *t, const struct species_row *row, struct fault *f);
/* Says traits of a species that is there, where none is known of them yet: tables that are
 * read late do not override what a later layer said early. */
bool species_fill_traits(struct species_table *t, size_t index,
                         const double traits[SPECIES_TRAITS], const char *source,
                         struct fault *f);
/* The word of a trait in a script ("crown_slope"); NULL past the end. */
const char *species_trait_word(size_t trait);

size_t species_count(const struct species_table *t);
const struct species *species_at(const struct species_table *t, size_t index);
/* The groups of a species, then the words of its flags; NULL past the end. */
const char *species_group_at(const struct species_table *t, size_t index, size_t i);

/* One species. Faults: species-unknown (with the nearest name), species-group (the word
 * names several: they are listed). */
bool species_find(const struct species_table *t, const char *word, size_t length,
                  size_t *out, struct fault *f);
/* Species, group or flag word, or "all"; fault: species-unknown. */
bool species_select(const struct species_table *t, const char *word, size_t length,
                    struct species_set *out, struct fault *f);
/* Offers every word of the table, for suggestions elsewhere. */
void species_offer(const struct species_table *t, struct suggest *s);
/* The number (1, 2, 4, ...) of a flag's word ("suckers", "mast"), 0 when it is none. */
unsigned species_flag_find(const char *word);
/* The words in order of their numbers; NULL past the end. */
const char *species_flag_at(size_t i);

struct species_set species_set_all(void);
static inline bool species_set_has(const struct species_set *set, size_t index)
{
    return index < SPECIES_MOST && set->bits[index / 64] >> (index % 64) & 1u;
}
void species_set_put(struct species_set *set, size_t index, bool in);
/* into becomes into and/without other. */
void species_set_join(struct species_set *into, const struct species_set *other);
void species_set_without(struct species_set *into, const struct species_set *other);
bool species_set_is_empty(const struct species_set *set);
/* Is any species in both? */
bool species_set_meets(const struct species_set *a, const struct species_set *b);

#endif

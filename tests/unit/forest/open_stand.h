/* open_stand.h: mapped stands of open datasets, and sampling of them as a cruiser would.
 *
 *     struct open_stand s = open_stand_read("longleaf");
 *     struct buf notes = open_stand_cruise(&s, &how, &seed);     // "baf 10\nplot 1: ..."
 *
 * `make` writes the stands into OPEN_DATA with tests/data/export.R; nothing of them is in
 * the source tree.
 *
 * Edges without bias: the mapped ground is taken to repeat itself on all four sides (it
 * is bent to a ring both ways), and plot centres fall on it evenly, each for itself.
 * So every tree is within reach of the same area of centres, and the number of plots that
 * the ground holds is endless. */
#ifndef SPINNEY_TESTS_OPEN_STAND_H
#define SPINNEY_TESTS_OPEN_STAND_H

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/num.h"
#include "forest/cruise.h"
#include "forest/estimate.h"

#define close_to(value, expected, within) \
    assert_true(fabs((value) - (expected)) <= (within))

enum { OPEN_TREES_MOST = 3000, OPEN_NAME_MOST = 24, OPEN_PLOTS_MOST = 100 };
#define FT2_PER_AC 43560.0

struct open_tree {
    double x, y; /* feet */
    double diameter_in;
    char species[OPEN_NAME_MOST];
};
struct open_stand {
    double across, up, acres;
    size_t count;
    struct open_tree *trees;
};

/* Numbers of the tests' own, the same on every machine: splitmix64 (Steele, Lea and Flood
 * 2014, Fast splittable pseudorandom number generators). */
static inline uint64_t open_next(uint64_t *state)
{
    uint64_t z = (*state += 0x9e3779b97f4a7c15u);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return z ^ (z >> 31);
}
static inline double open_random(uint64_t *state)
{
    return (double)(open_next(state) >> 11) * 0x1p-53;
}
static inline size_t open_below(uint64_t *state, size_t n)
{
    return (size_t)(open_random(state) * (double)n);
}

/* The rows of a file, the first of them too; a file that is not there fails the test. */
static inline size_t open_rows(const char *name, struct open_tree *rows)
{
    char path[600];
    (void)snprintf(path, sizeof path, "%s/%s.csv", OPEN_DATA, name);
    FILE *in = fopen(path, "r");
    if (!in)
        fail_msg("there is no %s: run `make deps` (it wants R and its package "
                 "spatstat.data), then make again",
                 path);
    size_t count = 0;
    struct open_tree *t = rows;
    while (count < OPEN_TREES_MOST && fscanf(in, "%lf,%lf,%lf,%23[a-z]\n", &t->x, &t->y,
                                             &t->diameter_in, t->species) == 4) {
        count++;
        t++;
    }
    assert_true(feof(in) && count > 1);
    (void)fclose(in);
    return count;
}

static inline struct open_stand open_stand_read(const char *name)
{
    struct open_tree *rows = calloc(OPEN_TREES_MOST, sizeof *rows);
    assert_non_null(rows);
    struct open_stand s = { .count = open_rows(name, rows) - 1, .trees = rows };
    s.across = rows[0].x;
    s.up = rows[0].y;
    s.acres = s.across * s.up / FT2_PER_AC;
    memmove(rows, rows + 1, s.count * sizeof *rows);
    return s;
}

static inline struct species_table *open_species(void)
{
    static const char *const oak[] = { "oak", NULL };
    static const struct {
        const char *name, *code;
        bool is_oak;
    } rows[] = {
        { "longleaf pine", "longleaf", false }, { "Norway spruce", "spruce", false },
        { "other tree", "tree", false },        { "black oak", "blackoak", true },
        { "hickory", "hick", false },           { "maple", "mapl", false },
        { "other hardwood", "misc", false },    { "red oak", "redoak", true },
        { "white oak", "whiteoak", true }
    };
    struct species_table *t = species_table_new();
    struct fault f = { .id = NULL };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct species_row row = { .name = rows[i].name,
                                   .code = rows[i].code,
                                   .groups = rows[i].is_oak ? oak : NULL,
                                   .layer = "stdlib" };
        assert_true(species_add(t, &row, &f));
    }
    return t;
}

/* One of baf and acres is set. Trees thinner than `least_in` are passed over. */
struct open_cruise {
    double baf, acres, least_in;
    size_t plots;
};

/* How far apart on ground that repeats itself every `side`. */
static inline double open_apart(double a, double b, double side)
{
    double d = fabs(a - b);
    return fmin(d, side - d);
}

/* Is the tree on the plot? */
static inline bool open_is_in(const struct open_stand *s, const struct open_cruise *how,
                              const struct open_tree *t, double x, double y)
{
    double reach = how->baf > 0 ? cruise_radius_factor(how->baf) * t->diameter_in
                                : cruise_plot_radius(how->acres);
    double dx = open_apart(t->x, x, s->across), dy = open_apart(t->y, y, s->up);
    return t->diameter_in >= how->least_in && dx * dx + dy * dy <= reach * reach;
}

/* Cruise notes of plots at random places, as text; the caller clears them. */
static inline struct buf open_stand_cruise(const struct open_stand *s,
                                           const struct open_cruise *how, uint64_t *seed)
{
    struct buf b;
    buf_init(&b);
    buf_puts(&b, how->baf > 0 ? "baf " : "size ");
    num_data(&b, how->baf > 0 ? how->baf : how->acres);
    buf_puts(&b, how->baf > 0 ? "\n" : " ac\n");
    for (size_t p = 0; p < how->plots; p++) {
        double x = open_random(seed) * s->across, y = open_random(seed) * s->up;
        size_t found = 0;
        buf_printf(&b, "plot %zu:", p + 1);
        for (size_t i = 0; i < s->count; i++) {
            const struct open_tree *t = &s->trees[i];
            if (!open_is_in(s, how, t, x, y))
                continue;
            buf_printf(&b, "%s %s ", found++ > 0 ? ";" : "", t->species);
            num_data(&b, t->diameter_in);
        }
        buf_puts(&b, found > 0 ? "\n" : " none\n");
    }
    assert_false(b.failed);
    return b;
}

/* The inventory that our cruise makes of notes. */
static inline struct inventory *open_inventory(const struct species_table *t,
                                               const struct buf *notes)
{
    static struct faults all;
    struct fault f = { .id = NULL };
    struct span at = { 1, 0, 0 };
    all.count = 0;
    struct tally *tally = tally_read(notes->data, notes->length, at, t, &all);
    if (!tally)
        fail_msg("the notes were refused");
    struct inventory *inv = cruise_inventory(tally, t, "open stand", at, &f);
    assert_non_null(inv);
    tally_free(tally);
    return inv;
}

#endif

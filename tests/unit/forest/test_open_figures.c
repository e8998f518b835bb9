/* Quantities made of several figures of one cruise, drawn, against the bootstrap of the
 * same made of the same plots: sums over species and classes, differences, products of a
 * share. All lean on the plots, so what a plot found together moves together.
 *
 * A figure's 10th and 90th percentiles are t(0.90, n - 1) errors away, as few plots know
 * their own error badly; a resample of n plots varies by (n - 1) / n too little. The
 * bootstrap's percentiles are taken that much further from its middle. */
#include "../unit.h"
#include "open_cruised.h"

#include "forest/figure.h"
#include "quantity/spread.h"

enum { RESAMPLES = 20000, PARTS_MOST = 8 };

/* What is made of the parts' figures, and of the means of the same parts in a resample
 * of the plots. */
enum making { SUM, LESS_THE_REST, SHARE_TIMES_WHOLE };

struct made {
    const char *says;
    enum making how;
    enum stock_measure measure;
    struct stock_pick parts[PARTS_MOST];
    size_t count;
};

/* ---- ours ---- */

static struct qty figure_one(struct graph *g, const struct cruised *c,
                             const struct made *m, size_t i)
{
    struct fault f = { .id = NULL };
    struct qty q =
        m->how == SHARE_TIMES_WHOLE && i == 0
            ? figure_share(g, c->all, &m->parts[0], &m->parts[1], m->measure, NULL, &f)
        : m->measure == STOCK_TREES
            ? figure_trees(g, c->all, &m->parts[i], NULL, &f)
            : figure_basal_area(g, c->all, &m->parts[i], NULL, &f);
    assert_true(qty_is(q));
    return q;
}

static struct spread drawn(const struct cruised *c, const struct made *m)
{
    struct fault f = { .id = NULL };
    struct units *u = units_new();
    struct graph *g = graph_new(u);
    struct qty q = figure_one(g, c, m, 0);
    for (size_t i = 1; i < m->count; i++) {
        struct qty next = figure_one(g, c, m, i);
        q = m->how == SUM             ? graph_add(g, q, next, &f)
            : m->how == LESS_THE_REST ? graph_subtract(g, q, next, &f)
                                      : graph_multiply(g, q, next, &f);
        assert_true(qty_is(q));
    }
    struct unit_id per_acre = UNIT_NUMBER;
    const char *unit = m->measure == STOCK_TREES ? "trees/ac" : "ft2/ac";
    assert_true(units_find(u, unit, strlen(unit), &per_acre, &f));
    struct spread s = { 0 };
    assert_true(spread_of(g, &q, 1, &s, &f));
    double base = unit_factor(u, per_acre);
    s.low /= base;
    s.value /= base;
    s.high /= base;
    graph_free(g);
    units_free(u);
    return s;
}

/* ---- the bootstrap ---- */

static double combined(const struct made *m, const double *means)
{
    double value = means[0];
    /* The share of a part times the whole is the part itself. */
    for (size_t i = 1; m->how != SHARE_TIMES_WHOLE && i < m->count; i++)
        value += m->how == SUM ? means[i] : -means[i];
    return value;
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static struct spread resampled(const struct cruised *c, const struct made *m)
{
    static double totals[PARTS_MOST][OPEN_PLOTS_MOST], values[RESAMPLES];
    size_t n = c->inv->plots;
    uint64_t seed = 99;
    for (size_t i = 0; i < m->count; i++)
        plot_totals(c->inv, &m->parts[i], m->measure, totals[i]);
    for (int r = 0; r < RESAMPLES; r++) {
        double means[PARTS_MOST] = { 0 };
        for (size_t p = 0; p < n; p++) {
            size_t drawn_plot = open_below(&seed, n);
            for (size_t i = 0; i < m->count; i++)
                means[i] += totals[i][drawn_plot] / (double)n;
        }
        values[r] = combined(m, means);
    }
    qsort(values, RESAMPLES, sizeof *values, by_size);
    double middle = values[RESAMPLES / 2];
    double wider =
        sqrt((double)n / ((double)n - 1)) * sample_t(0.90, n - 1) / 1.2815515655;
    return (struct spread){ .low = middle + wider * (values[RESAMPLES / 10] - middle),
                            .value = middle,
                            .high =
                                middle + wider * (values[RESAMPLES * 9 / 10] - middle) };
}

/* Draws and resamples each know the width to about 2 percent. The bootstrap's may lean to
 * a side, where ours are as far below as above: its ends may lie further off, its width
 * may not. */
static void agree(const struct cruised *c, const struct made *m)
{
    struct spread ours = drawn(c, m), theirs = resampled(c, m);
    double width = theirs.high - theirs.low;
    print_message("  %-38s %7.2f to %7.2f %7.2f to %7.2f %+6.2f\n", m->says, ours.low,
                  ours.high, theirs.low, theirs.high,
                  100 * ((ours.high - ours.low) / width - 1));
    close_to(ours.high - ours.low, width, 0.05 * width);
    close_to(ours.low, theirs.low, 0.08 * width);
    close_to(ours.high, theirs.high, 0.08 * width);
}

static void show_head(const char *says)
{
    print_message("%s\n  %-38s %18s %18s %6s\n", says, "10th to 90th percentile of",
                  "ours", "bootstrap", "width");
}

/* A figure of several species, each a figure of its own. */
static struct made of_species(const struct cruised *c, const char *says, enum making how,
                              const char *const *words, size_t count)
{
    struct made m = { .says = says, .how = how, .measure = STOCK_TREES, .count = count };
    for (size_t i = 0; i < count; i++)
        m.parts[i] = pick_of(c, words[i], 0, HUGE_VAL);
    return m;
}

static void sums_over_species_spread_as_the_plots_do(void **state)
{
    (void)state;
    static const char *const oaks[] = { "white oak", "red oak", "black oak" };
    static const char *const whole[] = { "maple", "all" };
    for (uint64_t seed = 31; seed < 34; seed++) {
        struct cruised c = cruised_of("lansing", tenths, seed);
        const struct made asks[] = {
            of_species(&c, "all trees, species by species", SUM, lansing_species,
                       LANSING_SPECIES),
            of_species(&c, "oaks, species by species", SUM, oaks, 3),
            of_species(&c, "hickory and maple", SUM, lansing_species, 2),
            of_species(&c, "hickory less maple", LESS_THE_REST, lansing_species, 2),
            of_species(&c, "share of maple times all trees", SHARE_TIMES_WHOLE, whole, 2),
        };
        show_head("Lansing woods, 30 plots of 1/10 ac, trees an acre");
        for (size_t i = 0; i < sizeof asks / sizeof asks[0]; i++)
            agree(&c, &asks[i]);
        cruised_clear(&c);
    }
}

static void sums_over_classes_spread_as_the_plots_do(void **state)
{
    (void)state;
    static const double limits[] = { 0, 8, 12, 16, 20, HUGE_VAL };
    static const struct {
        const struct open_cruise *how;
        const char *says;
    } cruises[] = { { &tenths, "longleaf, 30 plots of 1/10 ac, ft2 an acre" },
                    { &points, "longleaf, 30 points, factor 10, ft2 an acre" } };
    for (size_t k = 0; k < 2; k++) {
        struct cruised c = cruised_of("longleaf", *cruises[k].how, 41 + k);
        struct made m = { .says = "all, class by class",
                          .how = SUM,
                          .measure = STOCK_BASAL_AREA,
                          .count = 5 };
        for (size_t i = 0; i < 5; i++)
            m.parts[i] = pick_of(&c, "all", limits[i], limits[i + 1]);
        show_head(cruises[k].says);
        agree(&c, &m);
        m.says = "under 16 in, class by class";
        m.count = 3;
        agree(&c, &m);
        cruised_clear(&c);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sums_over_species_spread_as_the_plots_do),
        cmocka_unit_test(sums_over_classes_spread_as_the_plots_do),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

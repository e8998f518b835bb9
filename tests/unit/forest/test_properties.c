/* What must hold of any stand, over thousands of them made up at random: classes add up
 * to the stand, what is taken and what is left add up to what was there, no class goes
 * below nothing, and units come back as they went. */
#include "../unit.h"
#include "woods.h"

#include "base/buf.h"
#include "forest/figure.h"
#include "quantity/unit.h"

enum { STANDS = 3000, CUTS_MOST = 4, ROWS_MOST = 2000 };

static const char *const words[] = { "BTA", "QA", "RO", "NPO", "RM", "PB" };
static const char *const choices[] = { "all", "aspen", "oak", "maple", "BTA", "PB" };

static size_t below(uint32_t *seed, size_t n)
{
    return (size_t)(woods_random(seed) * (double)n);
}

/* Cruise notes: a few plots of either kind, a few species in each, any diameters. */
static void random_notes(struct buf *b, uint32_t *seed)
{
    static const char *const methods[] = { "baf 10", "baf 20", "size 1/10 ac",
                                           "size 1/50 ac", "radius 26.3 ft" };
    size_t plots = 1 + below(seed, 8);
    for (size_t p = 0; p < plots; p++) {
        if (p == 0 || below(seed, 4) == 0)
            buf_printf(b, "%s\n", methods[below(seed, 5)]);
        buf_printf(b, "plot %zu:", p + 1);
        size_t kinds = below(seed, 5);
        for (size_t k = 0; k < kinds; k++) {
            buf_printf(b, "%s %s", k > 0 ? ";" : "", words[below(seed, 6)]);
            size_t trees = 1 + below(seed, 6);
            for (size_t i = 0; i < trees; i++)
                buf_printf(b, " %zu.%zux%zu", 1 + below(seed, 30), below(seed, 10),
                           1 + below(seed, 3));
        }
        buf_puts(b, kinds > 0 ? "\n" : " none\n");
    }
}

struct wood {
    struct species_table *species;
    struct inventory *inv;
    struct stock *all;
};

static struct wood random_wood(uint32_t *seed)
{
    struct fault f = { .id = NULL };
    struct buf b;
    struct wood w = { .species = woods_table() };
    buf_init(&b);
    random_notes(&b, seed);
    w.inv = woods_cruise(w.species, b.data);
    w.all = stock_of(w.inv, &f);
    assert_non_null(w.all);
    buf_clear(&b);
    return w;
}

static void wood_clear(struct wood *w)
{
    stock_free(w->all);
    inventory_free(w->inv);
    species_table_free(w->species);
}

/* Any species, mostly of any size. */
static struct stock_pick random_pick(const struct wood *w, uint32_t *seed)
{
    struct fault f = { .id = NULL };
    struct stock_pick p = stock_pick_all();
    const char *word = choices[below(seed, 6)];
    assert_true(species_select(w->species, word, strlen(word), &p.species, &f));
    if (below(seed, 3) == 0)
        p.from_in = 20 * woods_random(seed);
    if (below(seed, 3) == 0)
        p.below_in = p.from_in + 15 * woods_random(seed);
    return p;
}

/* ---- classes ---- */

static void classes_are(const struct stock *s, const struct stock_pick *every,
                        double width)
{
    static struct stock_row rows[ROWS_MOST];
    size_t count = stock_rows(s, width, rows, ROWS_MOST);
    double trees = 0, basal_area = 0;
    assert_true(count <= ROWS_MOST);
    for (size_t i = 0; i < count; i++) {
        assert_true(rows[i].trees >= 0 && rows[i].basal_area >= 0);
        struct stock_pick one = { { { 0 } }, rows[i].from_in, rows[i].below_in };
        if (width <= 0)
            one = stock_pick_all();
        memset(&one.species, 0, sizeof one.species);
        species_set_put(&one.species, rows[i].species, true);
        close_to(stock_trees(s, &one), rows[i].trees, 1e-9 * (1 + rows[i].trees));
        trees += rows[i].trees;
        basal_area += rows[i].basal_area;
    }
    close_to(trees, stock_trees(s, every), 1e-9 * (1 + trees));
    close_to(basal_area, stock_basal_area(s, every), 1e-9 * (1 + basal_area));
}

static void totals_by_class_sum_to_the_stand(void **state)
{
    (void)state;
    static const double widths[] = { 0, 0.5, 1, 2, 4 };
    struct stock_pick every = stock_pick_all();
    uint32_t seed = 1;
    size_t held_trees = 0;
    for (int n = 0; n < STANDS; n++) {
        struct wood w = random_wood(&seed);
        for (size_t i = 0; i < sizeof widths / sizeof widths[0]; i++)
            classes_are(w.all, &every, widths[i]);
        held_trees += stock_trees(w.all, &every) > 0;
        wood_clear(&w);
    }
    assert_true(held_trees > STANDS * 9 / 10); /* the stands are not empty */
}

/* ---- taken and left ---- */

/* Cell by cell: nothing is below nothing, nothing is lost, nothing is taken that was not
 * asked for. */
static void cells_add_up(const struct stock *before, const struct stock *taken,
                         const struct stock *left, const struct stock_pick *what)
{
    const struct inventory *inv = stock_inventory(before);
    for (size_t i = 0; i < inv->cell_count; i++) {
        double was = stock_cell_trees(before, i), away = stock_cell_trees(taken, i),
               still = stock_cell_trees(left, i);
        struct stock_cells raw = stock_cells(left);
        assert_true(away >= 0 && still >= 0);
        /* not only after the cut-off at nothing */
        double residue = raw.share[i] * inv->cells[i].trees + raw.count[i];
        assert_true(residue >= -1e-9 * inv->cells[i].trees);
        close_to(away + still, was, 1e-9 * (1 + was));
        if (!stock_pick_has(what, inv->cells[i].species, inv->cells[i].diameter_in))
            close_to(away, 0, 0);
    }
}

static struct stock_keep random_keep(const struct wood *w, uint32_t *seed)
{
    struct stock_keep k = { .pick = random_pick(w, seed) };
    k.measure = below(seed, 2) == 0 ? STOCK_TREES : STOCK_BASAL_AREA;
    k.order = (enum stock_order)below(seed, 3);
    k.amount = below(seed, 6) == 0 ? HUGE_VAL : 60 * woods_random(seed);
    return k;
}

/* Cuts until little is left; returns what the last cut left. */
static void cut_again_and_again(const struct wood *w, uint32_t *seed)
{
    struct fault f = { .id = NULL };
    struct stock_pick every = stock_pick_all();
    struct stock *now = stock_copy(w->all, &f), *gone = NULL;
    size_t cuts = 1 + below(seed, CUTS_MOST);
    for (size_t c = 0; c < cuts; c++) {
        struct stock_keep keeps[3];
        struct stock *taken, *left;
        struct stock_pick what = random_pick(w, seed);
        size_t keep_count = below(seed, 4);
        double share = below(seed, 2) == 0 ? 1 : woods_random(seed);
        for (size_t k = 0; k < keep_count; k++)
            keeps[k] = random_keep(w, seed);
        assert_true(stock_cut(now, &what, share, keeps, keep_count, &taken, &left, &f));
        cells_add_up(now, taken, left, &what);
        classes_are(taken, &every, 2);
        classes_are(left, &every, 2);
        for (size_t k = 0; k < keep_count; k++)
            assert_true(keeps[k].kept >= 0 &&
                        keeps[k].kept <= keeps[k].amount * (1 + 1e-12) + 1e-9);
        stock_free(now);
        now = left;
        if (gone)
            stock_add(gone, taken);
        else
            gone = stock_copy(taken, &f);
        stock_free(taken);
    }
    cells_add_up(w->all, gone, now, &every); /* all cuts together */
    stock_free(now);
    stock_free(gone);
}

static void what_is_taken_and_left_is_what_was_there(void **state)
{
    (void)state;
    uint32_t seed = 2;
    for (int n = 0; n < STANDS; n++) {
        struct wood w = random_wood(&seed);
        cut_again_and_again(&w, &seed);
        wood_clear(&w);
    }
}

static double measured(const struct stock *s, const struct stock_pick *pick,
                       enum stock_measure measure)
{
    return measure == STOCK_TREES ? stock_trees(s, pick) : stock_basal_area(s, pick);
}

static void a_counted_amount_is_that_amount_or_all_there_is(void **state)
{
    (void)state;
    struct fault f = { .id = NULL };
    struct stock_pick every = stock_pick_all();
    uint32_t seed = 3;
    for (int n = 0; n < STANDS; n++) {
        struct wood w = random_wood(&seed);
        struct stock_pick what = random_pick(&w, &seed);
        enum stock_measure measure =
            below(&seed, 2) == 0 ? STOCK_TREES : STOCK_BASAL_AREA;
        enum stock_order order = (enum stock_order)below(&seed, 3);
        double amount = 300 * woods_random(&seed),
               there = measured(w.all, &what, measure);
        struct stock *from = stock_copy(w.all, &f);
        struct stock *taken = stock_take_amount(from, &what, measure, amount, order, &f);
        close_to(measured(taken, &every, measure), fmin(amount, there),
                 1e-7 * (1 + there));
        cells_add_up(w.all, taken, from, &what);
        stock_free(taken);
        stock_free(from);
        wood_clear(&w);
    }
}

static double share_of(const struct wood *w, const char *word)
{
    struct fault f = { .id = NULL };
    struct stock_pick p = stock_pick_all(), every = p;
    assert_true(species_select(w->species, word, strlen(word), &p.species, &f));
    return stock_basal_area(w->all, &p) / stock_basal_area(w->all, &every);
}

static void shares_of_all_species_are_the_whole(void **state)
{
    (void)state;
    struct stock_pick every = stock_pick_all();
    uint32_t seed = 4;
    for (int n = 0; n < STANDS; n++) {
        struct wood w = random_wood(&seed);
        if (stock_basal_area(w.all, &every) > 0) {
            double sum = 0;
            for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
                sum += share_of(&w, words[i]);
            close_to(sum, 1, 1e-12);
        }
        wood_clear(&w);
    }
}

/* ---- units ---- */

/* A figure said in another unit of its kind, and that again in the first. */
static void there_and_back(struct units *u, struct unit_id from, struct unit_id to,
                           uint32_t *seed)
{
    struct fault f = { .id = NULL };
    struct graph *g = graph_new(u);
    struct origin nowhere = { { 0, 0, 0 }, NULL };
    for (int n = 0; n < 50; n++) {
        double value = exp(20 * woods_random(seed) - 10);
        struct qty first = graph_leaf(g, value, from, nowhere, &f);
        struct qty said = graph_say_in(g, first, to, &f);
        assert_true(qty_is(first) && qty_is(said));
        double over = graph_value_in(g, said, to);
        struct qty again = graph_leaf(g, over, to, nowhere, &f);
        close_to(graph_value_in(g, again, from), value, 1e-15 * value);
        close_to(over, value * unit_factor(u, from) / unit_factor(u, to), 1e-15 * over);
    }
    graph_free(g);
}

static void units_come_back_as_they_went(void **state)
{
    (void)state;
    static const char *const compound[] = { "trees/ac", "stems/ha", "ft2/ac", "m2/ha",
                                            "cord/ac",  "ft3/ac",   "m3/ha",  "ton/ac",
                                            "lb/ft3",   "kg/m3",    "gal/ac", "L/ha" };
    struct fault f = { .id = NULL };
    struct units *u = units_new();
    struct unit_id ids[100];
    size_t count = 0, pairs = 0;
    struct unit_row row;
    for (size_t i = 0; units_row(u, i, &row); i++)
        assert_true(units_find(u, row.name, strlen(row.name), &ids[count++], &f));
    for (size_t i = 0; i < sizeof compound / sizeof compound[0]; i++)
        assert_true(units_find(u, compound[i], strlen(compound[i]), &ids[count++], &f));
    uint32_t seed = 5;
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; j < count; j++) {
            /* ft2/ac is no percentage, whatever cancels. */
            if (!dim_equal(unit_dim(u, ids[i]), unit_dim(u, ids[j])) ||
                unit_is_per_land(u, ids[i]) != unit_is_per_land(u, ids[j]))
                continue;
            pairs++;
            there_and_back(u, ids[i], ids[j], &seed);
            /* The name that is printed is read as the same unit. */
            const char *name = unit_name(u, ids[i], false);
            struct unit_id again;
            assert_true(units_find(u, name, strlen(name), &again, &f));
            assert_int_equal(again.i, ids[i].i);
        }
    assert_true(pairs > 2 * count);
    units_free(u);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(totals_by_class_sum_to_the_stand),
        cmocka_unit_test(what_is_taken_and_left_is_what_was_there),
        cmocka_unit_test(a_counted_amount_is_that_amount_or_all_there_is),
        cmocka_unit_test(shares_of_all_species_are_the_whole),
        cmocka_unit_test(units_come_back_as_they_went),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* Throws odd bytes at the reader of cruise notes, and at the arithmetic behind it: every
 * input is either refused with a fault inside the text, or gives finite figures. */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#include "base/fault.h"
#include "forest/cruise.h"
#include "forest/estimate.h"
#include "forest/plot_counts.h"
#include "forest/species.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void check(bool good) {
    if (!good) abort();
}

static struct species_table *table(void) {
    static const char *const aspen[] = { "aspen", NULL };
    static const char *const red_oak[] = { "red oak", NULL };
    const struct species_row rows[] = {
        { .name = "bigtooth aspen", .code = "BTA", .groups = aspen },
        { .name = "quaking aspen", .code = "QA", .groups = aspen },
        { .name = "northern red oak", .code = "RO", .aliases = red_oak },
        { .name = "red maple", .code = "RM" },
    };
    struct species_table *t = species_table_new();
    struct fault f = { .id = NULL };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        check(species_add(t, &rows[i], &f));
    return t;
}

/* What is counted beside the trees is finite too, and never below nothing. */
static void beside(const struct inventory *inv) {
    struct fault f = { .id = NULL };
    double values[TALLY_PLOTS_MOST];
    const bool *taken[3] = { NULL, NULL, inv->stems_taken };
    for (int i = 0; i < 3; i++) {
        struct estimate e;
        if (i == 0) plot_snags(inv, NULL, 0, HUGE_VAL, values);
        if (i == 1) plot_dens(inv, NULL, 0, HUGE_VAL, values);
        if (i == 2) plot_stems(inv, NULL, 0, HUGE_VAL, values);
        check(plot_estimate(inv, values, taken[i], &e, &f));
        check(isfinite(e.value) && isfinite(e.high) && e.low >= 0 && e.low <= e.value &&
              e.value <= e.high);
        estimate_clear(&e);
    }
    (void)plot_stems_cut(inv, NULL, 1, 3);
    plot_stocked(inv, NULL, 0, HUGE_VAL, 1, values);
    for (size_t p = 0; p < inv->plots; p++)
        check((values[p] > 0) <= inv->stems_taken[p]);
}

static void figures(const struct tally *tally, const struct species_table *t) {
    struct fault f = { .id = NULL };
    struct inventory *inv = cruise_inventory(tally, t, "odd", SPAN_NONE, &f);
    check(inv != NULL);
    struct stock *all = stock_of(inv, &f);
    check(all != NULL);
    struct stock_pick every = stock_pick_all();
    struct estimate e;
    check(estimate_total(all, &every, STOCK_BASAL_AREA, &e, &f));
    check(isfinite(e.value) && isfinite(e.high) && e.low >= 0 && e.low <= e.value &&
          e.value <= e.high);
    estimate_clear(&e);
    struct stock_keep keep = { every, STOCK_TREES, e.value / 3, STOCK_LARGEST, 0 };
    struct stock *taken = NULL, *left = NULL;
    check(stock_cut(all, &every, 0.7, &keep, 1, &taken, &left, &f));
    double there = stock_trees(all, &every);
    check(fabs(stock_trees(taken, &every) + stock_trees(left, &every) - there) <=
          1e-9 * (1 + there));
    stock_free(taken);
    stock_free(left);
    stock_free(all);
    beside(inv);
    inventory_free(inv);
}

/* The stands of the notes hold all of its plots between them. */
static void stands(const struct tally *tally, const struct species_table *t) {
    struct fault f = { .id = NULL };
    size_t plots = 0, trees = 0, stems = 0;
    for (size_t i = 0; i < tally->stand_count; i++) {
        struct tally *one = tally_of_stand(tally, i, &f);
        check(one && one->plot_count > 0);
        plots += one->plot_count;
        trees += one->tree_count;
        stems += one->stem_count;
        if (i < 3) figures(one, t);
        tally_free(one);
    }
    check(tally->stand_count == 0 ||
          (plots == tally->plot_count && trees == tally->tree_count &&
           stems == tally->stem_count));
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    static struct species_table *t;
    if (!t) t = table();
    struct faults all = { .count = 0 };
    /* A copy without a NUL behind it, so that reading past its end is seen. */
    char *text = malloc(size + (size == 0));
    check(text != NULL);
    for (size_t i = 0; i < size; i++) text[i] = (char)data[i];
    struct tally *tally = tally_read(text, size, (struct span){ 1, 0, 0 }, t, &all);
    check((tally == NULL) == (all.count > 0));
    for (size_t i = 0; i < all.count; i++)
        check(all.list[i].at.at <= size &&
              all.list[i].at.length <= size - all.list[i].at.at);
    if (tally) {
        figures(tally, t);
        stands(tally, t);
    }
    tally_free(tally);
    free(text);
    return 0;
}

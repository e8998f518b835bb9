/* What the figures of a stand cost: 20 plots of 8 trees, ten figures, as values alone and
 * with their spread. */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "base/fault.h"
#include "forest/cruise.h"
#include "forest/density.h"
#include "quantity/spread.h"

enum { PLOTS = 20, TREES = 8, KINDS = 4, FIGURES = 10 };

static double now(void) {
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + (double)t.tv_nsec / 1e9;
}

static void give_up(const struct fault *f) {
    fprintf(stderr, "bench_figures: %s\n", f->message);
    exit(1);
}

static struct inventory *cruise(const struct species_table *t, struct fault *f) {
    static const char *const codes[KINDS] = { "BTA", "RO", "RM", "PB" };
    char text[4000];
    unsigned seed = 5;
    int n = sprintf(text, "baf 10\n");
    for (int p = 1; p <= PLOTS; p++) {
        n += sprintf(text + n, "plot %d:", p);
        for (int k = 0; k < TREES; k++) {
            seed = seed * 1664525u + 1013904223u;
            n += sprintf(text + n, "%s %s %u", k ? ";" : "", codes[seed >> 30],
                         5 + (seed >> 16) % 12);
        }
        n += sprintf(text + n, "\n");
    }
    struct faults all = { .count = 0 };
    struct tally *tally = tally_read(text, (size_t)n, SPAN_NONE, t, &all);
    if (!tally) give_up(&all.list[0]);
    struct inventory *inv = cruise_inventory(tally, t, "Bench", SPAN_NONE, f);
    tally_free(tally);
    return inv;
}

static void ask(struct graph *g, const struct stock *s, struct qty out[FIGURES],
                struct fault *f) {
    struct stock_pick all = stock_pick_all();
    out[0] = figure_trees(g, s, &all, NULL, f);
    out[1] = figure_basal_area(g, s, &all, NULL, f);
    out[2] = figure_diameter(g, s, &all, NULL, f);
    out[3] = figure_density_index(g, s, &all, NULL, f);
    for (size_t i = 0; i < 3; i++) {
        struct stock_pick one = { { { 0 } }, 0, HUGE_VAL };
        species_set_put(&one.species, i, true);
        out[4 + i] = figure_basal_area(g, s, &one, NULL, f);
        out[7 + i] = figure_share(g, s, &one, NULL, STOCK_BASAL_AREA, NULL, f);
    }
    if (fault_is_set(f)) give_up(f);
}

static double best_of(int rounds, bool drawn, struct graph *g, const struct stock *s) {
    double best = 1e9;
    for (int i = 0; i < rounds; i++) {
        struct qty q[FIGURES];
        struct spread spread[FIGURES];
        struct fault f = { .id = NULL };
        double from = now();
        ask(g, s, q, &f);
        /* A figure alone has its percentiles as made: sums of two have to be drawn. */
        for (size_t k = 0; drawn && k < FIGURES; k++) {
            size_t other = k < 7 ? (k + 3) % 7 : 7 + (k + 1) % 3;
            struct qty pair = graph_multiply(g, q[k], q[other], &f);
            graph_release(g, q[k]);
            q[k] = pair;
        }
        if (drawn && !spread_of(g, q, FIGURES, spread, &f)) give_up(&f);
        double took = now() - from;
        for (size_t k = 0; k < FIGURES; k++) graph_release(g, q[k]);
        best = took < best ? took : best;
    }
    return best;
}

int main(void) {
    static const char *const names[KINDS][2] = {
        { "bigtooth aspen", "BTA" }, { "red oak", "RO" },
        { "red maple", "RM" }, { "paper birch", "PB" } };
    struct fault f = { .id = NULL };
    struct species_table *t = species_table_new();
    for (size_t i = 0; i < KINDS; i++) {
        struct species_row row = { .name = names[i][0], .code = names[i][1],
                                   .layer = "bench" };
        if (!species_add(t, &row, &f)) give_up(&f);
    }
    struct inventory *inv = cruise(t, &f);
    struct stock *s = inv ? stock_of(inv, &f) : NULL;
    if (!s) give_up(&f);
    struct units *units = units_new();
    struct graph *g = graph_new(units);
    double values = 1e6 * best_of(200, false, g, s);
    double drawn = 1e3 * best_of(50, true, g, s);
    printf("ten figures of a stand of 20 plots: %.1f us (bar 100)\n", values);
    printf("the same, multiplied two and two and drawn: %.2f ms (bar 5)\n", drawn);
    graph_free(g);
    units_free(units);
    stock_free(s);
    inventory_free(inv);
    species_table_free(t);
    return values <= 100 && drawn <= 5 ? 0 : 1;
}

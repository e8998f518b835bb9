/* bench_graph: a million additions in C, collection included.
 *
 * The bar: less than 40 ns an addition (processor time, the quickest of RUNS), be the
 * results temporaries, a running sum of the same term, or a running sum of new terms
 * (their own making is told beside it); and memory that stays flat. */
#include <stdio.h>
#include <time.h>

#include "base/fault.h"
#include "quantity/graph.h"

enum { MANY = 1000000, RUNS = 7 };

struct bench {
    struct graph *g;
    struct unit_id ft;
    struct qty a, b;
    struct fault f;
};

static const struct origin place = { { 1, 20, 4 }, NULL };

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec * 1e9 + (double)t.tv_nsec;
}

static void temporaries(struct bench *w)
{
    for (int i = 0; i < MANY; i++)
        graph_release(w->g, graph_add(w->g, w->a, w->b, &w->f));
}

static void same_term(struct bench *w)
{
    struct qty x = graph_leaf(w->g, 0, w->ft, place, &w->f);
    for (int i = 0; i < MANY; i++) {
        struct qty next = graph_add(w->g, x, w->b, &w->f);
        graph_release(w->g, x);
        x = next;
    }
    graph_release(w->g, x);
}

static void new_terms(struct bench *w)
{
    struct qty x = graph_leaf(w->g, 0, w->ft, place, &w->f);
    for (int i = 0; i < MANY; i++) {
        struct qty term = graph_leaf(w->g, i, w->ft, place, &w->f);
        struct qty next = graph_add(w->g, x, term, &w->f);
        graph_release(w->g, x);
        graph_release(w->g, term);
        x = next;
    }
    graph_release(w->g, x);
}

static void leaves(struct bench *w)
{
    for (int i = 0; i < MANY; i++)
        graph_release(w->g, graph_leaf(w->g, i, w->ft, place, &w->f));
}

static void products(struct bench *w)
{
    for (int i = 0; i < MANY; i++)
        graph_release(w->g, graph_multiply(w->g, w->a, w->b, &w->f));
}

/* Nanoseconds for one. */
static double measure(struct bench *w, void (*work)(struct bench *))
{
    double best = 1e18;
    for (int i = 0; i < RUNS; i++) {
        double start = now();
        work(w);
        double time = now() - start;
        best = time < best ? time : best;
    }
    return best / MANY;
}

int main(void)
{
    struct units *u = units_new();
    struct bench w = { .g = u ? graph_new(u) : NULL };
    fault_clear(&w.f);
    if (!w.g || !units_find(u, "ft", 2, &w.ft, &w.f)) {
        fprintf(stderr, "out of memory\n");
        return 1;
    }
    w.a = graph_leaf(w.g, 1, w.ft, place, &w.f);
    w.b = graph_leaf(w.g, 2, w.ft, place, &w.f);
    double leaf = measure(&w, leaves), product = measure(&w, products);
    double temporary = measure(&w, temporaries), same = measure(&w, same_term);
    double fresh = measure(&w, new_terms) - leaf;
    size_t bytes = graph_bytes(w.g);
    printf("addition, temporaries:                %.1f ns\n", temporary);
    printf("addition, running sum of one term:    %.1f ns\n", same);
    printf("addition, running sum of new terms:   %.1f ns, and %.1f ns to make each\n",
           fresh, leaf);
    printf("multiplication, temporaries:          %.1f ns\n", product);
    printf("memory after %d of each: %zu bytes\n", MANY * RUNS, bytes);
    bool good = !fault_is_set(&w.f) && temporary < 40 && same < 40 && fresh < 40
                && bytes < 400000;
    graph_free(w.g);
    units_free(u);
    return good ? 0 : 1;
}

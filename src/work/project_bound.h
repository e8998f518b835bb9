/* project_bound.h: finishes before which no schedule ends. For the modules of project_*.c
 * and their tests.
 *
 *     struct project_bounds b;
 *     if (!project_bound(n, work, &b, &possible, f)) ...    // memory
 *
 * path: the longest path over arcs, Kelley 1961. energy, apart: of every set of
 * activities that start no earlier than h and have no less than t to go after them, h + t
 * + their demand times duration over the capacity of a pool (project_pools.h). windows:
 * destructive improvement (Klein, Scholl 1999, EJOR 112): a finish is supposed, time
 * windows are narrowed until they hold or contradict each other; if they do, it is too
 * early. Narrowed by arcs; by pairs of which one must come first (Carlier, Pinson 1989,
 * Management Science 35); by what must run at a time whatever happens (timetable,
 * Lahrichi 1982); by energy that must fall between two times (Lopez, Erschler 1991;
 * Baptiste, Le Pape, Nuijten 1999, Annals of Operations Research 92). All from memory.
 *
 * `work` bounds the sums of windows, in activities looked at. */
#ifndef SPINNEY_WORK_PROJECT_BOUND_H
#define SPINNEY_WORK_PROJECT_BOUND_H

#include "work/project_pools.h"

/* `possible` is false when it is proven that no schedule keeps all limits. */
bool project_bound(const struct project_net *n, long long work,
                   struct project_bounds *out, bool *possible, struct fault *f);

/* project_windows.c: time windows of starts under a supposed finish. */
struct project_windows {
    const struct project_net *net;
    const struct project_pools *pools;
    struct project_board *board;
    int *first, *last; /* start of each */
    int finish;
    long long work;    /* left */
    bool moved;
};

struct project_windows *project_windows_new(const struct project_net *n,
                                            const struct project_pools *p, long long work,
                                            struct fault *f);
void project_windows_free(struct project_windows *w);
/* Windows by arcs alone. False when they are empty. */
bool windows_open(struct project_windows *w, int finish);
/* Narrows them; false when they contradict each other: no schedule within them. */
bool windows_hold(struct project_windows *w);

#endif

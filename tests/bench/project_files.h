/* project_files.h: projects read from and written to Patterson text, and drawn by chance:
 * for the benches and tests of the project engine.
 *
 *     struct project_file a = { 0 };
 *     if (!project_file_read(&a, "x30_1.rcp")) ...      // it says why on stderr
 *     if (project_file_draw(&a, 30, 1.5, 0.5, 0.2, &chance)) ...
 *     project_file_write(&a, stdout);
 *     project_file_clear(&a);
 *
 * Patterson text (Patterson 1984, "A comparison of exact approaches for solving the
 * multiple constrained resource, project scheduling problem", Management Science 30; the
 * layout from memory): numbers apart by blanks or line ends: how many activities, how
 * many resources, the capacities; then of each activity its duration, its demands, how
 * many come after it, and their numbers from 1. The first and the last are dummies.
 *
 * The draw follows Kolisch, Sprecher, Drexl 1995, "Characterization and generation of a
 * general class of resource-constrained project scheduling problems", Management Science
 * 41 (from memory): network complexity is arcs to activities, dummies among them;
 * resource factor the share of resources that an activity takes; resource strength where
 * between the greatest demand and the peak of the earliest schedule the capacity lies.
 * Three activities start, three finish, each has at most three before and three after it;
 * durations and demands are 1 to 10, resources are four. */
#ifndef SPINNEY_TESTS_BENCH_PROJECT_FILES_H
#define SPINNEY_TESTS_BENCH_PROJECT_FILES_H

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "work/project.h"
#include "base/chance.h"

enum { FILE_RESOURCES = 4, FILE_ENDS = 3, FILE_MOST = 10 };

struct project_file {
    struct project p;
    struct project_activity *activities;
    struct project_resource *resources;
    struct project_order *orders;
    int *demands;
};

static inline void project_file_clear(struct project_file *a)
{
    free(a->activities);
    free(a->resources);
    free(a->orders);
    free(a->demands);
    *a = (struct project_file){ 0 };
}

static inline bool project_file_room(struct project_file *a, size_t count,
                                     size_t resources, size_t orders)
{
    *a = (struct project_file){ 0 };
    a->activities = calloc(count + 1, sizeof *a->activities);
    a->resources = calloc(resources + 1, sizeof *a->resources);
    a->orders = calloc(orders + 1, sizeof *a->orders);
    a->demands = calloc(count * resources + 1, sizeof *a->demands);
    if (!a->activities || !a->resources || !a->orders || !a->demands) {
        project_file_clear(a);
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        a->activities[i].demands = a->demands + i * resources;
        a->activities[i].latest = PROJECT_NO_END;
    }
    a->p = (struct project){ .activities = a->activities, .count = count,
                             .resources = a->resources, .resource_count = resources,
                             .orders = a->orders };
    return true;
}

static inline bool project_file_number(FILE *in, int most, int *out)
{
    return fscanf(in, "%d", out) == 1 && *out >= 0 && *out <= most;
}

static inline bool project_file_add(struct project_file *a, size_t before, size_t after)
{
    size_t count = a->p.order_count;
    struct project_order *more = realloc(a->orders, (count + 1) * sizeof *more);
    if (!more)
        return false;
    a->p.orders = a->orders = more;
    more[count] = (struct project_order){ before, after, 0, PROJECT_NO_END };
    a->p.order_count++;
    return true;
}

static inline bool project_file_activity(struct project_file *a, size_t i, FILE *in)
{
    int number, after, most = (int)a->p.count;
    bool good = project_file_number(in, PROJECT_MOST_TIME, &a->activities[i].duration);
    for (size_t r = 0; good && r < a->p.resource_count; r++)
        good = project_file_number(in, PROJECT_MOST_DEMAND,
                                   &a->demands[i * a->p.resource_count + r]);
    good = good && project_file_number(in, most, &number);
    for (int k = 0; good && k < number; k++)
        good = project_file_number(in, most, &after) && after > 0 &&
               project_file_add(a, i, (size_t)after - 1);
    return good;
}

static inline bool project_file_take(struct project_file *a, FILE *in)
{
    int count, resources;
    if (!project_file_number(in, PROJECT_MOST_ACTIVITIES, &count) ||
        !project_file_number(in, 1000, &resources) ||
        !project_file_room(a, (size_t)count, (size_t)resources, 0))
        return false;
    for (size_t r = 0; r < a->p.resource_count; r++)
        if (!project_file_number(in, PROJECT_MOST_DEMAND, &a->resources[r].capacity))
            return false;
    for (size_t i = 0; i < a->p.count; i++)
        if (!project_file_activity(a, i, in))
            return false;
    return true;
}

/* From where `in` stands; nothing is kept of what is not a project. */
static inline bool project_file_read_from(struct project_file *a, FILE *in)
{
    *a = (struct project_file){ 0 };
    bool good = project_file_take(a, in);
    if (!good)
        project_file_clear(a);
    return good;
}

static inline bool project_file_read(struct project_file *a, const char *path)
{
    *a = (struct project_file){ 0 };
    FILE *in = fopen(path, "r");
    bool good = in && project_file_read_from(a, in);
    if (!good)
        fprintf(stderr, "%s: %s\n", path, in ? "not a project in Patterson's form"
                                             : "cannot be read");
    if (in)
        fclose(in);
    return good;
}

static inline void project_file_write(const struct project_file *a, FILE *out)
{
    const struct project *p = &a->p;
    fprintf(out, "%zu %zu\n", p->count, p->resource_count);
    for (size_t r = 0; r < p->resource_count; r++)
        fprintf(out, "%d ", p->resources[r].capacity);
    fprintf(out, "\n");
    for (size_t i = 0; i < p->count; i++) {
        size_t after = 0;
        fprintf(out, "%d ", p->activities[i].duration);
        for (size_t r = 0; r < p->resource_count; r++)
            fprintf(out, "%d ", p->activities[i].demands[r]);
        for (size_t k = 0; k < p->order_count; k++)
            after += p->orders[k].before == i;
        fprintf(out, "%zu", after);
        for (size_t k = 0; k < p->order_count; k++)
            if (p->orders[k].before == i)
                fprintf(out, " %zu", p->orders[k].after + 1);
        fprintf(out, "\n");
    }
}

/* A network being drawn: whether i comes before j, at any remove. */
struct project_drawing {
    struct project_file *a;
    bool *before; /* count x count */
    int *ins, *outs;
    uint64_t *chance;
};

static inline bool *drawing_before(const struct project_drawing *d, size_t i, size_t j)
{
    return &d->before[i * d->a->p.count + j];
}

static inline bool drawing_join(struct project_drawing *d, size_t i, size_t j)
{
    size_t n = d->a->p.count;
    d->outs[i]++;
    d->ins[j]++;
    for (size_t x = 0; x < n; x++)
        for (size_t y = 0; y < n; y++)
            if ((x == i || *drawing_before(d, x, i)) &&
                (y == j || *drawing_before(d, j, y)))
                *drawing_before(d, x, y) = true;
    return project_file_add(d->a, i, j);
}

/* Whether an arc from i to j, or one there is, would say what others say already. */
static inline bool drawing_says_twice(const struct project_drawing *d, size_t i, size_t j)
{
    if (*drawing_before(d, i, j))
        return true;
    const struct project *p = &d->a->p;
    for (size_t k = 0; k < p->order_count; k++) {
        size_t x = p->orders[k].before, y = p->orders[k].after;
        if ((x == i || *drawing_before(d, x, i)) &&
            (y == j || *drawing_before(d, j, y)))
            return true;
    }
    return false;
}

/* Everything but the first few gets one before it, all but the last few one after it. */
static inline bool drawing_spans(struct project_drawing *d)
{
    size_t n = d->a->p.count, last = n - 1;
    bool good = true;
    for (size_t j = 1; good && j <= FILE_ENDS; j++)
        good = drawing_join(d, 0, j);
    for (size_t j = FILE_ENDS + 1; good && j < last; j++) {
        size_t i, tries = 0, top = j < last - FILE_ENDS ? j : last - FILE_ENDS;
        do
            i = 1 + chance_below(d->chance, top - 1);
        while (d->outs[i] >= FILE_ENDS && tries++ < 10000);
        good = drawing_join(d, i, j);
    }
    for (size_t i = last - 1; good && i > 0; i--) { /* the last have least to choose of */
        size_t j, tries = 0;
        if (d->outs[i] > 0)
            continue;
        if (i >= last - FILE_ENDS) {
            good = drawing_join(d, i, last);
            continue;
        }
        do
            j = i + 1 + chance_below(d->chance, last - i - 1);
        while ((j <= FILE_ENDS || d->ins[j] >= FILE_ENDS ||
                drawing_says_twice(d, i, j)) &&
               tries++ < 10000);
        good = tries < 10000 && drawing_join(d, i, j);
    }
    return good;
}

static inline bool drawing_network(struct project_drawing *d, double complexity)
{
    size_t n = d->a->p.count, wanted = (size_t)(complexity * (double)n + 0.5);
    bool good = drawing_spans(d);
    for (int tries = 0; good && d->a->p.order_count < wanted; tries++) {
        size_t i = 1 + chance_below(d->chance, n - 2 - FILE_ENDS);
        size_t j = i + 1 + chance_below(d->chance, n - 2 - i);
        if (tries > 200000)
            return false;
        if (j > FILE_ENDS && d->outs[i] < FILE_ENDS && d->ins[j] < FILE_ENDS &&
            !drawing_says_twice(d, i, j))
            good = drawing_join(d, i, j);
    }
    return good;
}

static inline void project_file_draw_demands(struct project_file *a, double factor,
                                             uint64_t *chance)
{
    size_t n = a->p.count, pairs = (n - 2) * FILE_RESOURCES;
    size_t wanted = (size_t)(factor * (double)pairs + 0.5);
    for (size_t i = 1; i + 1 < n; i++) {
        a->activities[i].duration = 1 + (int)chance_below(chance, FILE_MOST);
        size_t r = chance_below(chance, FILE_RESOURCES);
        a->demands[i * FILE_RESOURCES + r] = 1 + (int)chance_below(chance, FILE_MOST);
    }
    for (size_t had = n - 2; had < wanted;) {
        size_t k = FILE_RESOURCES + chance_below(chance, pairs);
        if (a->demands[k] > 0)
            continue;
        a->demands[k] = 1 + (int)chance_below(chance, FILE_MOST);
        had++;
    }
}

/* The peak of each resource when everything starts as early as orders allow. */
static inline int project_file_peak(const struct project_file *a, const int *starts,
                                    size_t r)
{
    int peak = 0;
    for (size_t i = 0; i < a->p.count; i++) {
        int use = 0;
        for (size_t j = 0; j < a->p.count; j++)
            if (starts[j] <= starts[i] &&
                starts[i] < starts[j] + a->activities[j].duration)
                use += a->demands[j * FILE_RESOURCES + r];
        peak = use > peak ? use : peak;
    }
    return peak;
}

static inline void project_file_draw_capacities(struct project_file *a, double strength,
                                                int *starts)
{
    for (size_t i = 0; i < a->p.count; i++) /* numbers rise along arcs */
        for (size_t k = 0; k < a->p.order_count; k++) {
            const struct project_order *o = &a->orders[k];
            int finish = starts[o->before] + a->activities[o->before].duration;
            if (o->before == i && finish > starts[o->after])
                starts[o->after] = finish;
        }
    for (size_t r = 0; r < FILE_RESOURCES; r++) {
        int least = 0, peak = project_file_peak(a, starts, r);
        for (size_t i = 0; i < a->p.count; i++)
            if (a->demands[i * FILE_RESOURCES + r] > least)
                least = a->demands[i * FILE_RESOURCES + r];
        a->resources[r].capacity = least + (int)(strength * (peak - least) + 0.5);
    }
}

/* `count` activities besides the two dummies, at least 8. */
static inline bool project_file_draw(struct project_file *a, size_t count,
                                     double complexity, double factor, double strength,
                                     uint64_t *chance)
{
    for (int tries = 0; tries < 100; tries++) {
        size_t n = count + 2;
        struct project_drawing d = { a, calloc(n * n, sizeof(bool)),
                                     calloc(n, sizeof(int)), calloc(n, sizeof(int)),
                                     chance };
        int *starts = calloc(n, sizeof *starts);
        bool room = project_file_room(a, n, FILE_RESOURCES, 0) && d.before && d.ins &&
                    d.outs && starts;
        bool good = room && drawing_network(&d, complexity);
        if (good) {
            project_file_draw_demands(a, factor, chance);
            project_file_draw_capacities(a, strength, starts);
        } else {
            project_file_clear(a);
        }
        free(d.before);
        free(d.ins);
        free(d.outs);
        free(starts);
        if (good || !room)
            return good;
    }
    return false;
}

struct project_levels {
    double complexity, factor, strength;
};

/* The levels of those who first drew such projects; small ones also with all capacities
 * at the peak (strength 1). */
static inline size_t project_level_count(size_t count) { return count < 100 ? 48 : 60; }

static inline struct project_levels project_level(size_t count, size_t level)
{
    static const double complexity[] = { 1.5, 1.8, 2.1 };
    static const double factor[] = { 0.25, 0.5, 0.75, 1 };
    static const double small[] = { 0.2, 0.5, 0.7, 1 };
    static const double large[] = { 0.1, 0.2, 0.3, 0.4, 0.5 };
    size_t strengths = count < 100 ? 4 : 5;
    return (struct project_levels){ complexity[level / (4 * strengths)],
                                    factor[level / strengths % 4],
                                    count < 100 ? small[level % strengths]
                                                : large[level % strengths] };
}

#endif

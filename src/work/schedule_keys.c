#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "work/schedule_search.h"

/* ---- from keys to an order ---- */

static bool is_before(const struct search *a, size_t g, size_t h)
{
    return a->urgent[g] < a->urgent[h] || (a->urgent[g] == a->urgent[h] && g < h);
}

static void heap_put(struct search *a, size_t g)
{
    size_t at = a->heap_count++;
    for (; at > 0 && is_before(a, g, a->heap[(at - 1) / 2]); at = (at - 1) / 2)
        a->heap[at] = a->heap[(at - 1) / 2];
    a->heap[at] = g;
}

static size_t heap_take(struct search *a)
{
    size_t top = a->heap[0], last = a->heap[--a->heap_count], at = 0;
    for (size_t child; (child = 2 * at + 1) < a->heap_count; at = child) {
        if (child + 1 < a->heap_count && is_before(a, a->heap[child + 1], a->heap[child]))
            child++;
        if (!is_before(a, a->heap[child], last))
            break;
        a->heap[at] = a->heap[child];
    }
    a->heap[at] = last;
    return top;
}

/* Does it wait for itself? It is never placed, and nothing need wait for it. */
static bool goes_round(const struct solver *s, size_t g)
{
    return s->told[s->groups[g].first].r.why == SCHEDULE_CYCLE;
}

static void order_put(struct search *a, size_t *count, size_t g)
{
    struct solver *s = a->s;
    s->place[g] = *count;
    s->order[(*count)++] = g;
    for (size_t i = a->after_at[g]; i < a->after_at[g + 1]; i++)
        if (--a->waits[a->after[i]] == 0 && !goes_round(s, a->after[i]))
            heap_put(a, a->after[i]);
}

void order_make(struct search *a)
{
    struct solver *s = a->s;
    for (size_t g = 0; g < s->group_count; g++)
        a->urgent[g] = a->now.key[g];
    for (size_t k = s->group_count; k-- > 0;) {
        size_t g = s->order[k];
        for (size_t i = s->before_at[g]; i < s->before_at[g + 1]; i++)
            a->urgent[s->before[i]] = fmin(a->urgent[s->before[i]], a->urgent[g]);
    }
    a->heap_count = 0;
    for (size_t g = 0; g < s->group_count; g++) {
        a->waits[g] = s->before_at[g + 1] - s->before_at[g];
        if (a->waits[g] == 0 && !goes_round(s, g))
            heap_put(a, g);
    }
    size_t count = 0;
    for (size_t g = 0; g < s->group_count; g++)
        if (goes_round(s, g))
            order_put(a, &count, g);
    while (a->heap_count > 0)
        order_put(a, &count, heap_take(a));
}

/* ---- rules of thumb ---- */

double key_by(const struct search *a, enum rule rule, size_t g)
{
    const struct solver *s = a->s;
    const struct group *group = &s->groups[g];
    const struct dayset *open = group_open(s, group);
    int deadline = s->days;
    switch (rule) {
    case RULE_DEADLINE:
        for (size_t job = group->first; job != SCHEDULE_NONE; job = s->next[job]) {
            const struct schedule_job *j = &s->task->jobs[job];
            if (j->latest.given && solver_day(s, j->latest.date) < deadline)
                deadline = solver_day(s, j->latest.date);
        }
        if (s->bounds[g].possible) {
            int end = season_end(open, s->bounds[g].start);
            deadline = end < deadline ? end : deadline;
        }
        return deadline;
    case RULE_SCARCE: return dayset_count(open, 0, s->days - 1);
    case RULE_LONGEST: return -group->hours;
    case RULE_PLAN:
    case RULES: break;
    }
    return (double)group->first;
}

size_t cheapest_crew(const struct solver *s, size_t g)
{
    uint64_t crews = s->bounds[g].crews;
    size_t least = SCHEDULE_NONE;
    bool differ = false;
    for (size_t c = 0; c < s->task->crew_count && s->groups[g].hours > 0; c++) {
        if (c >= 64 || !(crews >> c & 1))
            continue;
        double rate = s->task->crews[c].rate;
        differ |= least != SCHEDULE_NONE && rate != s->task->crews[least].rate;
        if (least == SCHEDULE_NONE || rate < s->task->crews[least].rate)
            least = c;
    }
    return differ ? least : SCHEDULE_NONE;
}

bool crews_want(struct search *a, enum thrift thrift)
{
    const struct solver *s = a->s;
    bool any = false;
    for (size_t g = 0; g < s->group_count; g++) {
        a->now.wanted[g] = SCHEDULE_NONE;
        a->waits[g] = 0; /* here: is it marked first, or waited for by such a one? */
        for (size_t job = s->groups[g].first; job != SCHEDULE_NONE; job = s->next[job])
            a->waits[g] |= s->task->jobs[job].first;
    }
    if (thrift == THRIFT_NONE)
        return true;
    for (size_t k = s->group_count; k-- > 0;) {
        size_t g = s->order[k];
        for (size_t i = s->before_at[g]; i < s->before_at[g + 1]; i++)
            a->waits[s->before[i]] |= a->waits[g];
    }
    for (size_t g = 0; g < s->group_count; g++) {
        bool open = thrift == THRIFT_BUT_FIRST && a->waits[g] != 0;
        if (!open)
            a->now.wanted[g] = cheapest_crew(s, g);
        any |= a->now.wanted[g] != SCHEDULE_NONE;
    }
    return any;
}

static int by_key(const void *a, const void *b)
{
    const double *const *x = a, *const *y = b;
    if (**x != **y)
        return **x < **y ? -1 : 1;
    return *x < *y ? -1 : *x > *y;
}

bool keys_rank(struct search *a, struct fault *f)
{
    const struct solver *s = a->s;
    size_t n = s->group_count;
    const double **row = malloc((n + 1) * sizeof *row);
    double *rank = malloc((n + 1) * sizeof *rank);
    if (!row || !rank) {
        free(row);
        free(rank);
        return fault_no_memory(f);
    }
    for (size_t g = 0; g < n; g++)
        row[g] = &a->now.key[g];
    qsort(row, n, sizeof *row, by_key);
    for (size_t i = 0; i < n; i++) {
        size_t g = (size_t)(row[i] - a->now.key);
        bool first = false;
        for (size_t job = s->groups[g].first; job != SCHEDULE_NONE; job = s->next[job])
            first |= s->task->jobs[job].first;
        rank[g] = (double)i - (first ? (double)n : 0);
    }
    memcpy(a->now.key, rank, n * sizeof *rank);
    free(row);
    free(rank);
    return true;
}

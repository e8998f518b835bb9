#include "work/lists.h"

#include <stdlib.h>
#include <string.h>

#include "base/chance.h"
#include "base/fault.h"

/* ---- what waits for what ---- */

/* Sorts one end of the pairs by the other: a count of each, then each to its place. */
static void gather(size_t count, const struct lists_pair *pairs, size_t pair_count,
                   bool forward, uint32_t *at, uint32_t *to)
{
    memset(at, 0, (count + 2) * sizeof *at);
    for (size_t k = 0; k < pair_count; k++)
        at[(forward ? pairs[k].before : pairs[k].after) + 2]++;
    for (size_t i = 2; i < count + 2; i++)
        at[i] += at[i - 1];
    for (size_t k = 0; k < pair_count; k++) {
        uint32_t of = forward ? pairs[k].before : pairs[k].after;
        to[at[of + 1]++] = forward ? pairs[k].after : pairs[k].before;
    }
}

struct lists *lists_new(size_t count, const struct lists_pair *pairs, size_t pair_count,
                        struct fault *f)
{
    struct lists *l = calloc(1, sizeof *l);
    if (l) {
        l->count = count;
        l->before_at = malloc((count + 2) * sizeof *l->before_at);
        l->after_at = malloc((count + 2) * sizeof *l->after_at);
        l->before = malloc((pair_count + 1) * sizeof *l->before);
        l->after = malloc((pair_count + 1) * sizeof *l->after);
        l->waits = malloc((count + 1) * sizeof *l->waits);
        l->ready = malloc((count + 1) * sizeof *l->ready);
        l->marked = calloc(count + 1, sizeof *l->marked);
    }
    if (!l || !l->before_at || !l->after_at || !l->before || !l->after || !l->waits ||
        !l->ready || !l->marked) {
        lists_free(l);
        fault_no_memory(f);
        return NULL;
    }
    gather(count, pairs, pair_count, false, l->before_at, l->before);
    gather(count, pairs, pair_count, true, l->after_at, l->after);
    return l;
}

void lists_free(struct lists *l)
{
    if (!l)
        return;
    free(l->before_at);
    free(l->after_at);
    free(l->before);
    free(l->after);
    free(l->waits);
    free(l->ready);
    free(l->marked);
    free(l);
}

bool lists_waits(const struct lists *l, uint32_t a, uint32_t b)
{
    for (uint32_t k = l->before_at[b]; k < l->before_at[b + 1]; k++)
        if (l->before[k] == a)
            return true;
    return false;
}

static void wait_for_all(struct lists *l)
{
    for (size_t i = 0; i < l->count; i++)
        l->waits[i] = l->before_at[i + 1] - l->before_at[i];
}

/* ---- the one of least value next: a heap of those that may come ---- */

static bool is_less(const int *value, uint32_t a, uint32_t b)
{
    if (value && value[a] != value[b])
        return value[a] < value[b];
    return a < b;
}

static void heap_put(uint32_t *heap, size_t *count, const int *value, uint32_t i)
{
    size_t at = (*count)++;
    for (; at > 0 && is_less(value, i, heap[(at - 1) / 2]); at = (at - 1) / 2)
        heap[at] = heap[(at - 1) / 2];
    heap[at] = i;
}

static uint32_t heap_take(uint32_t *heap, size_t *count, const int *value)
{
    uint32_t top = heap[0], last = heap[--*count];
    size_t at = 0;
    for (size_t child; (child = 2 * at + 1) < *count; at = child) {
        if (child + 1 < *count && is_less(value, heap[child + 1], heap[child]))
            child++;
        if (!is_less(value, heap[child], last))
            break;
        heap[at] = heap[child];
    }
    heap[at] = last;
    return top;
}

void lists_by_value(struct lists *l, const int *value, uint32_t *list)
{
    size_t count = 0;
    wait_for_all(l);
    for (uint32_t i = 0; i < l->count; i++)
        if (l->waits[i] == 0)
            heap_put(l->ready, &count, value, i);
    for (size_t at = 0; count > 0; at++) {
        uint32_t i = list[at] = heap_take(l->ready, &count, value);
        for (uint32_t k = l->after_at[i]; k < l->after_at[i + 1]; k++)
            if (--l->waits[l->after[k]] == 0)
                heap_put(l->ready, &count, value, l->after[k]);
    }
}

/* ---- by chance ---- */

/* One of those ready, each with the chance (regret + 1). */
static size_t pick_by_regret(const struct lists *l, size_t count, const int *value,
                             uint64_t *chance)
{
    int most = value[l->ready[0]];
    uint64_t sum = 0;
    size_t k = 0;
    for (size_t i = 1; i < count; i++)
        most = value[l->ready[i]] > most ? value[l->ready[i]] : most;
    for (size_t i = 0; i < count; i++)
        sum += (uint64_t)((int64_t)most - value[l->ready[i]]) + 1;
    uint64_t left = chance_next(chance) % sum;
    for (; k + 1 < count; k++) {
        uint64_t part = (uint64_t)((int64_t)most - value[l->ready[k]]) + 1;
        if (left < part)
            break;
        left -= part;
    }
    return k;
}

void lists_by_chance(struct lists *l, const int *value, uint64_t *chance, uint32_t *list)
{
    size_t count = 0;
    wait_for_all(l);
    for (uint32_t i = 0; i < l->count; i++)
        if (l->waits[i] == 0)
            l->ready[count++] = i;
    for (size_t at = 0; count > 0; at++) {
        size_t k = pick_by_regret(l, count, value, chance);
        uint32_t i = list[at] = l->ready[k];
        l->ready[k] = l->ready[--count];
        for (uint32_t o = l->after_at[i]; o < l->after_at[i + 1]; o++)
            if (--l->waits[l->after[o]] == 0)
                l->ready[count++] = l->after[o];
    }
}

/* ---- moves ---- */

static void move_forward(struct lists *l, uint32_t *list, size_t from, size_t to)
{
    /* From the back: those marked are kept aside and stay in their order. */
    size_t at = from + 1, kept = 0;
    l->marked[list[from]] = true;
    for (size_t k = from + 1; k-- > to;) {
        uint32_t i = list[k];
        if (!l->marked[i]) {
            list[--at] = i;
            continue;
        }
        l->marked[i] = false;
        l->ready[kept++] = i;
        for (uint32_t b = l->before_at[i]; b < l->before_at[i + 1]; b++)
            l->marked[l->before[b]] = true;
    }
    /* Marked before `to`: unmark. */
    for (size_t k = 0; k < kept; k++)
        for (uint32_t b = l->before_at[l->ready[k]]; b < l->before_at[l->ready[k] + 1];
             b++)
            l->marked[l->before[b]] = false;
    while (kept > 0)
        list[to++] = l->ready[--kept];
}

static void move_backward(struct lists *l, uint32_t *list, size_t from, size_t to)
{
    size_t at = from, kept = 0;
    l->marked[list[from]] = true;
    for (size_t k = from; k <= to; k++) {
        uint32_t i = list[k];
        for (uint32_t b = l->before_at[i]; b < l->before_at[i + 1]; b++)
            l->marked[i] = l->marked[i] || l->marked[l->before[b]];
        if (l->marked[i])
            l->ready[kept++] = i;
        else
            list[at++] = i;
    }
    for (size_t k = 0; k < kept; k++) {
        list[at++] = l->ready[k];
        l->marked[l->ready[k]] = false;
    }
}

void lists_move(struct lists *l, uint32_t *list, size_t from, size_t to)
{
    if (from > to)
        move_forward(l, list, from, to);
    else
        move_backward(l, list, from, to);
}

/* ---- all of them ---- */

/* The smallest thing that may come at `at` and is more than the one there; 0 for none,
 * since what comes after another is never 0. */
static size_t next_at(const struct lists *l, const uint32_t *list, size_t at)
{
    size_t best = 0;
    for (size_t k = at + 1; k < l->count; k++)
        if (l->waits[list[k]] == 0 && list[k] > list[at] &&
            (best == 0 || list[k] < list[best]))
            best = k;
    return best;
}

/* Takes what is at `from` to `to`, all between one further. */
static void rotate(uint32_t *list, size_t from, size_t to)
{
    uint32_t i = list[from];
    memmove(list + to + 1, list + to, (from - to) * sizeof *list);
    list[to] = i;
}

bool lists_next(struct lists *l, uint32_t *list)
{
    memset(l->waits, 0, l->count * sizeof *l->waits);
    for (size_t at = l->count; at-- > 0;) {
        uint32_t i = list[at];
        for (uint32_t k = l->after_at[i]; k < l->after_at[i + 1]; k++)
            l->waits[l->after[k]]++;
        size_t best = next_at(l, list, at);
        if (best == 0)
            continue;
        for (; at < l->count; at++) {
            rotate(list, best, at);
            i = list[at];
            for (uint32_t k = l->after_at[i]; k < l->after_at[i + 1]; k++)
                l->waits[l->after[k]]--;
            best = at + 1;
            for (size_t k = at + 1; k < l->count; k++)
                if (l->waits[list[k]] == 0 &&
                    (l->waits[list[best]] != 0 || list[k] < list[best]))
                    best = k;
        }
        return true;
    }
    return false;
}

size_t lists_number(struct lists *l, size_t most, uint32_t *list)
{
    size_t number = 1;
    lists_by_value(l, NULL, list);
    while (number < most && lists_next(l, list))
        number++;
    return number;
}

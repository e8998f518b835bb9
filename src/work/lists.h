/* lists.h: lists of things of which some wait for others: every thing once, none before
 * what it waits for. What a schedule is made from, thing by thing.
 *
 *     struct lists_pair pairs[] = { { 0, 2 }, { 1, 2 } };     // 2 waits for 0 and for 1
 *     struct lists *l = lists_new(3, pairs, 2, f);
 *     uint32_t list[3];
 *     lists_by_value(l, (int[]){ 5, 1, 0 }, list);            // 1, 0, 2
 *     lists_move(l, list, 1, 0);                              // 0, 1, 2
 *     lists_free(l);
 *
 * Things are numbered from 0; no thing may wait for itself at any remove. */
#ifndef SPINNEY_WORK_LISTS_H
#define SPINNEY_WORK_LISTS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct fault;

struct lists_pair {
    uint32_t before, after;
};

struct lists {
    size_t count;
    /* What thing i waits for: before[before_at[i]] up to before[before_at[i + 1]], not
     * included; likewise what waits for it. */
    uint32_t *before, *before_at, *after, *after_at;
    /* Scratch: for how many each still waits; those that wait for none; those marked. */
    uint32_t *waits, *ready;
    bool *marked;
};

/* Pairs may come twice. NULL when memory runs out (fault set). */
struct lists *lists_new(size_t count, const struct lists_pair *pairs, size_t pair_count,
                        struct fault *f);
void lists_free(struct lists *l);

/* Of those that may come next the one with the least value, of equals, and without
 * values, the first. */
void lists_by_value(struct lists *l, const int *value, uint32_t *list);
/* Of those that may come next each with the chance (regret + 1), the regret being how
 * much its value is below the greatest of them: regret-based biased sampling, Drexl 1991,
 * Management Science 37, from memory. */
void lists_by_chance(struct lists *l, const int *value, uint64_t *chance, uint32_t *list);

/* Whether b waits for a, at first hand. */
bool lists_waits(const struct lists *l, uint32_t a, uint32_t b);
/* Moves what is at `from` to `to`, or as near as it gets: forward it takes along what it
 * waits for, backward what waits for it; all others stay in their order. */
void lists_move(struct lists *l, uint32_t *list, size_t from, size_t to);

/* The next list in the order of the alphabet, things being the letters; the first of
 * all is that without values. False after the last. */
bool lists_next(struct lists *l, uint32_t *list);
/* How many lists there are, counted up to `most`. `list` is scratch of count. */
size_t lists_number(struct lists *l, size_t most, uint32_t *list);

#endif

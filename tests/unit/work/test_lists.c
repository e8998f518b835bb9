/* Lists that keep to what waits for what, against every order of a few things. */
#include "../unit.h"

#include <stdlib.h>
#include <string.h>

#include "base/chance.h"
#include "base/fault.h"
#include "work/lists.h"

enum { MOST = 6, ROUNDS = 400 };

struct drawn {
    struct lists_pair pairs[2 * MOST];
    size_t count, pair_count;
    struct lists *l;
};

/* Pairs lead from lower letters of a shuffled alphabet to higher ones: no rings. */
static void draw(struct drawn *d, uint64_t *chance)
{
    struct fault f;
    uint32_t letters[MOST] = { 0 };
    fault_clear(&f);
    *d = (struct drawn){ .count = 1 + chance_below(chance, MOST) };
    for (uint32_t i = 0; i < d->count; i++) {
        size_t k = chance_below(chance, i + 1);
        letters[i] = letters[k];
        letters[k] = i;
    }
    for (size_t want = chance_below(chance, 2 * MOST + 1); want > 0; want--) {
        size_t a = chance_below(chance, d->count), b = chance_below(chance, d->count);
        if (a < b)
            d->pairs[d->pair_count++] = (struct lists_pair){ letters[a], letters[b] };
    }
    d->l = lists_new(d->count, d->pairs, d->pair_count, &f);
    assert_non_null(d->l);
}

static bool keeps(const struct drawn *d, const uint32_t *list)
{
    size_t at[MOST] = { 0 };
    bool seen[MOST] = { false };
    for (size_t k = 0; k < d->count; k++) {
        if (list[k] >= d->count || seen[list[k]])
            return false;
        seen[list[k]] = true;
        at[list[k]] = k;
    }
    for (size_t k = 0; k < d->pair_count; k++)
        if (at[d->pairs[k].before] > at[d->pairs[k].after])
            return false;
    return true;
}

/* All orders that keep to it, in the order of the alphabet. */
static size_t all_lists(const struct drawn *d, uint32_t *list, size_t at,
                        uint32_t out[][MOST], size_t found)
{
    if (at == d->count || at == MOST) {
        if (keeps(d, list))
            memcpy(out[found++], list, sizeof *out);
        return found;
    }
    for (uint32_t i = 0; i < d->count; i++) {
        bool taken = false;
        for (size_t k = 0; k < at; k++)
            taken = taken || list[k] == i;
        list[at] = i;
        if (!taken)
            found = all_lists(d, list, at + 1, out, found);
    }
    return found;
}

static void every_list_comes_once_in_the_order_of_the_alphabet(void **state)
{
    (void)state;
    static uint32_t all[720][MOST];
    uint64_t chance = 3;
    size_t most = 0;
    for (int round = 0; round < ROUNDS; round++) {
        struct drawn d;
        uint32_t list[MOST] = { 0 }, scratch[MOST];
        draw(&d, &chance);
        size_t count = all_lists(&d, scratch, 0, all, 0);
        most = count > most ? count : most;
        lists_by_value(d.l, NULL, list);
        for (size_t k = 0; k < count; k++) {
            assert_memory_equal(list, all[k], d.count * sizeof *list);
            assert_int_equal(lists_next(d.l, list), k + 1 < count);
        }
        assert_int_equal(lists_number(d.l, 1000, scratch), count);
        size_t capped = 1 + chance_below(&chance, count);
        assert_int_equal(lists_number(d.l, capped, scratch), capped);
        lists_free(d.l);
    }
    assert_int_equal(most, 720);
}

/* Of those that wait for nothing any more, the least value. */
static void check_values(const struct drawn *d, const int *value, const uint32_t *list)
{
    for (size_t at = 0; at < d->count; at++)
        for (size_t k = at + 1; k < d->count; k++) {
            bool waits = false;
            for (size_t p = 0; p < d->pair_count; p++)
                for (size_t b = at; b < d->count; b++)
                    waits = waits || (d->pairs[p].after == list[k] &&
                                      d->pairs[p].before == list[b]);
            assert_true(waits || value[list[at]] < value[list[k]] ||
                        (value[list[at]] == value[list[k]] && list[at] < list[k]));
        }
}

static void lists_go_by_value_and_by_chance(void **state)
{
    (void)state;
    uint64_t chance = 5;
    for (int round = 0; round < ROUNDS; round++) {
        struct drawn d;
        int value[MOST];
        uint32_t list[MOST];
        draw(&d, &chance);
        for (size_t i = 0; i < d.count; i++)
            value[i] = (int)chance_below(&chance, 4) - 2;
        lists_by_value(d.l, value, list);
        assert_true(keeps(&d, list));
        check_values(&d, value, list);
        lists_by_chance(d.l, value, &chance, list);
        assert_true(keeps(&d, list));
        for (size_t p = 0; p < d.pair_count; p++)
            assert_true(lists_waits(d.l, d.pairs[p].before, d.pairs[p].after));
        lists_free(d.l);
    }
}

/* Regrets of 3 and 0 have four chances and one: of 5,000 about 4,000, give or take 28. */
static void chance_leans_on_regret(void **state)
{
    (void)state;
    struct fault f;
    struct lists *l = lists_new(2, NULL, 0, &f);
    uint64_t chance = 9;
    uint32_t list[2];
    int first = 0;
    assert_non_null(l);
    for (int k = 0; k < 5000; k++) {
        lists_by_chance(l, (const int[]){ 7, 4 }, &chance, list);
        first += list[0] == 1;
    }
    assert_in_range(first, 3850, 4150);
    lists_free(l);
}

/* Does a wait for b, at any remove? */
static bool hangs_on(const struct drawn *d, uint32_t a, uint32_t b)
{
    for (size_t p = 0; p < d->pair_count; p++)
        if (d->pairs[p].after == a &&
            (d->pairs[p].before == b || hangs_on(d, d->pairs[p].before, b)))
            return true;
    return false;
}

/* What moves is what was asked, and what hangs together with it on the way. */
static void a_move_takes_along_what_it_has_to_and_nothing_else(void **state)
{
    (void)state;
    uint64_t chance = 11;
    size_t along = 0;
    for (int round = 0; round < ROUNDS * 5; round++) {
        struct drawn d;
        int value[MOST] = { 0 };
        uint32_t list[MOST], want[MOST];
        draw(&d, &chance);
        lists_by_chance(d.l, value, &chance, list);
        size_t from = chance_below(&chance, d.count), to = chance_below(&chance, d.count);
        size_t low = from < to ? from : to, high = from < to ? to : from, at = low;
        memcpy(want, list, sizeof want);
        bool goes[MOST];
        for (size_t k = low; k <= high; k++) {
            goes[k] = k == from || (from > to ? hangs_on(&d, list[from], list[k])
                                              : hangs_on(&d, list[k], list[from]));
            along += goes[k] && k != from;
        }
        for (int part = 0; part < 2; part++)
            for (size_t k = low; k <= high; k++)
                if (goes[k] == ((part == 0) == (from > to)))
                    want[at++] = list[k];
        lists_move(d.l, list, from, to);
        assert_true(keeps(&d, list));
        assert_memory_equal(list, want, d.count * sizeof *list);
        lists_free(d.l);
    }
    assert_true(along > 200);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_list_comes_once_in_the_order_of_the_alphabet),
        cmocka_unit_test(lists_go_by_value_and_by_chance),
        cmocka_unit_test(chance_leans_on_regret),
        cmocka_unit_test(a_move_takes_along_what_it_has_to_and_nothing_else),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

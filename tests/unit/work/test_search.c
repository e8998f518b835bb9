/* The search by itself, on a toy whose best is known since all is tried: two saws, one at
 * half the speed but free, things cut one after another on each; what counts is first how
 * late they are by weight, then what they cost. */
#include "../page/failing.h"

#include "../unit.h"

#include <string.h>

#include "base/chance.h"
#include "base/fault.h"
#include "work/search.h"

enum { MOST = 12, SAWS = 2, TARDY = 0, COST = 1, SCORES = 2 };

struct toy {
    size_t count;
    int time[MOST], due[MOST], weight[MOST];
    struct lists_pair pairs[MOST];
    size_t pair_count;
    uint32_t choices[MOST];
    /* What the search has asked for. */
    size_t begun, made, kept, each, fails_at;
    double bound[SCORES], best[SCORES];
    size_t beyond;
    struct lists *lists;
};

static void toy_score(const struct toy *t, const uint32_t *list, const uint32_t *choice,
                      double *score)
{
    int free_at[SAWS] = { 0 }, done[MOST] = { 0 };
    score[TARDY] = score[COST] = 0;
    for (size_t k = 0; k < t->count; k++) {
        uint32_t i = list[k], saw = choice[i];
        int start = free_at[saw];
        for (size_t p = 0; p < t->pair_count; p++)
            if (t->pairs[p].after == i && done[t->pairs[p].before] > start)
                start = done[t->pairs[p].before];
        done[i] = free_at[saw] = start + t->time[i] * (saw == 0 ? 2 : 1);
        int late = done[i] > t->due[i] ? done[i] - t->due[i] : 0;
        score[TARDY] += late * t->weight[i];
        score[COST] += saw == 0 ? 0 : t->time[i];
    }
}

static bool make(void *of, struct search_pick *pick, size_t *left, struct fault *f)
{
    struct toy *t = of;
    assert_true(*left > 0);
    *left -= t->each < *left ? t->each : *left;
    if (++t->made == t->fails_at) {
        fault_set(f, "toy-ends", (struct span){ 0 }, "the toy ends");
        return false;
    }
    toy_score(t, pick->list, pick->choice, pick->score);
    return true;
}

/* One by number, one by what is due. */
static bool begin(void *of, struct search_pick *pick, int *value, size_t *left,
                  bool *made, struct fault *f)
{
    struct toy *t = of;
    *made = t->begun < 2;
    if (!*made)
        return true;
    for (size_t i = 0; i < t->count; i++) {
        value[i] = t->begun == 0 ? (int)i : t->due[i];
        pick->choice[i] = 0;
    }
    t->begun++;
    lists_by_value(t->lists, value, pick->list);
    return make(t, pick, left, f);
}

/* Each is better than the one before. */
static void keep(void *of)
{
    struct toy *t = of;
    t->kept++;
}

static void draw(struct toy *t, size_t count, uint64_t *chance)
{
    *t = (struct toy){ .count = count, .each = 1 };
    int whole = 0;
    for (size_t i = 0; i < count; i++) {
        t->time[i] = 1 + (int)chance_below(chance, 9);
        t->weight[i] = 1 + (int)chance_below(chance, 5);
        t->choices[i] = chance_below(chance, 4) == 0 ? 1 : SAWS;
        whole += t->time[i];
    }
    for (size_t i = 0; i < count; i++)
        t->due[i] = 1 + (int)chance_below(chance, (size_t)whole);
    for (uint32_t i = 1; i < count; i++)
        if (chance_below(chance, 3) == 0)
            t->pairs[t->pair_count++] =
                (struct lists_pair){ (uint32_t)chance_below(chance, i), i };
}

/* Every order, written otherwise than in the search; lists it makes, counted. */
static size_t try_orders(struct toy *t, uint32_t *list, size_t at, double *best)
{
    size_t tried = 0;
    if (at == t->count) {
        for (uint32_t set = 0; set < (uint32_t)1 << t->count; set++) {
            uint32_t choice[MOST];
            bool may = true;
            double score[SCORES];
            for (size_t i = 0; i < t->count; i++) {
                choice[i] = set >> i & 1;
                may = may && choice[i] < t->choices[i];
            }
            if (!may)
                continue;
            toy_score(t, list, choice, score);
            tried++;
            if (score[TARDY] < best[TARDY] ||
                (score[TARDY] == best[TARDY] && score[COST] < best[COST]))
                memcpy(best, score, sizeof score);
        }
        return tried;
    }
    for (uint32_t i = 0; i < t->count; i++) {
        bool next = true;
        for (size_t k = 0; k < at; k++)
            next = next && list[k] != i;
        for (size_t p = 0; p < t->pair_count; p++) {
            bool there = t->pairs[p].after != i;
            for (size_t k = 0; k < at; k++)
                there = there || list[k] == t->pairs[p].before;
            next = next && there;
        }
        list[at] = i;
        if (next)
            tried += try_orders(t, list, at + 1, best);
    }
    return tried;
}

struct answer {
    bool good;
    uint32_t list[MOST], choice[MOST];
    double score[SCORES];
    struct search_outcome out;
    struct fault f;
};

static struct answer solve(struct toy *t, size_t schedules, uint64_t seed, bool bounded)
{
    struct answer a = { .good = false };
    struct search_pick best = { .list = a.list, .choice = a.choice };
    fault_clear(&a.f);
    t->begun = t->made = t->kept = 0;
    t->lists = lists_new(t->count, t->pairs, t->pair_count, &a.f);
    if (!t->lists)
        return a;
    struct search_problem p = { .of = t,
                                .lists = t->lists,
                                .choices = t->choices,
                                .scores = SCORES,
                                .bound = t->bound,
                                .bounded = bounded ? SCORES : 0,
                                .beyond = t->beyond,
                                .begin = begin,
                                .make = make,
                                .keep = keep };
    struct search_ask ask = { .schedules = schedules, .seed = seed };
    a.good = search_run(&p, &ask, &best, &a.out, &a.f);
    memcpy(a.score, best.score, sizeof a.score);
    lists_free(t->lists);
    return a;
}

/* What is handed back is a list with choices that give the score told. */
static void check_answer(const struct toy *t, const struct answer *a)
{
    double score[SCORES];
    bool seen[MOST] = { false };
    assert_true(a->good);
    for (size_t k = 0; k < t->count; k++) {
        for (size_t p = 0; p < t->pair_count; p++)
            assert_true(t->pairs[p].after != a->list[k] || seen[t->pairs[p].before]);
        assert_false(seen[a->list[k]]);
        seen[a->list[k]] = true;
        assert_true(a->choice[k] < t->choices[k]);
    }
    toy_score(t, a->list, a->choice, score);
    assert_memory_equal(score, a->score, sizeof score);
}

static void find(size_t count, size_t schedules, int rounds, size_t least_found)
{
    uint64_t chance = 41;
    size_t found = 0;
    for (int round = 0; round < rounds; round++) {
        struct toy t;
        uint32_t list[MOST];
        double best[SCORES] = { 1e9, 1e9 };
        draw(&t, count, &chance);
        size_t all = try_orders(&t, list, 0, best);
        struct answer a = solve(&t, schedules, (uint64_t)round, false);
        check_answer(&t, &a);
        assert_true(search_compare(a.score, best, SCORES, 0) >= 0);
        assert_int_equal(a.out.all, all <= schedules - 1);
        bool is_best = search_compare(a.score, best, SCORES, 0) == 0;
        assert_true(is_best || !a.out.all);
        found += is_best;
        /* All is tried once, after the first; else to the last of the budget. */
        assert_int_equal(a.out.schedules, a.out.all ? all + 1 : schedules);
        assert_int_equal(t.made, a.out.schedules);
    }
    print_message("%zu things, %zu schedules: the best in %zu of %d\n", count, schedules,
                  found, rounds);
    assert_true(found >= least_found);
}

/* Up to 600 one list is changed again and again, beyond lists are crossed. */
static void the_best_of_a_toy_is_found(void **state)
{
    (void)state;
    find(4, 500, 60, 60);
    find(7, 600, 40, 20);
    find(7, 5000, 40, 36);
}

static void a_seed_gives_one_answer_and_others_may_give_others(void **state)
{
    (void)state;
    uint64_t chance = 43;
    size_t others = 0;
    for (int round = 0; round < 40; round++) {
        struct toy t;
        size_t schedules = round % 2 ? 60 : 700;
        draw(&t, MOST, &chance);
        struct answer a = solve(&t, schedules, 7, false),
                      b = solve(&t, schedules, 7, false),
                      c = solve(&t, schedules, 8, false);
        assert_memory_equal(a.list, b.list, sizeof a.list);
        assert_memory_equal(a.choice, b.choice, sizeof a.choice);
        others += memcmp(a.list, c.list, sizeof a.list) != 0;
    }
    assert_true(others > 10);
}

/* Each schedule may take several of the budget, as one that is bettered does. */
static void no_more_are_made_than_asked(void **state)
{
    (void)state;
    uint64_t chance = 47;
    for (size_t schedules = 0; schedules < 1500; schedules = schedules * 2 + 1) {
        struct toy t;
        draw(&t, MOST, &chance);
        for (t.each = 1; t.each <= 3; t.each++) {
            struct answer a = solve(&t, schedules, 1, false);
            size_t budget = schedules > 0 ? schedules : 1; /* one is always made */
            check_answer(&t, &a);
            assert_int_equal(a.out.schedules, budget);
            assert_int_equal(t.made, (budget + t.each - 1) / t.each);
            assert_true(t.kept >= 1 && t.kept <= t.made);
        }
    }
}

static void it_ends_when_the_bound_is_reached(void **state)
{
    (void)state;
    uint64_t chance = 53;
    size_t ended = 0;
    for (int round = 0; round < 40; round++) {
        struct toy t;
        draw(&t, 8, &chance);
        struct answer a = solve(&t, 2000, 1, false);
        memcpy(t.bound, a.score, sizeof t.bound);
        struct answer b = solve(&t, 2000, 1, true);
        assert_true(b.out.reached && search_compare(a.score, b.score, SCORES, 0) == 0);
        assert_memory_equal(a.list, b.list, t.count * sizeof *a.list);
        ended += b.out.schedules < a.out.schedules;
        t.bound[TARDY] = -1; /* is never reached */
        assert_false(solve(&t, 2000, 1, true).out.reached);
    }
    assert_true(ended > 20);
}

static void few_are_made_once_the_bound_is_reached(void **state)
{
    (void)state;
    uint64_t chance = 59;
    size_t went_on = 0;
    for (int round = 0; round < 40; round++) {
        struct toy t;
        draw(&t, 8, &chance);
        memcpy(t.bound, solve(&t, 2000, 1, false).score, sizeof t.bound);
        struct answer at_once = solve(&t, 2000, 1, true);
        t.beyond = 50;
        struct answer later = solve(&t, 2000, 1, true);
        assert_true(later.out.reached);
        assert_in_range(later.out.schedules, at_once.out.schedules,
                        at_once.out.schedules + 50);
        went_on += later.out.schedules > at_once.out.schedules;
        t.beyond = 5000;
        assert_true(solve(&t, 2000, 1, true).out.schedules <= 2000);
    }
    assert_true(went_on > 20);
}

static void of_equals_the_first_stands(void **state)
{
    (void)state;
    struct toy t = { .count = 5, .each = 1 };
    for (size_t i = 0; i < t.count; i++) {
        t.time[i] = 1;
        t.due[i] = 100; /* none is ever late, and each may be done for nothing */
        t.choices[i] = SAWS;
    }
    struct answer a = solve(&t, 300, 1, false);
    for (uint32_t i = 0; i < t.count; i++)
        assert_true(a.list[i] == i && a.choice[i] == 0);
    assert_int_equal(t.kept, 1);
}

static void a_schedule_that_cannot_be_made_ends_it(void **state)
{
    (void)state;
    uint64_t chance = 59;
    struct toy t;
    draw(&t, MOST, &chance);
    for (t.fails_at = 1; t.fails_at < 900; t.fails_at += 37) {
        struct answer a = solve(&t, 1000, 1, false);
        assert_false(a.good);
        assert_string_equal(a.f.id, "toy-ends");
        assert_int_equal(t.made, t.fails_at);
    }
}

static void scores_are_compared_one_after_another(void **state)
{
    (void)state;
    const double a[] = { 1, 100 }, b[] = { 1, 100.5 }, c[] = { 1 + 1e-9, 99 };
    assert_int_equal(search_compare(a, b, 2, 0), -1);
    assert_int_equal(search_compare(b, a, 2, 0), 1);
    assert_int_equal(search_compare(a, b, 2, 0.01), 0);
    assert_int_equal(search_compare(a, c, 2, 0), -1);
    assert_int_equal(search_compare(a, c, 2, 1e-7), 1);
    assert_int_equal(search_compare(a, b, 1, 0), 0);
}

static void memory_that_runs_out_is_told(void **state)
{
    (void)state;
    uint64_t chance = 61;
    size_t told = 0;
    bool ran_out = true;
    struct toy t;
    draw(&t, MOST, &chance);
    for (size_t n = 0; ran_out; n++) {
        failing_seen = false;
        failing_after = n;
        struct answer a = solve(&t, n % 2 ? 700 : 50, 1, false);
        failing_after = SIZE_MAX;
        ran_out = failing_seen;
        assert_true(a.good == !ran_out);
        assert_true(a.good || strcmp(a.f.id, "memory") == 0);
        told += !a.good;
    }
    assert_true(told > 10);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_best_of_a_toy_is_found),
        cmocka_unit_test(a_seed_gives_one_answer_and_others_may_give_others),
        cmocka_unit_test(no_more_are_made_than_asked),
        cmocka_unit_test(it_ends_when_the_bound_is_reached),
        cmocka_unit_test(few_are_made_once_the_bound_is_reached),
        cmocka_unit_test(of_equals_the_first_stands),
        cmocka_unit_test(a_schedule_that_cannot_be_made_ends_it),
        cmocka_unit_test(scores_are_compared_one_after_another),
        cmocka_unit_test(memory_that_runs_out_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

#include "../page/failing.h"

#include "../unit.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/fault.h"
#include "ground/stakeout.h"

#define near(value, wanted, within) assert_true(fabs((value) - (wanted)) <= (within))

enum { SMALL = 9 };

static uint64_t dice = 88172645463325252u;
static double roll(double from, double to)
{
    dice ^= dice << 13, dice ^= dice >> 7, dice ^= dice << 17;
    return from + (to - from) * (double)(dice >> 11) / 9007199254740992.0;
}

static struct stakeout plan(const struct stakeout_ask *ask)
{
    struct stakeout s;
    struct fault f = { .id = NULL };
    assert_true(stakeout_plan(ask, &s, &f));
    assert_null(f.id);
    return s;
}

static void steps_tell_the_way_from_flag_to_flag(void **state)
{
    (void)state;
    const struct flag flags[] = { { .at = { 100, 200 } },
                                  { .at = { 0, 100 } },
                                  { .at = { 100, 100 } } };
    const struct point gate = { 0, 0 };
    struct stakeout s = plan(&(struct stakeout_ask){ .flags = flags,
                                                     .count = 3,
                                                     .start = &gate,
                                                     .declination = -3.5,
                                                     .pace_ft = 2.5 });
    assert_int_equal(s.count, 3);
    assert_int_equal(s.stakes[0].flag, 1);
    assert_int_equal(s.stakes[1].flag, 2);
    assert_int_equal(s.stakes[2].flag, 0);
    near(s.stakes[0].azimuth, 0, 0);
    near(s.stakes[0].magnetic, 3.5, 1e-12);
    near(s.stakes[1].azimuth, 90, 1e-12);
    near(s.stakes[1].magnetic, 93.5, 1e-12);
    near(s.stakes[1].paces, 40, 1e-12);
    near(s.length_ft, 300, 1e-12);
    assert_false(s.stakes[0].first);
    stakeout_free(&s);
    /* Without a gate nothing leads to the first, and no pace gives no paces. */
    s = plan(&(struct stakeout_ask){ .flags = flags, .count = 3 });
    assert_true(s.stakes[0].first);
    assert_true(isnan(s.stakes[0].azimuth) && isnan(s.stakes[1].paces));
    near(s.stakes[0].distance_ft, 0, 0);
    near(s.length_ft, 200, 1e-12);
    stakeout_free(&s);
    s = plan(&(struct stakeout_ask){
        .flags = flags, .count = 3, .start = &gate, .returns = true });
    /* There and back another way: over two slants of the square, not one long one. */
    near(s.length_ft, 100 + 100 + 2 * hypot(100, 100), 1e-9);
    stakeout_free(&s);
    s = plan(&(struct stakeout_ask){ .count = 0, .start = &gate, .returns = true });
    assert_int_equal(s.count, 0);
    near(s.length_ft, 0, 0);
    stakeout_free(&s);
}

static double leg(const struct flag *a, const struct flag *b)
{
    return hypot(a->at.x - b->at.x, a->at.y - b->at.y);
}

/* The shortest of all ways through the flags, by trying every one. */
static double shortest(const struct stakeout_ask *ask)
{
    static double best[1 << SMALL][SMALL];
    size_t n = ask->count, all = ((size_t)1 << n) - 1;
    struct flag start = { .at = ask->start ? *ask->start : (struct point){ 0, 0 } };
    for (size_t set = 1; set <= all; set++)
        for (size_t last = 0; last < n; last++) {
            double *here = &best[set][last];
            *here = HUGE_VAL;
            if (!(set >> last & 1))
                continue;
            size_t before = set & ~((size_t)1 << last);
            if (before == 0)
                *here = ask->start ? leg(&start, &ask->flags[last]) : 0;
            for (size_t k = 0; k < n; k++)
                if (before >> k & 1)
                    *here = fmin(*here, best[before][k] +
                                            leg(&ask->flags[k], &ask->flags[last]));
        }
    double least = HUGE_VAL;
    for (size_t last = 0; last < n; last++)
        least = fmin(least, best[all][last] +
                                (ask->returns ? leg(&start, &ask->flags[last]) : 0));
    return least;
}

static void check_way(const struct stakeout_ask *ask, const struct stakeout *s)
{
    bool seen[STAKEOUT_FLAGS_MOST] = { false };
    double length = 0;
    struct point before = ask->start ? *ask->start : ask->flags[s->stakes[0].flag].at;
    assert_int_equal(s->count, ask->count);
    for (size_t i = 0; i < s->count; i++) {
        struct point at = ask->flags[s->stakes[i].flag].at;
        assert_false(seen[s->stakes[i].flag]);
        seen[s->stakes[i].flag] = true;
        near(s->stakes[i].distance_ft, hypot(at.x - before.x, at.y - before.y), 1e-9);
        length += s->stakes[i].distance_ft;
        before = at;
    }
    if (ask->returns)
        length += hypot(before.x - ask->start->x, before.y - ask->start->y);
    near(s->length_ft, length, 1e-6);
}

static void near_the_shortest_on_small_cases(void **state)
{
    (void)state;
    double sum = 0, worst = 0;
    int cases = 0;
    for (int round = 0; round < 600; round++) {
        struct flag flags[SMALL];
        struct point start = { roll(0, 1000), roll(0, 1000) };
        struct stakeout_ask ask = { .flags = flags,
                                    .count = 2 + (size_t)roll(0, SMALL - 1.01),
                                    .start = round % 3 ? &start : NULL,
                                    .returns = round % 3 == 2 };
        for (size_t i = 0; i < ask.count; i++)
            flags[i] = (struct flag){ .at = { roll(0, 1000), roll(0, 1000) } };
        struct stakeout s = plan(&ask);
        check_way(&ask, &s);
        double ratio = s.length_ft / shortest(&ask);
        assert_true(ratio >= 1 - 1e-9);
        sum += ratio;
        worst = fmax(worst, ratio);
        cases++;
        stakeout_free(&s);
    }
    printf("the way over the shortest: mean %.4f, worst %.3f of %d\n", sum / cases, worst,
           cases);
    assert_true(sum / cases < 1.02);
    assert_true(worst < 1.35);
}

/* Random flags in a square: the shortest round is about 0.7124 sqrt(count times area)
 * (constant by Johnson and others 1996, from memory), a little more for few. */
static void many_flags_are_ordered_well(void **state)
{
    (void)state;
    static struct flag flags[STAKEOUT_FLAGS_MOST];
    struct point start = { 0, 0 };
    for (size_t count = 500; count <= STAKEOUT_FLAGS_MOST; count *= 2) {
        for (size_t i = 0; i < count; i++)
            flags[i] = (struct flag){ .at = { roll(0, 2000), roll(0, 2000) } };
        struct stakeout_ask ask = {
            .flags = flags, .count = count, .start = &start, .returns = true
        };
        struct stakeout s = plan(&ask);
        double guess = 0.7124 * sqrt((double)count * 2000 * 2000);
        check_way(&ask, &s);
        assert_true(s.length_ft < 1.12 * guess);
        stakeout_free(&s);
    }
}

static void the_same_flags_the_same_way(void **state)
{
    (void)state;
    struct flag flags[64]; /* a square grid: ties everywhere */
    for (int i = 0; i < 64; i++)
        flags[i] = (struct flag){ .at = { 50 * (i % 8), 50 * (i / 8) } };
    struct stakeout_ask ask = { .flags = flags, .count = 64 };
    struct stakeout a = plan(&ask), b = plan(&ask);
    for (size_t i = 0; i < 64; i++)
        assert_int_equal(a.stakes[i].flag, b.stakes[i].flag);
    near(a.length_ft, 63 * 50, 200);
    /* Flags at one spot do not keep it busy for ever. */
    for (int i = 0; i < 64; i++)
        flags[i].at = (struct point){ 7, 7 };
    struct stakeout c = plan(&ask);
    near(c.length_ft, 0, 0);
    stakeout_free(&a), stakeout_free(&b), stakeout_free(&c);
}

/* Two banks 100 ft apart, flags every 150 ft: to and fro over the water would be shorter
 * than along the one and back along the other. */
static void a_run_is_walked_along(void **state)
{
    (void)state;
    struct flag flags[10];
    for (size_t i = 0; i < 10; i++)
        flags[i] = (struct flag){ .at = { 150.0 * (double)(i % 5), i < 5 ? 0 : 100 },
                                  .run = i < 5 ? 1 : 6 };
    const struct point gate = { -30, 100 };
    struct stakeout_ask ask = { .flags = flags, .count = 10, .start = &gate };
    struct stakeout s = plan(&ask);
    static const size_t wanted[] = { 5, 6, 7, 8, 9, 4, 3, 2, 1, 0 };
    for (size_t i = 0; i < 10; i++)
        assert_int_equal(s.stakes[i].flag, wanted[i]);
    near(s.length_ft, 30 + 600 + 100 + 600, 1e-9);
    near(s.stakes[6].azimuth, 270, 1e-9);
    stakeout_free(&s);
    ask.returns = true; /* the same way round, and home from the near end */
    s = plan(&ask);
    near(s.length_ft, 30 + 600 + 100 + 600 + hypot(30, 100), 1e-9);
    stakeout_free(&s);
}

static void runs_stay_whole(void **state)
{
    (void)state;
    enum { MANY = 60 };
    for (int round = 0; round < 200; round++) {
        struct flag flags[MANY];
        struct point start = { roll(0, 1000), roll(0, 1000) };
        size_t run = 0, left = 0;
        for (size_t i = 0; i < MANY; i++, left--) {
            bool begins = left == 0;
            if (begins)
                left = 1 + (size_t)roll(0, 7), run = left > 1 ? i + 1 : 0;
            struct point at = { roll(0, 1000), roll(0, 1000) };
            if (!begins)
                at = (struct point){ flags[i - 1].at.x + 40, flags[i - 1].at.y };
            flags[i] = (struct flag){ .at = at, .run = run };
        }
        struct stakeout_ask ask = { .flags = flags, .count = MANY, .start = &start };
        struct stakeout s = plan(&ask);
        check_way(&ask, &s);
        size_t place[MANY];
        for (size_t i = 0; i < MANY; i++)
            place[s.stakes[i].flag] = i;
        for (size_t i = 1; i < MANY; i++)
            if (flags[i].run > 0 && flags[i].run == flags[i - 1].run)
                assert_true(place[i] == place[i - 1] + 1 || place[i] + 1 == place[i - 1]);
        stakeout_free(&s);
    }
}

static void what_is_refused(void **state)
{
    (void)state;
    static struct flag flags[STAKEOUT_FLAGS_MOST + 1];
    struct stakeout s;
    struct fault f = { .id = NULL };
    struct stakeout_ask many = { .flags = flags, .count = STAKEOUT_FLAGS_MOST + 1 };
    assert_false(stakeout_plan(&many, &s, &f));
    assert_string_equal(f.message, "2001 flags are more than 2000");
    fault_clear(&f);
    struct stakeout_ask pace = { .flags = flags, .count = 1, .pace_ft = 0.5 };
    assert_false(stakeout_plan(&pace, &s, &f));
    assert_string_equal(f.id, "stakeout-pace");
    fault_clear(&f);
    struct stakeout_ask back = { .flags = flags, .count = 1, .returns = true };
    assert_false(stakeout_plan(&back, &s, &f));
    assert_string_equal(f.id, "stakeout-start");
    for (size_t after = 0; after < 2; after++) {
        fault_clear(&f);
        struct stakeout_ask one = { .flags = flags, .count = 1 };
        failing_after = after;
        assert_false(stakeout_plan(&one, &s, &f));
        failing_after = SIZE_MAX;
        assert_non_null(f.id);
        assert_null(s.stakes);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(steps_tell_the_way_from_flag_to_flag),
        cmocka_unit_test(near_the_shortest_on_small_cases),
        cmocka_unit_test(many_flags_are_ordered_well),
        cmocka_unit_test(the_same_flags_the_same_way),
        cmocka_unit_test(a_run_is_walked_along),
        cmocka_unit_test(runs_stay_whole),
        cmocka_unit_test(what_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

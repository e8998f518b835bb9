/* How much the limits of notes, cautions and stops are asked for. */
#include "plan_fixture.h"

static struct limit *add_limit(struct bench *b, uint32_t act, enum finding_level level,
                               struct yearly days)
{
    plan_add_limit(b->plan, act, "closed season",
                   (struct limit){ .level = level, .days = days });
    return &b->plan->acts[act].limits[b->plan->acts[act].limit_count - 1];
}

static void a_note_gives_way_before_a_caution(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    uint32_t act = bench_act(&b, "a/cut", 10);
    b.plan->acts[act].open = window(6, 1, 8, 31);
    add_limit(&b, act, FINDING_NOTE, window(4, 1, 10, 31));
    add_limit(&b, act, FINDING_CAUTION, window(6, 1, 7, 31));
    schedule(&b);
    const struct plan_act *a = &b.plan->acts[act];
    assert_int_equal(a->start.day, on(2027, 8, 1).day);
    assert_true(a->limits[0].broken);
    assert_false(a->limits[1].broken);
    bench_close(&b);
}

static void a_caution_gives_way_when_nothing_else_is_left(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    uint32_t act = bench_act(&b, "a/cut", 10);
    b.plan->acts[act].open = window(6, 1, 7, 31);
    add_limit(&b, act, FINDING_NOTE, window(4, 1, 10, 31));
    add_limit(&b, act, FINDING_CAUTION, window(6, 1, 7, 31));
    add_limit(&b, act, FINDING_STOP, window(6, 1, 6, 30));
    schedule(&b);
    const struct plan_act *a = &b.plan->acts[act];
    assert_int_equal(a->start.day, on(2027, 7, 1).day);
    assert_true(a->limits[1].broken);
    assert_false(a->limits[2].broken);
    bench_close(&b);
}

static void work_that_pauses_over_a_closed_week_breaks_nothing(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    uint32_t act = bench_act(&b, "a/cut", 60);
    b.plan->acts[act].open = window(11, 1, 3, 31);
    struct limit limit = { .level = FINDING_CAUTION, .dated = true,
                           .from = on(2026, 11, 7), .to = on(2026, 11, 15) };
    plan_add_limit(b.plan, act, "deer season", limit);
    schedule(&b);
    const struct plan_act *a = &b.plan->acts[act];
    assert_int_equal(a->start.day, on(2026, 11, 1).day);
    assert_true(a->finish.day > on(2026, 11, 15).day);
    assert_false(a->limits[0].broken);
    bench_close(&b);
}

static void nothing_is_put_off_for_a_year_for_the_sake_of_a_note(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    uint32_t act = bench_act(&b, "a/cut", 70);
    /* Four weeks of 20 h from Oct 15; the note leaves not quite two of them. */
    b.plan->acts[act].open = window(10, 1, 11, 10);
    add_limit(&b, act, FINDING_NOTE, window(10, 1, 10, 31));
    schedule(&b);
    const struct plan_act *a = &b.plan->acts[act];
    assert_false(a->carried_over);
    assert_int_equal(date_civil(a->finish).year, 2026);
    assert_true(a->limits[0].broken);
    bench_close(&b);
}

static void what_takes_years_anyway_keeps_out_of_the_note_too(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    uint32_t act = bench_act(&b, "a/cut", 200);
    b.plan->acts[act].open = window(10, 1, 11, 10);
    add_limit(&b, act, FINDING_NOTE, window(10, 1, 10, 31));
    schedule(&b);
    const struct plan_act *a = &b.plan->acts[act];
    assert_int_equal(a->state, ACT_PLACED);
    assert_true(a->carried_over);
    assert_false(a->limits[0].broken);
    bench_close(&b);
}

static void a_fixed_date_is_told_even_when_the_crew_comes_later(void **state)
{
    (void)state;
    struct bench b;
    bench_open(&b);
    b.plan->crews[0].has_from = true;
    b.plan->crews[0].from = on(2027, 9, 1);
    uint32_t act = bench_act(&b, "a/cut", 5);
    struct limit *limit = add_limit(&b, act, FINDING_STOP, window(4, 1, 7, 31));
    b.plan->acts[act].has_fixed = true;
    b.plan->acts[act].fixed = on(2027, 5, 5);
    schedule(&b);
    assert_int_equal(b.plan->acts[act].start.day, on(2027, 5, 5).day);
    assert_true(limit->broken);
    assert_true(b.plan->acts[act].conflict[0] != '\0');
    bench_close(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_note_gives_way_before_a_caution),
        cmocka_unit_test(a_caution_gives_way_when_nothing_else_is_left),
        cmocka_unit_test(work_that_pauses_over_a_closed_week_breaks_nothing),
        cmocka_unit_test(nothing_is_put_off_for_a_year_for_the_sake_of_a_note),
        cmocka_unit_test(what_takes_years_anyway_keeps_out_of_the_note_too),
        cmocka_unit_test(a_fixed_date_is_told_even_when_the_crew_comes_later),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* How sure dates are: the schedule made again with other hours. */
#include "plan_fixture.h"

#include <math.h>

#include "plan/risk.h"

static struct qty range(struct bench *b, double low, double likely, double high,
                        uint32_t key)
{
    struct fault f = { 0 };
    struct unit_id h;
    assert_true(units_find(b->units, "h", 1, &h, &f));
    struct qty q = graph_range(b->graph, low, likely, high, h, key,
                               (struct origin){ SPAN_NONE, NULL }, &f);
    assert_true(qty_is(q));
    return q;
}

static uint32_t act_of(struct bench *b, const char *id, struct qty hours)
{
    uint32_t act = plan_add_act(b->plan, id, "job", PLAN_NONE, SPAN_NONE);
    plan_set_figure(b->plan, &b->plan->acts[act].figures, "hours", "hours", hours);
    plan_add_able(b->plan, act, 0);
    return act;
}

static uint32_t uncertain(struct bench *b, const char *id, double low, double likely,
                          double high, uint32_t key)
{
    struct qty q = range(b, low, likely, high, key);
    uint32_t act = act_of(b, id, q);
    graph_release(b->graph, q);
    return act;
}

/* One person, 7 h a week, from Monday Nov 2 2026 on. */
static void open_small(struct bench *b)
{
    bench_open(b);
    b->plan->starts = on(2026, 11, 2);
    b->plan->crews[0].people = 1;
    b->plan->crews[0].hours_each_week = 7;
}

static double normal_below(double z)
{
    return 0.5 * erfc(-z / sqrt(2));
}

static const struct plan_act *at(const struct bench *b, uint32_t act)
{
    return &b->plan->acts[act];
}

static void certain_hours_are_sure(void **state)
{
    (void)state;
    struct bench b;
    open_small(&b);
    uint32_t act = bench_act(&b, "a", 20);
    b.plan->acts[act].open = window(11, 1, 11, 30);
    schedule(&b);
    assert_true(at(&b, act)->chance == 1);
    assert_false(at(&b, act)->chance_or_more);
    assert_int_equal(at(&b, act)->help_count, 0);
    bench_close(&b);
}

static void what_fits_with_all_at_their_high_ends_is_not_drawn(void **state)
{
    (void)state;
    struct bench b;
    open_small(&b);
    /* Nov 2 to Nov 29 has four weeks, 28 h. */
    uint32_t one = uncertain(&b, "a", 5, 8, 13, 1), two = uncertain(&b, "b", 5, 8, 13, 2);
    b.plan->acts[one].open = b.plan->acts[two].open = window(11, 2, 11, 29);
    schedule(&b);
    for (uint32_t act = one; act <= two; act++) {
        assert_true(at(&b, act)->chance == RISK_SURE);
        assert_true(at(&b, act)->chance_or_more);
        assert_false(at(&b, act)->help_sought);
    }
    bench_close(&b);
}

static void the_chance_is_that_of_the_hours(void **state)
{
    (void)state;
    struct bench b;
    open_small(&b);
    /* 28 h fit into Nov 2 to Nov 29. From 16 to 32 h, 24 in the middle. */
    uint32_t act = uncertain(&b, "a", 16, 24, 32, 1);
    b.plan->acts[act].open = window(11, 2, 11, 29);
    schedule(&b);
    double sigma = 8 / 1.2815515655446004;
    assert_float_equal(at(&b, act)->chance, normal_below((28 - 24) / sigma), 0.01);
    assert_false(at(&b, act)->chance_or_more);
    bench_close(&b);
}

static double chance_of_second(bool shared)
{
    struct bench b;
    open_small(&b);
    struct qty one = range(&b, 9, 12, 15, 1);
    struct qty two = shared ? graph_hold(b.graph, one) : range(&b, 9, 12, 15, 2);
    uint32_t first = act_of(&b, "a", one), second = act_of(&b, "b", two);
    graph_release(b.graph, one);
    graph_release(b.graph, two);
    b.plan->acts[first].open = b.plan->acts[second].open = window(11, 2, 11, 29);
    schedule(&b);
    double chance = at(&b, second)->chance;
    bench_close(&b);
    return chance;
}

static void acts_of_one_cause_rise_and_fall_together(void **state)
{
    (void)state;
    double sigma = 3 / 1.2815515655446004;
    /* 28 h for two acts of 12 h: of one cause, each may take 14; else their sum 28. */
    assert_float_equal(chance_of_second(true), normal_below(2 / sigma), 0.01);
    assert_float_equal(chance_of_second(false), normal_below(4 / (sigma * sqrt(2))),
                       0.02);
}

static void float_counts_the_weeks_to_the_end_of_the_season(void **state)
{
    (void)state;
    struct bench b;
    open_small(&b);
    uint32_t first = bench_act(&b, "a", 7), second = bench_act(&b, "b", 7),
             third = bench_act(&b, "c", 7);
    b.plan->acts[first].open = window(11, 2, 3, 31);
    b.plan->acts[second].open = window(12, 1, 12, 31);
    plan_add_link(b.plan, second, (struct link){ first, 0, -1 });
    schedule(&b);
    /* b: Dec 1, its season ends Dec 31. a: Nov 2, and 29 days until b starts. */
    assert_int_equal(at(&b, second)->start.day, on(2026, 12, 1).day);
    assert_int_equal(at(&b, second)->float_weeks, 30 / 7);
    /* a has 8 weeks until b has to be done, but the last of them has hours for one. */
    assert_int_equal(at(&b, first)->float_weeks, (30 + 29) / 7 - 1);
    assert_int_equal(at(&b, third)->float_weeks, -1); /* any time will do */
    bench_close(&b);
}

static const struct act_help *help_of(const struct plan_act *act, enum act_help_kind kind)
{
    for (size_t i = 0; i < act->help_count; i++)
        if (act->helps[i].kind == kind)
            return &act->helps[i];
    return NULL;
}

static void one_more_person_and_the_next_season_help(void **state)
{
    (void)state;
    struct bench b;
    open_small(&b);
    uint32_t act = uncertain(&b, "a", 16, 26, 36, 1);
    b.plan->acts[act].open = window(10, 10, 11, 29);
    schedule(&b);
    const struct plan_act *a = at(&b, act);
    assert_true(a->chance < RISK_LOW);
    assert_true(a->help_sought);
    assert_int_equal(a->help_count, 3);
    const struct act_help *person = help_of(a, HELP_PERSON);
    assert_non_null(person);
    assert_int_equal(person->end, HELP_ENOUGH);
    assert_true(person->chance > 0.99); /* 56 h */
    const struct act_help *next = help_of(a, HELP_NEXT_SEASON);
    assert_non_null(next);
    assert_int_equal(next->from.day, on(2027, 10, 10).day);
    /* Oct 10 is a Sunday, and seven weeks follow: 56 h and more. */
    assert_true(next->chance > 0.99);
    /* There is nothing before it: that it is told last, as what is not enough. */
    assert_int_equal(a->helps[2].kind, HELP_SOONER);
    assert_int_equal(a->helps[2].end, HELP_SHORT);
    assert_float_equal(a->helps[2].chance, a->chance, 0.01);
    assert_true(a->helps[0].chance >= a->helps[1].chance);
    bench_close(&b);
}

static void a_place_before_other_work_helps(void **state)
{
    (void)state;
    struct bench b;
    open_small(&b);
    uint32_t any_time = bench_act(&b, "any time", 14);
    uint32_t act = uncertain(&b, "pressed", 10, 13, 18, 1);
    b.plan->acts[act].open = window(11, 2, 11, 29);
    schedule(&b);
    assert_int_equal(at(&b, any_time)->state, ACT_PLACED);
    const struct plan_act *a = at(&b, act);
    assert_true(a->chance < RISK_LOW);
    const struct act_help *sooner = help_of(a, HELP_SOONER);
    assert_non_null(sooner);
    assert_true(sooner->chance > 0.98); /* all four weeks for it */
    assert_int_equal(sooner->from.day, on(2026, 11, 2).day);
    bench_close(&b);
}

static void a_deadline_leaves_no_next_season(void **state)
{
    (void)state;
    struct bench b;
    open_small(&b);
    uint32_t act = uncertain(&b, "a", 16, 26, 60, 1);
    b.plan->acts[act].has_latest = true;
    b.plan->acts[act].latest = on(2026, 11, 29);
    schedule(&b);
    const struct plan_act *a = at(&b, act);
    assert_true(a->chance < RISK_LOW && a->help_sought);
    assert_non_null(help_of(a, HELP_PERSON));
    assert_null(help_of(a, HELP_NEXT_SEASON));
    bench_close(&b);
}

/* A share of so many draws: off by four standard errors once in 16,000 times. */
static void is_near(double share, double chance, int draws)
{
    double off = fabs(share - chance);
    if (off > 4 * sqrt(chance * (1 - chance) / draws))
        fail_msg("%g of %d draws, not %g", share, draws, chance);
}

/* A chance of `chance` in every week, or in those of a month alone. */
static void wait_for(struct bench *b, uint32_t act, const char *name, int month,
                     double chance)
{
    double chances[12] = { 0 };
    for (int m = 0; m < 12; m++)
        chances[m] = month == 0 || m == month - 1 ? chance : 0;
    b->plan->acts[act].condition = (int)plan_add_condition(b->plan, name, chances);
}

static void the_chance_is_that_of_the_ground(void **state)
{
    (void)state;
    struct bench b;
    open_small(&b);
    /* Four weeks from Monday Nov 2 on, one of them enough; then two of them. */
    uint32_t one = bench_act(&b, "a", 7);
    b.plan->acts[one].open = window(11, 2, 11, 29);
    wait_for(&b, one, "frozen", 0, 0.4);
    schedule(&b);
    is_near(at(&b, one)->chance, 1 - pow(0.6, 4), 512);
    assert_false(at(&b, one)->chance_or_more);
    bench_close(&b);

    open_small(&b);
    uint32_t two = bench_act(&b, "a", 14);
    b.plan->acts[two].open = window(11, 2, 11, 29);
    wait_for(&b, two, "frozen", 0, 0.4);
    schedule(&b);
    double chance = 1 - pow(0.6, 4) - 4 * 0.4 * pow(0.6, 3);
    is_near(at(&b, two)->chance, chance, 512);
    assert_true(at(&b, two)->help_sought);
    bench_close(&b);
}

static void ground_that_is_nearly_always_fit_is_not_drawn(void **state)
{
    (void)state;
    struct bench b;
    open_small(&b);
    uint32_t act = bench_act(&b, "a", 7);
    b.plan->acts[act].open = window(11, 2, 11, 29);
    wait_for(&b, act, "frozen", 0, 0.85); /* 1 - 0.15 ^ 4 is 0.9995 */
    schedule(&b);
    assert_true(at(&b, act)->chance == RISK_SURE);
    assert_true(at(&b, act)->chance_or_more);
    bench_close(&b);
}

/* Ground and hours: fit in k weeks of four with the chance of that, and 7 h in each. */
static void hours_and_ground_are_drawn_together(void **state)
{
    (void)state;
    struct bench b;
    open_small(&b);
    uint32_t act = uncertain(&b, "a", 6, 12, 18, 1);
    b.plan->acts[act].open = window(11, 2, 11, 29);
    wait_for(&b, act, "frozen", 0, 0.7);
    schedule(&b);
    static const double ways[] = { 1, 4, 6, 4, 1 };
    double sigma = 6 / 1.2815515655446004, chance = 0;
    for (int k = 1; k <= 4; k++)
        chance +=
            ways[k] * pow(0.7, k) * pow(0.3, 4 - k) * normal_below((7 * k - 12) / sigma);
    is_near(at(&b, act)->chance, chance, 512);
    bench_close(&b);
}

static void what_fails_for_its_ground_gives_way_to_its_stand_in(void **state)
{
    (void)state;
    struct bench b;
    open_small(&b);
    /* The stand-in takes the crew's hours of December: what waits there may then be late. */
    uint32_t alder = bench_act(&b, "alder", 7), oak = bench_act(&b, "oak", 21),
             last = bench_act(&b, "last", 14);
    b.plan->acts[alder].open = window(11, 2, 11, 15);
    b.plan->acts[alder].fallback = oak;
    b.plan->acts[oak].fallback_of = alder;
    b.plan->acts[oak].open = window(12, 7, 12, 27);
    b.plan->acts[last].open = window(12, 7, 12, 27);
    wait_for(&b, alder, "frozen", 0, 0.5);
    schedule(&b);
    assert_int_equal(at(&b, oak)->state, ACT_NOT_NEEDED);
    is_near(at(&b, alder)->chance, 0.75, 512);
    assert_true(at(&b, last)->chance == at(&b, alder)->chance);
    bench_close(&b);
}

/* It counts only where it is needed: where the other takes too long. */
static void the_chance_of_a_stand_in_is_that_where_it_is_needed(void **state)
{
    (void)state;
    struct bench b;
    open_small(&b);
    uint32_t alder = uncertain(&b, "alder", 10, 15, 20, 1),
             oak = uncertain(&b, "oak", 10, 12, 16, 2);
    b.plan->acts[alder].has_latest = true; /* two weeks, 14 h: it does not fit as likely */
    b.plan->acts[alder].latest = on(2026, 11, 15);
    b.plan->acts[alder].fallback = oak;
    b.plan->acts[oak].fallback_of = alder;
    b.plan->acts[oak].open = window(11, 16, 11, 29);
    schedule(&b);
    const struct plan_act *a = at(&b, oak);
    assert_int_equal(at(&b, alder)->state, ACT_UNPLACED);
    /* Below its middle its tenth percentile is 2 h off, above 4 h: 14 h is the middle of
     * that half. The two are independent. */
    double sigma = 4 / 1.2815515655446004;
    is_near(a->chance, normal_below(2 / sigma), 300);
    /* A person more, and the alder fits. */
    const struct act_help *person = help_of(a, HELP_PERSON);
    assert_non_null(person);
    assert_int_equal(person->end, HELP_NOT_NEEDED);
    assert_int_equal(a->helps[0].kind, HELP_PERSON);
    bench_close(&b);
}

static void a_person_more_in_the_crew_that_it_waits_for_helps(void **state)
{
    (void)state;
    struct bench b;
    open_small(&b);
    uint32_t sawyers = plan_add_crew(b.plan, "sawyers");
    b.plan->crews[sawyers].people = 1;
    b.plan->crews[sawyers].hours_each_week = 7;
    b.plan->crews[sawyers].off = yearly_none();
    struct qty q = range(&b, 10, 18, 28, 1);
    uint32_t fell = plan_add_act(b.plan, "fell", "job", PLAN_NONE, SPAN_NONE);
    plan_set_figure(b.plan, &b.plan->acts[fell].figures, "hours", "hours", q);
    plan_add_able(b.plan, fell, sawyers);
    graph_release(b.graph, q);
    uint32_t piles = bench_act(&b, "piles", 5);
    plan_add_link(b.plan, piles, (struct link){ fell, 0, -1 });
    b.plan->acts[piles].has_latest = true;
    b.plan->acts[piles].latest = on(2026, 11, 22);
    schedule(&b);
    const struct plan_act *a = at(&b, piles);
    assert_int_equal(a->state, ACT_PLACED);
    assert_true(a->chance < RISK_LOW);
    assert_int_equal(a->helps[0].kind, HELP_PERSON);
    assert_int_equal(a->helps[0].crew, sawyers);
    assert_int_equal(a->helps[0].end, HELP_ENOUGH);
    /* One more in its own crew is no help, and told; last of all. */
    assert_int_equal(a->help_count, 3);
    for (size_t i = 1; i < a->help_count; i++)
        assert_int_equal(a->helps[i].end, HELP_SHORT);
    bench_close(&b);
}

static void a_stated_date_needs_its_ground_that_day(void **state)
{
    (void)state;
    struct bench b;
    open_small(&b);
    uint32_t act = bench_act(&b, "a", 7);
    b.plan->acts[act].has_fixed = true;
    b.plan->acts[act].fixed = on(2026, 11, 10);
    wait_for(&b, act, "dry", 0, 0.3);
    schedule(&b);
    is_near(at(&b, act)->chance, 0.3, 512);
    assert_true(at(&b, act)->help_sought);
    assert_null(help_of(at(&b, act), HELP_SOONER));
    assert_null(help_of(at(&b, act), HELP_NEXT_SEASON));
    bench_close(&b);
}

static void a_stated_date_that_is_closed_has_no_season_to_keep(void **state)
{
    (void)state;
    struct bench b;
    open_small(&b);
    uint32_t act = uncertain(&b, "a", 10, 15, 20, 1);
    b.plan->acts[act].open = window(12, 1, 12, 31);
    b.plan->acts[act].has_fixed = true;
    b.plan->acts[act].fixed = on(2026, 11, 10);
    schedule(&b);
    assert_int_equal(at(&b, act)->state, ACT_PLACED);
    assert_true(at(&b, act)->chance < 0);
    assert_false(at(&b, act)->help_sought);
    bench_close(&b);
}

static void none_of_three_may_help(void **state)
{
    (void)state;
    struct bench b;
    open_small(&b);
    uint32_t act = bench_act(&b, "a", 28);
    b.plan->acts[act].open = window(11, 2, 11, 29);
    wait_for(&b, act, "frozen", 0, 0.4);
    schedule(&b);
    const struct plan_act *a = at(&b, act);
    assert_true(a->help_sought);
    assert_int_equal(a->help_count, 3);
    for (size_t i = 0; i < 3; i++) {
        assert_true(a->helps[i].end == HELP_SHORT || a->helps[i].end == HELP_NOWHERE);
        assert_true(i == 0 || a->helps[i].chance <= a->helps[i - 1].chance);
    }
    /* Two people need two weeks of the four. */
    double chance = 1 - pow(0.6, 4) - 4 * 0.4 * pow(0.6, 3);
    assert_int_equal(a->helps[0].kind, HELP_PERSON);
    is_near(a->helps[0].chance, chance, 128);
    bench_close(&b);
}

static void the_same_plan_has_the_same_chances(void **state)
{
    (void)state;
    double chance[2];
    for (int i = 0; i < 2; i++) {
        struct bench b;
        open_small(&b);
        uint32_t last = 0;
        for (uint32_t k = 0; k < 6; k++)
            last = uncertain(&b, "a", 3, 4 + k % 3, 9, k + 1);
        for (uint32_t k = 0; k <= last; k++)
            b.plan->acts[k].open = window(11, 2, 12, 6);
        schedule(&b);
        chance[i] = at(&b, last)->chance;
        bench_close(&b);
    }
    assert_true(chance[0] == chance[1]);
    assert_true(chance[0] > 0 && chance[0] < 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(certain_hours_are_sure),
        cmocka_unit_test(what_fits_with_all_at_their_high_ends_is_not_drawn),
        cmocka_unit_test(the_chance_is_that_of_the_hours),
        cmocka_unit_test(acts_of_one_cause_rise_and_fall_together),
        cmocka_unit_test(float_counts_the_weeks_to_the_end_of_the_season),
        cmocka_unit_test(one_more_person_and_the_next_season_help),
        cmocka_unit_test(a_place_before_other_work_helps),
        cmocka_unit_test(a_deadline_leaves_no_next_season),
        cmocka_unit_test(the_chance_is_that_of_the_ground),
        cmocka_unit_test(ground_that_is_nearly_always_fit_is_not_drawn),
        cmocka_unit_test(hours_and_ground_are_drawn_together),
        cmocka_unit_test(what_fails_for_its_ground_gives_way_to_its_stand_in),
        cmocka_unit_test(the_chance_of_a_stand_in_is_that_where_it_is_needed),
        cmocka_unit_test(a_person_more_in_the_crew_that_it_waits_for_helps),
        cmocka_unit_test(a_stated_date_needs_its_ground_that_day),
        cmocka_unit_test(a_stated_date_that_is_closed_has_no_season_to_keep),
        cmocka_unit_test(none_of_three_may_help),
        cmocka_unit_test(the_same_plan_has_the_same_chances),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

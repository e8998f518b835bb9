/* Weeks of ground and weather that are drawn: their shares against the closed form of the
 * chance, what they do to a schedule against weeks counted out one by one. */
#include "schedule_random.h"

#include <math.h>

#include "work/schedule_again.h"

#ifdef __SANITIZE_ADDRESS__ /* which takes its time */
enum { DRAWS = 512, WEEKS = 60 };
#else
enum { DRAWS = 2048, WEEKS = 60 };
#endif

static struct schedule_condition conditions[2];
static double hours[MOST_JOBS];

/* One person, 7 h a week, from Monday Nov 2 2026 on. */
static void begin(const char *name, double chance)
{
    static struct schedule_crew owner = { .name = "owner", .people = 1, .hours_each = 7 };
    struct fault f = { 0 };
    owner.off = yearly_none();
    task = (struct schedule_task){ .jobs = jobs,
                                   .crews = &owner,
                                   .crew_count = 1,
                                   .conditions = conditions,
                                   .condition_count = 2 };
    assert_true(date_make(2026, 11, 2, &task.start, &f));
    for (int c = 0; c < 2; c++)
        conditions[c] = (struct schedule_condition){ .words = c == 0 ? name : "another" };
    for (int m = 0; m < 12; m++)
        conditions[0].chance[m] = conditions[1].chance[m] = chance;
}

/* On the days from the plan's start on. */
static struct schedule_job *add(double person_hours, int from, int to)
{
    size_t i = task.job_count++;
    snprintf(names[i], sizeof names[i], "job %d", (int)i);
    openings[i] = (struct schedule_span){ from_start(from), from_start(to) };
    jobs[i] = (struct schedule_job){ .name = names[i],
                                     .hours = person_hours,
                                     .open = yearly_none(),
                                     .openings = &openings[i],
                                     .opening_count = 1,
                                     .has_condition = true };
    hours[i] = person_hours;
    return &jobs[i];
}

/* The plan solved, placed again as planned, and its seasons kept. */
static struct schedule_again *settled(struct schedule **s)
{
    struct fault f = { 0 };
    *s = solve_and_check(0);
    struct schedule_again *a = schedule_again_new(&task, *s, &f);
    assert_non_null(a);
    assert_true(schedule_again(a, hours, &f));
    assert_true(schedule_again_settle(a, &f));
    return a;
}

static void run(struct schedule_again *a, size_t draw)
{
    struct fault f = { 0 };
    schedule_again_ground(a, SCHEDULE_GROUND_DRAWN, draw);
    assert_true(schedule_again(a, hours, &f));
}

static bool done(const struct schedule_again *a, size_t job)
{
    return schedule_again_of(a, job).placed;
}

static void is_near(double share, double chance, int draws)
{
    if (fabs(share - chance) > 4 * sqrt(chance * (1 - chance) / draws))
        fail_msg("%g of %d draws, not %g", share, draws, chance);
}

static double share_done(size_t job)
{
    struct schedule *s;
    struct schedule_again *a = settled(&s);
    int kept = 0;
    for (size_t k = 0; k < DRAWS; k++) {
        run(a, k);
        kept += done(a, job);
    }
    schedule_again_free(a);
    schedule_free(s);
    return (double)kept / DRAWS;
}

static void one_week_of_many_is_enough(void **state)
{
    (void)state;
    for (int n = 1; n <= 8; n++) {
        for (int tenths = 1; tenths < 10; tenths += 2) {
            begin("frozen", tenths / 10.0);
            add(7, 0, 7 * n - 1);
            is_near(share_done(0), 1 - pow(1 - tenths / 10.0, n), DRAWS);
        }
    }
}

/* Of each 128 draws exactly that share is fit in any one week; and in two weeks together
 * as many as chance would have. */
static void draws_share_out_the_chance_of_a_week(void **state)
{
    (void)state;
    int both = 0, all = 0;
    for (int part = 1; part < SCHEDULE_GROUND_EVEN; part += 18) {
        struct schedule *s;
        begin("frozen", (double)part / SCHEDULE_GROUND_EVEN);
        for (int week = 0; week < 5; week++)
            add(7, 7 * week, 7 * week + 6);
        struct schedule_again *a = settled(&s);
        for (size_t from = 0; from < 4 * SCHEDULE_GROUND_EVEN;
             from += SCHEDULE_GROUND_EVEN) {
            int fit[5] = { 0 };
            for (size_t k = 0; k < SCHEDULE_GROUND_EVEN; k++) {
                run(a, from + k);
                for (size_t week = 0; week < 5; week++)
                    fit[week] += done(a, week);
                both += part == 55 && done(a, 0) && done(a, 3);
                all += part == 55;
            }
            for (int week = 0; week < 5; week++)
                assert_int_equal(fit[week], part);
        }
        schedule_again_free(a);
        schedule_free(s);
    }
    is_near((double)both / all, pow(55.0 / SCHEDULE_GROUND_EVEN, 2), all);
}

/* At least m of n weeks: the binomial's tail. */
static void several_weeks_of_many(void **state)
{
    (void)state;
    enum { N = 6 };
    static const double ways[N + 1] = { 1, 6, 15, 20, 15, 6, 1 };
    for (int m = 1; m <= N; m++) {
        double chance = 0;
        for (int k = m; k <= N; k++)
            chance += ways[k] * pow(0.6, k) * pow(0.4, N - k);
        begin("frozen", 0.6);
        add(7 * m, 0, 7 * N - 1);
        is_near(share_done(0), chance, DRAWS);
    }
}

/* The week from Monday Nov 30 has one day of November, six of December. */
static void a_week_over_two_months_goes_by_its_days(void **state)
{
    (void)state;
    static const double wanted[] = { 0.3, 0.8 };
    for (int days = 1; days <= 2; days++) {
        begin("frozen", 0);
        conditions[0].chance[10] = 0.3;
        conditions[0].chance[11] = 0.8;
        add(1, 28, 27 + days);
        is_near(share_done(0), wanted[days - 1], DRAWS);
    }
}

static void who_waits_for_the_same_has_the_same_weeks(void **state)
{
    (void)state;
    struct schedule *s;
    int both = 0, first = 0, other = 0;
    begin("frozen", 0.5);
    add(2, 0, 6);
    add(2, 0, 6);
    add(2, 0, 6)->condition = 1;
    struct schedule_again *a = settled(&s);
    for (size_t k = 0; k < DRAWS; k++) {
        run(a, k);
        assert_int_equal(done(a, 0), done(a, 1));
        first += done(a, 0);
        other += done(a, 2);
        both += done(a, 0) && done(a, 2);
    }
    is_near((double)first / DRAWS, 0.5, DRAWS);
    is_near((double)other / DRAWS, 0.5, DRAWS);
    is_near((double)both / DRAWS, 0.25, DRAWS); /* conditions are independent */
    schedule_again_free(a);
    schedule_free(s);
}

/* Which weeks are fit in a draw, asked by a plan of one job a week. */
static void ask_weeks(bool (*fit)[WEEKS], size_t draws)
{
    struct schedule *s;
    task.job_count = 0;
    for (int week = 0; week < WEEKS; week++) {
        struct schedule_job *j = add(0, 7 * week, 7 * week);
        j->who = SCHEDULE_NOBODY;
        j->days = 1;
    }
    struct schedule_again *a = settled(&s);
    for (size_t k = 0; k < draws; k++) {
        run(a, k);
        for (size_t week = 0; week < WEEKS; week++)
            fit[k][week] = done(a, week);
    }
    schedule_again_free(a);
    schedule_free(s);
}

/* Two jobs, one after the other, each of whole weeks: on the fit weeks counted out. */
static void work_goes_on_in_the_weeks_that_are_fit(void **state)
{
    (void)state;
    enum { SEEN = 64 };
    static bool fit[SEEN][WEEKS];
    static const struct schedule_after after = { .job = 0, .least = 0, .most = -1 };
    int placed = 0, longest = 0;
    for (int tenths = 2; tenths < 10; tenths++) {
        begin("dry", tenths / 10.0);
        ask_weeks(fit, SEEN);
        for (int weeks = 1; weeks <= 4; weeks++) {
            struct schedule *s;
            task.job_count = 0;
            add(7 * weeks, 0, 7 * WEEKS - 1);
            add(14, 0, 7 * WEEKS - 1)->after = &after;
            jobs[1].after_count = 1;
            struct schedule_again *a = settled(&s);
            for (size_t k = 0; k < SEEN; k++) {
                int last[2] = { -1, -1 }, left = weeks, job = 0;
                for (int week = 0; week < WEEKS && job < 2; week++) {
                    if (!fit[k][week])
                        continue;
                    if (last[job] >= 0 && week - last[job] > longest)
                        longest = week - last[job];
                    left--;
                    last[job] = week;
                    if (left == 0) {
                        job++;
                        left = 2;
                    }
                }
                run(a, k);
                assert_int_equal(done(a, 0), job > 0);
                assert_int_equal(done(a, 1), job > 1);
                for (int i = 0; i < job; i++) {
                    struct date finish = schedule_again_of(a, (size_t)i).finish;
                    assert_int_equal((finish.day - task.start.day) / 7, last[i]);
                    assert_false(schedule_again_of(a, (size_t)i).carried_over);
                    placed++;
                }
            }
            schedule_again_free(a);
            schedule_free(s);
        }
    }
    assert_true(placed > 2000);
    assert_true(longest * 7 > SCHEDULE_PAUSE + 7); /* waiting for ground is no pause */
}

static void a_stand_in_is_done_when_the_ground_fails(void **state)
{
    (void)state;
    struct schedule *s;
    int kept = 0;
    begin("frozen", 0.4);
    struct schedule_job *alder = add(7, 0, 13), *oak = add(7, 21, 60);
    alder->open = yearly_of((struct window){ { 11, 2 }, { 11, 15 } });
    alder->has_otherwise = true;
    alder->otherwise = 1;
    oak->has_condition = false;
    struct schedule_again *a = settled(&s);
    for (size_t k = 0; k < DRAWS; k++) {
        run(a, k);
        assert_int_equal(done(a, 1), !done(a, 0));
        kept += done(a, 0);
    }
    is_near((double)kept / DRAWS, 1 - 0.6 * 0.6, DRAWS);
    schedule_again_free(a);
    schedule_free(s);
    /* Without a stand-in it is carried into a later season. */
    alder->has_otherwise = false;
    a = settled(&s);
    int later = 0;
    for (size_t k = 0; k < 256; k++) {
        run(a, k);
        assert_true(done(a, 0) && done(a, 1));
        later += schedule_again_of(a, 0).finish.day > from_start(60).day;
    }
    is_near(later / 256.0, 0.6 * 0.6, 256);
    schedule_again_free(a);
    schedule_free(s);
}

static void a_stated_date_is_told_when_the_ground_is_not_fit(void **state)
{
    (void)state;
    struct schedule *s;
    int unfit = 0;
    begin("frozen", 0.3);
    add(7, 0, 60)->fixed = (struct schedule_day_given){ true, from_start(8) };
    struct schedule_again *a = settled(&s);
    for (size_t k = 0; k < DRAWS; k++) {
        run(a, k);
        assert_int_equal(schedule_again_of(a, 0).start.day, from_start(8).day);
        unfit += schedule_again_of(a, 0).unfit;
    }
    is_near((double)unfit / DRAWS, 0.7, DRAWS);
    schedule_again_free(a);
    schedule_free(s);
}

/* As planned again after other ground; the same draw twice; of any plan. */
static void ground_leaves_nothing_behind(void **state)
{
    (void)state;
    struct fault f = { 0 };
    int moved = 0;
    random_state = 71;
    for (int round = 0; round < 400; round++) {
        struct schedule_again_of drawn[MOST_JOBS];
        make_task(1 + below(20), round % 4 == 0);
        for (size_t i = 0; i < task.job_count; i++)
            hours[i] = jobs[i].hours;
        struct schedule *s;
        struct schedule_again *a = settled(&s);
        run(a, 3);
        for (size_t i = 0; i < task.job_count; i++)
            drawn[i] = schedule_again_of(a, i);
        schedule_again_ground(a, SCHEDULE_GROUND_HARSH, 0);
        assert_true(schedule_again(a, hours, &f));
        schedule_again_ground(a, SCHEDULE_GROUND_PLANNED, 0);
        assert_true(schedule_again(a, hours, &f));
        for (size_t i = 0; i < task.job_count; i++) {
            const struct schedule_result *r = schedule_of(s, i);
            struct schedule_again_of o = schedule_again_of(a, i);
            assert_int_equal(o.placed, r->state == SCHEDULE_PLACED);
            if (o.placed) {
                assert_int_equal(o.start.day, r->start.day);
                assert_int_equal(o.finish.day, r->finish.day);
                moved += drawn[i].finish.day != o.finish.day;
            }
        }
        run(a, 3);
        for (size_t i = 0; i < task.job_count; i++) {
            struct schedule_again_of o = schedule_again_of(a, i);
            assert_int_equal(o.placed, drawn[i].placed);
            assert_int_equal(o.finish.day, drawn[i].finish.day);
        }
        schedule_again_free(a);
        schedule_free(s);
    }
    assert_true(moved > 60);
}

/* What is finished in time on harsh ground is so in nearly all draws. */
static void harsh_ground_is_rarely_beaten(void **state)
{
    (void)state;
    struct fault f = { 0 };
    int sure = 0, late = 0;
    for (int n = 1; n <= 24; n++) {
        for (int weeks = 1; weeks <= 3; weeks++) {
            for (int tenths = 2; tenths < 10; tenths++) {
                struct schedule *s;
                begin("frozen", tenths / 10.0);
                add(7 * weeks, 0, 7 * n - 1);
                struct schedule_again *a = settled(&s);
                schedule_again_ground(a, SCHEDULE_GROUND_HARSH, 0);
                assert_true(schedule_again(a, hours, &f));
                for (size_t k = 0; done(a, 0) && k < 256; k++) {
                    run(a, k);
                    sure++;
                    late += !done(a, 0);
                    schedule_again_ground(a, SCHEDULE_GROUND_HARSH, 0);
                    assert_true(schedule_again(a, hours, &f));
                }
                schedule_again_free(a);
                schedule_free(s);
            }
        }
    }
    assert_true(sure > 256 * 50);
    assert_true(late * 500 < sure);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_week_of_many_is_enough),
        cmocka_unit_test(draws_share_out_the_chance_of_a_week),
        cmocka_unit_test(several_weeks_of_many),
        cmocka_unit_test(a_week_over_two_months_goes_by_its_days),
        cmocka_unit_test(who_waits_for_the_same_has_the_same_weeks),
        cmocka_unit_test(work_goes_on_in_the_weeks_that_are_fit),
        cmocka_unit_test(a_stand_in_is_done_when_the_ground_fails),
        cmocka_unit_test(a_stated_date_is_told_when_the_ground_is_not_fit),
        cmocka_unit_test(ground_leaves_nothing_behind),
        cmocka_unit_test(harsh_ground_is_rarely_beaten),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

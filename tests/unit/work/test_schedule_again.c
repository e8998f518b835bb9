/* The same schedule with other hours. */
#include "schedule_random.h"

#include "work/schedule_again.h"

static double hours[MOST_JOBS];

static struct schedule_again *again(const struct schedule *s)
{
    struct fault f = { 0 };
    struct schedule_again *a = schedule_again_new(&task, s, &f);
    assert_non_null(a);
    return a;
}

static void run(struct schedule_again *a)
{
    struct fault f = { 0 };
    assert_true(schedule_again(a, hours, &f));
}

static void the_same_hours_give_the_same_schedule(void **state)
{
    (void)state;
    size_t placed = 0;
    random_state = 41;
    for (int round = 0; round < 400; round++) {
        make_task(1 + below(20), round % 4 == 0);
        task.tries = (size_t)(1 + below(20));
        struct schedule *s = solve_and_check(round);
        struct schedule_again *a = again(s);
        for (int twice = 0; twice < 2; twice++) {
            for (size_t i = 0; i < task.job_count; i++)
                hours[i] = jobs[i].hours * 1.5 + 1;
            run(a); /* leaves nothing behind */
            for (size_t i = 0; i < task.job_count; i++)
                hours[i] = jobs[i].hours;
            run(a);
            for (size_t i = 0; i < task.job_count; i++) {
                const struct schedule_result *r = schedule_of(s, i);
                struct schedule_again_of o = schedule_again_of(a, i);
                assert_int_equal(o.placed, r->state == SCHEDULE_PLACED);
                if (!o.placed)
                    continue;
                assert_int_equal(o.start.day, r->start.day);
                assert_int_equal(o.finish.day, r->finish.day);
                assert_int_equal(o.carried_over, r->carried_over);
                if (r->season_ends && !jobs[i].done)
                    assert_int_equal(schedule_again_season(a, i).day, r->season_last.day);
                placed++;
            }
        }
        schedule_again_free(a);
        schedule_free(s);
    }
    assert_true(placed > 1500);
}

static void simple_jobs(size_t count)
{
    static struct schedule_crew owner = { .name = "owner",
                                          .people = 1,
                                          .hours_each = 10 };
    struct fault f = { 0 };
    owner.off = yearly_none();
    task = (struct schedule_task){
        .jobs = jobs, .job_count = count, .crews = &owner, .crew_count = 1
    };
    assert_true(date_make(2026, 11, 2, &task.start, &f)); /* a Monday */
    for (size_t i = 0; i < count; i++) {
        snprintf(names[i], sizeof names[i], "job %d", (int)i);
        jobs[i] =
            (struct schedule_job){ .name = names[i], .open = yearly_all(), .hours = 10 };
        hours[i] = 10;
    }
}

static void longer_work_pushes_what_comes_later(void **state)
{
    (void)state;
    simple_jobs(3);
    struct schedule *s = solve_and_check(0);
    struct schedule_again *a = again(s);
    hours[0] = 25;
    run(a);
    assert_int_equal(schedule_again_of(a, 0).finish.day, task.start.day + 14);
    assert_int_equal(schedule_again_of(a, 1).start.day, task.start.day + 14);
    assert_int_equal(schedule_again_of(a, 2).start.day, task.start.day + 21);
    schedule_again_prefer(a, 2);
    run(a);
    assert_int_equal(schedule_again_of(a, 2).start.day, task.start.day);
    assert_int_equal(schedule_again_of(a, 0).start.day, task.start.day + 7);
    schedule_again_free(a);
    schedule_free(s);
}

static void what_is_preferred_takes_along_what_it_waits_for(void **state)
{
    (void)state;
    static const struct schedule_after after = { .job = 1, .least = 0, .most = -1 };
    simple_jobs(3);
    jobs[2].after = &after;
    jobs[2].after_count = 1;
    struct schedule *s = solve_and_check(0);
    struct schedule_again *a = again(s);
    schedule_again_prefer(a, 2);
    run(a);
    assert_int_equal(schedule_again_of(a, 1).start.day, task.start.day);
    assert_int_equal(schedule_again_of(a, 2).start.day, task.start.day + 7);
    assert_int_equal(schedule_again_of(a, 0).start.day, task.start.day + 14);
    schedule_again_free(a);
    schedule_free(s);
}

static void what_no_longer_fits_is_not_placed(void **state)
{
    (void)state;
    simple_jobs(2);
    jobs[1].latest = (struct schedule_day_given){ true, from_start(13) };
    struct schedule *s = solve_and_check(0);
    struct schedule_again *a = again(s);
    run(a);
    assert_true(schedule_again_of(a, 1).placed);
    assert_int_equal(schedule_again_season(a, 1).day, task.start.day + 13);
    hours[0] = 30;
    run(a);
    assert_false(schedule_again_of(a, 1).placed);
    schedule_again_free(a);
    schedule_free(s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_same_hours_give_the_same_schedule),
        cmocka_unit_test(longer_work_pushes_what_comes_later),
        cmocka_unit_test(what_is_preferred_takes_along_what_it_waits_for),
        cmocka_unit_test(what_no_longer_fits_is_not_placed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

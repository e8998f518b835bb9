/* schedule_fixture.h: a plan of up to eight jobs and two crews, solved and checked.
 *
 *     jobs[0].hours = 10;
 *     runs(solve(1), "2026-11-02", "2026-11-02");
 */
#ifndef SPINNEY_TESTS_WORK_SCHEDULE_FIXTURE_H
#define SPINNEY_TESTS_WORK_SCHEDULE_FIXTURE_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/buf.h"
#include "base/fault.h"
#include "work/schedule.h"

static inline struct date day_of(int year, int month, int day)
{
    struct date d = { 0 };
    struct fault f = { 0 };
    assert_true(date_make(year, month, day, &d, &f));
    return d;
}

static inline struct schedule_day_given given(int year, int month, int day)
{
    return (struct schedule_day_given){ true, day_of(year, month, day) };
}

static inline struct yearly days_of(int m1, int d1, int m2, int d2)
{
    struct window w = { { (int8_t)m1, (int8_t)d1 }, { (int8_t)m2, (int8_t)d2 } };
    return yearly_of(w);
}

/* The owner and a neighbour, twenty hours a week between them; a hired crew of two. */
enum { OWNER, HIRED };
static struct schedule_crew crews[2];
static struct schedule_job jobs[8];
static struct schedule_task task;
static struct schedule *plan;

static int fresh(void **state)
{
    (void)state;
    crews[OWNER] = (struct schedule_crew){ .name = "owner",
                                           .people = 2,
                                           .hours_each = 10,
                                           .from = given(2026, 11, 2),
                                           .off = yearly_none() };
    crews[HIRED] = (struct schedule_crew){
        .name = "hired", .people = 2, .hours_each = 40, .off = yearly_none()
    };
    for (size_t i = 0; i < 8; i++) {
        static const char *const names[] = { "a", "b", "c", "d", "e", "f", "g", "h" };
        jobs[i] =
            (struct schedule_job){ .name = names[i], .open = yearly_all(), .days = 1 };
    }
    /* Oct 14 2026 is a Wednesday. */
    task = (struct schedule_task){ .start = day_of(2026, 10, 14),
                                   .jobs = jobs,
                                   .crews = crews,
                                   .crew_count = 1,
                                   .job_count = 1 };
    plan = NULL;
    return 0;
}

static int tidy(void **state)
{
    (void)state;
    schedule_free(plan);
    plan = NULL;
    return 0;
}

static inline const struct schedule_result *solve(size_t job_count)
{
    struct fault f = { 0 };
    task.job_count = job_count;
    schedule_free(plan);
    plan = schedule_new(&task, &f);
    assert_non_null(plan);
    struct buf breach;
    buf_init(&breach);
    bool fine = schedule_check(&task, plan, &breach);
    if (!fine)
        print_error("%s\n", breach.data);
    buf_clear(&breach);
    assert_true(fine);
    return schedule_of(plan, 0);
}

static inline void is_day(struct date d, const char *wanted)
{
    struct buf b;
    buf_init(&b);
    date_print(d, DATE_DATA, &b);
    assert_string_equal(b.data, wanted);
    buf_clear(&b);
}

static inline void runs(const struct schedule_result *r, const char *start,
                        const char *finish)
{
    if (r->reason)
        print_error("%s\n", r->reason);
    assert_int_equal(r->state, SCHEDULE_PLACED);
    is_day(r->start, start);
    is_day(r->finish, finish);
}

static inline void unplaced(size_t job, enum schedule_why why, const char *reason)
{
    const struct schedule_result *r = schedule_of(plan, job);
    assert_int_equal(r->state, SCHEDULE_UNPLACED);
    assert_string_equal(r->reason, reason);
    assert_int_equal(r->why, why);
}

#define EACH(test) cmocka_unit_test_setup_teardown(test, fresh, tidy)

#endif

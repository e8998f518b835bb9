/* Thousands of plans made by chance: every schedule stands before the checker, the first
 * place is the first by trying every day, and the same plan gives the same schedule. */
#include "schedule_random.h"

static void every_schedule_stands_before_the_checker(void **state)
{
    (void)state;
    random_state = 20261014;
    size_t placed = 0, unplaced = 0, not_needed = 0, why[8] = { 0 };
    for (int round = 0; round < 3000; round++) {
        make_task(1 + below(24), round % 4 == 0);
        task.tries = 12;
        struct schedule *s = solve_and_check(round);
        for (size_t i = 0; i < task.job_count; i++) {
            const struct schedule_result *r = schedule_of(s, i);
            placed += r->state == SCHEDULE_PLACED;
            unplaced += r->state == SCHEDULE_UNPLACED;
            not_needed += r->state == SCHEDULE_NOT_NEEDED;
            why[r->why]++;
        }
        schedule_free(s);
    }
    /* The plans made by chance go through every way out. */
    assert_true(placed > 10000 && unplaced > 2000 && not_needed > 200);
    for (int i = 0; i < 8; i++)
        if (why[i] < 20)
            fail_msg("reason %d comes up only %zu times", i, why[i]);
}

static void the_same_plan_gives_the_same_schedule(void **state)
{
    (void)state;
    random_state = 77;
    for (int round = 0; round < 200; round++) {
        make_task(1 + below(24), false);
        task.tries = 50;
        struct schedule *a = solve_and_check(round), *b = solve_and_check(round);
        for (size_t i = 0; i < task.job_count; i++) {
            const struct schedule_result *x = schedule_of(a, i), *y = schedule_of(b, i);
            assert_int_equal(x->state, y->state);
            assert_int_equal(x->start.day, y->start.day);
            assert_int_equal(x->finish.day, y->finish.day);
            assert_int_equal(x->day_count, y->day_count);
            if (x->reason)
                assert_string_equal(x->reason, y->reason);
        }
        schedule_free(a);
        schedule_free(b);
    }
}

/* The definition, by trying every first day in turn: can the only job of a plan, done by
 * the only crew, begin on day `s` and go on without too long a pause? */
static bool can_begin(int s, int longest_pause)
{
    const struct schedule_job *j = &jobs[0];
    const struct schedule_crew *c = &crews[0];
    double left = j->hours, whole = c->people * c->hours_each, week_used = 0;
    double least_out = whole / 2 < 1 ? whole / 2 : 1;
    int last = -1, week = -1, days_left = j->days;
    struct fault f = { 0 };
    struct date end;
    if (!date_add_months(task.start, SCHEDULE_YEARS * 12, &end, &f))
        return false;
    for (int d = s; task.start.day + d <= end.day; d++) {
        struct date day = from_start(d);
        if (j->latest.given && day.day > j->latest.date.day)
            return false;
        bool open = yearly_has(j->open, day) && !yearly_has(c->off, day);
        for (size_t k = 0; k < j->limit_count; k++)
            open = open && !(limits[0][k].dated ? limits[0][k].from.day <= day.day &&
                                                      day.day <= limits[0][k].to.day
                                                : yearly_has(limits[0][k].closed, day));
        if (!open) {
            if (d == s)
                return false;
            continue;
        }
        if (last >= 0 && d - last - 1 > longest_pause)
            return false;
        if (j->hours <= 0) {
            last = d;
            if (--days_left == 0)
                return true;
            continue;
        }
        int monday = date_week_start(day).day, there = 0;
        if (monday != week)
            week_used = 0;
        week = monday;
        for (int k = 0; k < 7; k++)
            there += monday + k >= task.start.day &&
                     !yearly_has(c->off, (struct date){ monday + k });
        double room = whole * there / 7 - week_used;
        double hours = c->people * 10.0 < room ? c->people * 10.0 : room;
        double least = left < least_out ? left : least_out;
        if (hours < least - 1e-9) {
            if (d == s)
                return false;
            continue;
        }
        if (hours > left)
            hours = left;
        left -= hours;
        week_used += hours;
        last = d;
        if (left < 1e-9)
            return true;
    }
    return false;
}

static void one_job_begins_on_the_first_day_that_works(void **state)
{
    (void)state;
    random_state = 12345;
    size_t placed = 0, unplaced = 0;
    for (int round = 0; round < 150; round++) {
        make_task(1, false);
        make_crews(1);
        while (date_civil(task.start).year > 2180)
            task.start.day -= 3653;
        crews[0].from.given = crews[0].to.given = false;
        crews[0].day_off_count = 0;
        struct schedule_job *j = &jobs[0];
        j->who = SCHEDULE_ANY;
        j->in_one_week = j->fixed.given = j->done = j->has_condition = false;
        j->earliest.given = false;
        j->notice_count = j->opening_count = 0;
        struct schedule *s = solve_and_check(round);
        const struct schedule_result *r = schedule_of(s, 0);
        int first = -1;
        for (int pass = 0; pass < 2 && first < 0; pass++)
            for (int d = 0; d < SCHEDULE_YEARS * 366 && first < 0; d++)
                if (can_begin(d, pass == 0 ? SCHEDULE_PAUSE : 10000))
                    first = d;
        if (r->state == SCHEDULE_PLACED ? r->start.day != task.start.day + first
                                        : first >= 0)
            fail_msg("round %d: begins %d, could begin %d", round,
                     (int)(r->start.day - task.start.day), first);
        placed += r->state == SCHEDULE_PLACED;
        unplaced += r->state == SCHEDULE_UNPLACED;
        schedule_free(s);
    }
    assert_true(placed > 80 && unplaced > 8);
}

static void a_wider_window_never_begins_later(void **state)
{
    (void)state;
    random_state = 5;
    for (int round = 0; round < 1000; round++) {
        make_task(1, false);
        jobs[0].fixed.given = jobs[0].done = false;
        jobs[0].notice_count = 0;
        struct schedule *narrow = solve_and_check(round);
        jobs[0].open = yearly_or(jobs[0].open, some_window(6));
        struct schedule *wide = solve_and_check(round);
        const struct schedule_result *a = schedule_of(narrow, 0),
                                     *b = schedule_of(wide, 0);
        if (a->state == SCHEDULE_PLACED && !a->carried_over) {
            assert_int_equal(b->state, SCHEDULE_PLACED);
            assert_true(b->start.day - b->start.day % 7 <=
                        a->start.day - a->start.day % 7);
        }
        schedule_free(narrow);
        schedule_free(wide);
    }
}

/* The checker itself: a schedule held against a plan that asks for more does not stand.
 */
static void the_checker_sees_what_is_wrong(void **state)
{
    (void)state;
    struct fault f = { 0 };
    static const struct schedule_after loose = { .job = 0, .most = -1 };
    static const struct schedule_after tight = { .job = 0, .least = 200, .most = -1 };
    random_state = 1;
    make_task(2, false);
    assert_true(date_make(2026, 10, 14, &task.start, &f));
    make_crews(1);
    crews[0] = (struct schedule_crew){
        .name = "owner", .people = 2, .hours_each = 10, .off = yearly_none()
    };
    for (int i = 0; i < 2; i++)
        jobs[i] =
            (struct schedule_job){ .name = names[i], .open = yearly_all(), .hours = 30 };
    jobs[1].after = &loose;
    jobs[1].after_count = 1;
    struct schedule *s = solve_and_check(0);
    static const struct schedule_notice notice = { .words = "a notice", .lead = 30 };
    static const struct schedule_limit limit = { .words = "closed",
                                                 .closed = { { 0 } },
                                                 .dated = true,
                                                 .from = { 0 },
                                                 .to = { 100000 } };
    static const size_t nobody_listed = 0;
    const struct schedule_job was[2] = { jobs[0], jobs[1] };
    const struct schedule_crew crew_was = crews[0];
    for (int wrong = 0; wrong < 10; wrong++) {
        switch (wrong) {
        case 0: crews[0].hours_each = 9; break;
        case 1: crews[0].from = (struct schedule_day_given){ true, from_start(5) }; break;
        case 2: jobs[0].open = yearly_none(); break;
        case 3: jobs[1].after = &tight; break;
        case 4: jobs[0].hours = 31; break;
        case 5:
            jobs[0].notices = &notice;
            jobs[0].notice_count = 1;
            break;
        case 6:
            jobs[1].latest = (struct schedule_day_given){ true, from_start(3) };
            break;
        case 7:
            jobs[1].limits = &limit;
            jobs[1].limit_count = 1;
            break;
        case 8:
            jobs[0].who = SCHEDULE_LISTED;
            jobs[0].crews = &nobody_listed;
            break;
        default: jobs[0].in_one_week = true; break;
        }
        if (schedule_check(&task, s, NULL))
            fail_msg("wrong %d is not seen", wrong);
        jobs[0] = was[0];
        jobs[1] = was[1];
        crews[0] = crew_was;
        assert_true(schedule_check(&task, s, NULL));
    }
    schedule_free(s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_schedule_stands_before_the_checker),
        cmocka_unit_test(the_same_plan_gives_the_same_schedule),
        cmocka_unit_test(one_job_begins_on_the_first_day_that_works),
        cmocka_unit_test(a_wider_window_never_begins_later),
        cmocka_unit_test(the_checker_sees_what_is_wrong),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

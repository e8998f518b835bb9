/* By how many weeks a job may start later, against plans of whole weeks tried out one
 * arrangement after another, and against days counted out from the definition. */
#include "schedule_random.h"

#include "work/schedule_again.h"

static int floats[MOST_JOBS];
static double hours[MOST_JOBS];

static struct schedule *solve_floats(int round)
{
    struct fault f = { 0 };
    struct schedule *s = solve_and_check(round);
    struct schedule_again *a = schedule_again_new(&task, s, &f);
    assert_non_null(a);
    for (size_t i = 0; i < task.job_count; i++)
        hours[i] = jobs[i].hours;
    for (int twice = 0; twice < 2; twice++) {
        int was[MOST_JOBS];
        memcpy(was, floats, sizeof was);
        assert_true(schedule_again(a, hours, &f));
        assert_true(schedule_again_float(a, floats, &f));
        for (size_t i = 0; i < task.job_count; i++) {
            struct schedule_again_of o = schedule_again_of(a, i);
            const struct schedule_result *r = schedule_of(s, i);
            /* All is back where it was, and comes to the same. */
            assert_int_equal(o.placed, r->state == SCHEDULE_PLACED);
            assert_true(!o.placed || o.start.day == r->start.day);
            assert_true(!o.placed || o.finish.day == r->finish.day);
            assert_true(twice == 0 || floats[i] == was[i]);
        }
    }
    schedule_again_free(a);
    return s;
}

static void odd_plans_come_back_unharmed(void **state)
{
    (void)state;
    int some = 0, endless = 0, none = 0;
    random_state = 5;
    for (int round = 0; round < 200; round++) {
        make_task(1 + below(24), round % 4 == 0);
        struct schedule *s = solve_floats(round);
        for (size_t i = 0; i < task.job_count; i++) {
            const struct schedule_result *r = schedule_of(s, i);
            assert_true(floats[i] >= -1);
            if (r->state != SCHEDULE_PLACED || jobs[i].done) {
                assert_int_equal(floats[i], -1);
                continue;
            }
            some += floats[i] > 0;
            endless += floats[i] < 0;
            none += floats[i] == 0;
            if (floats[i] > 0 && r->season_ends)
                assert_true(r->start.day + 7 * floats[i] <= r->season_last.day);
        }
        schedule_free(s);
    }
    assert_true(some > 250 && endless > 25 && none > 25);
}

/* ---- whole weeks, one after another ---- */

enum { WEEKS = 12, FEW = 6 };

/* A job of whole weeks of one crew's hours, within a season of weeks. */
struct whole {
    int weeks, first, last, after; /* after: a job before it, -1 for none */
    int start, finish;             /* as scheduled */
    bool taken[WEEKS];
};
static struct whole wholes[FEW];

static void make_whole(int count)
{
    static struct schedule_crew owner = { .name = "owner", .people = 1, .hours_each = 7 };
    struct fault f = { 0 };
    owner.off = yearly_none();
    task = (struct schedule_task){
        .jobs = jobs, .job_count = (size_t)count, .crews = &owner, .crew_count = 1
    };
    assert_true(date_make(2026, 11, 2, &task.start, &f));
    for (int i = 0; i < count; i++) {
        struct whole *w = &wholes[i];
        w->weeks = 1 + below(2);
        w->first = below(WEEKS - 3);
        w->last = w->first + w->weeks - 1 + below(WEEKS - w->first - w->weeks + 1);
        w->after = i > 0 && below(2) == 0 ? below(i) : -1;
        snprintf(names[i], sizeof names[i], "job %d", i);
        openings[i] = (struct schedule_span){ from_start(7 * w->first),
                                              from_start(7 * w->last + 6) };
        afters[i][0] = (struct schedule_after){ .least = 1, .most = -1 };
        if (w->after >= 0)
            afters[i][0].job = (size_t)w->after;
        jobs[i] = (struct schedule_job){ .name = names[i],
                                         .hours = 7 * w->weeks,
                                         .open = yearly_none(),
                                         .openings = &openings[i],
                                         .opening_count = 1,
                                         .after = afters[i],
                                         .after_count = w->after >= 0 };
    }
}

static bool waits_for(int job, int other)
{
    for (int before = wholes[job].after; before >= 0; before = wholes[before].after)
        if (before == other)
            return true;
    return false;
}

/* Is there any way to lay the jobs from `job` on that move, each in its season, not before
 * it starts now, in weeks that are free? A job's weeks may lie apart. */
static bool lay_rest(int count, int moved, int job, bool *free, int *finish);

static bool lay_weeks(int count, int moved, int job, bool *free, int *finish, int from,
                      int left)
{
    if (left == 0)
        return lay_rest(count, moved, job + 1, free, finish);
    int last = wholes[job].last;
    bool begun = left < wholes[job].weeks;
    if (begun && from + SCHEDULE_PAUSE / 7 - 1 < last)
        last = from + SCHEDULE_PAUSE / 7 - 1; /* it pauses no longer */
    for (int week = from; week <= last; week++) {
        if (!free[week])
            continue;
        free[week] = false;
        finish[job] = week;
        bool laid = lay_weeks(count, moved, job, free, finish, week + 1, left - 1);
        free[week] = true;
        if (laid)
            return true;
    }
    return false;
}

static bool lay_rest(int count, int moved, int job, bool *free, int *finish)
{
    while (job < count && job != moved && !waits_for(job, moved))
        job++;
    if (job >= count)
        return true;
    int from = job == moved ? finish[job] : wholes[job].start, after = wholes[job].after;
    if (after >= 0 && finish[after] + 1 > from)
        from = finish[after] + 1;
    return lay_weeks(count, moved, job, free, finish, from, wholes[job].weeks);
}

static bool may_be_later(int count, int job, int weeks)
{
    bool free[WEEKS];
    int finish[FEW];
    for (int week = 0; week < WEEKS; week++)
        free[week] = true;
    for (int i = 0; i < count; i++) {
        finish[i] = wholes[i].finish;
        for (int week = 0; week < WEEKS; week++)
            if (i != job && !waits_for(i, job) && wholes[i].taken[week])
                free[week] = false;
    }
    finish[job] = wholes[job].start + weeks; /* from then on */
    return lay_rest(count, job, job, free, finish);
}

/* Are there two that wait for it and not for one another? Then the order in which they are
 * put down matters, and it is the schedule's. */
static bool is_forked(int count, int job)
{
    for (int i = 0; i < count; i++)
        for (int k = 0; k < i; k++)
            if (waits_for(i, job) && waits_for(k, job) && !waits_for(i, k))
                return true;
    return false;
}

static void weeks_tried_one_by_one(void **state)
{
    (void)state;
    int alike = 0, less = 0, later = 0;
    random_state = 1013;
    for (int round = 0; round < 1200; round++) {
        int count = 1 + below(FEW);
        make_whole(count);
        struct schedule *s = solve_floats(round);
        bool all = true;
        for (int i = 0; i < count; i++) {
            const struct schedule_result *r = schedule_of(s, (size_t)i);
            struct whole *w = &wholes[i];
            all = all && r->state == SCHEDULE_PLACED;
            w->start = (r->start.day - task.start.day) / 7;
            w->finish = (r->finish.day - task.start.day) / 7;
            memset(w->taken, 0, sizeof w->taken);
            for (size_t d = 0; all && d < r->day_count; d++)
                w->taken[(r->days[d].day.day - task.start.day) / 7] = true;
        }
        for (int i = 0; all && i < count; i++) {
            int most = 0;
            while (may_be_later(count, i, most + 1))
                most++;
            /* It never promises more than there is. */
            if (floats[i] > most || (floats[i] < most && !is_forked(count, i)))
                fail_msg("round %d: %s may be %d weeks later, told %d", round, names[i],
                         most, floats[i]);
            alike += floats[i] == most;
            less += floats[i] < most;
            later += floats[i] > 0;
        }
        schedule_free(s);
    }
    assert_true(alike > 1200 && later > 200);
    assert_true(less * 50 < alike);
}

/* ---- days, from the definition ---- */

static bool is_open(const struct schedule_job *j, struct date d)
{
    bool open = yearly_has(j->open, d);
    for (size_t i = 0; i < j->limit_count; i++)
        if (j->limits[i].dated
                ? j->limits[i].from.day <= d.day && d.day <= j->limits[i].to.day
                : yearly_has(j->limits[i].closed, d))
            open = false;
    return open;
}

static bool is_there(const struct schedule_crew *c, struct date d)
{
    return d.day >= task.start.day && !yearly_has(c->off, d) &&
           !(c->from.given && d.day < c->from.date.day) &&
           !(c->to.given && d.day > c->to.date.day);
}

/* The hours of a crew in the week of a Monday, and on a day, that others than `but` leave. */
static double week_left(const struct schedule *s, size_t crew, size_t but,
                        struct date monday)
{
    const struct schedule_crew *c = &crews[crew];
    double left = 0;
    for (int i = 0; i < 7; i++)
        if (is_there(c, (struct date){ monday.day + i }))
            left += c->people * c->hours_each / 7;
    for (size_t i = 0; i < task.job_count; i++) {
        const struct schedule_result *r = schedule_of(s, i);
        for (size_t k = 0; i != but && r->crew == crew && k < r->day_count; k++)
            if (date_week_start(r->days[k].day).day == monday.day)
                left -= r->days[k].hours;
    }
    return left;
}

static double day_left(const struct schedule *s, size_t crew, size_t but, struct date day)
{
    double left = crews[crew].people * (double)SCHEDULE_DAY_HOURS;
    for (size_t i = 0; i < task.job_count; i++) {
        const struct schedule_result *r = schedule_of(s, i);
        for (size_t k = 0; i != but && r->crew == crew && k < r->day_count; k++)
            left -= r->days[k].day.day == day.day ? r->days[k].hours : 0;
    }
    return left;
}

/* Hours a job could have had from a day on to the end of its season, pauses aside. */
static double room_from(const struct schedule *s, size_t job, struct date from)
{
    const struct schedule_result *r = schedule_of(s, job);
    double room = 0, week = week_left(s, r->crew, job, date_week_start(from));
    for (struct date d = from; d.day <= r->season_last.day; d.day++) {
        if (date_weekday(d) == 1)
            week = week_left(s, r->crew, job, d);
        if (!is_open(&jobs[job], d) || !is_there(&crews[r->crew], d))
            continue;
        double could = day_left(s, r->crew, job, d);
        could = could < week ? could : week;
        room += could > 0 ? could : 0;
        week -= could > 0 ? could : 0;
    }
    return room;
}

/* Nothing waits for these: what is promised has the room, a week more has not, but for
 * bits under an hour that nobody goes out for, and pauses. */
static void there_is_room_for_what_is_promised(void **state)
{
    (void)state;
    int promised = 0, refused = 0, odd = 0;
    random_state = 77;
    for (int round = 0; round < 150; round++) {
        make_task(2 + below(10), false);
        if (task.crew_count == 0)
            continue;
        for (size_t i = 0; i < task.job_count; i++) {
            jobs[i].has_along = jobs[i].done = jobs[i].in_one_week = false;
            jobs[i].fixed.given = jobs[i].has_condition = false;
            jobs[i].after_count = jobs[i].notice_count = jobs[i].opening_count = 0;
            jobs[i].has_otherwise = false;
        }
        for (size_t c = 0; c < task.crew_count; c++)
            crews[c].day_off_count = 0;
        struct schedule *s = solve_floats(round);
        for (size_t i = 0; i < task.job_count; i++) {
            const struct schedule_result *r = schedule_of(s, i);
            if (r->state != SCHEDULE_PLACED || r->crew == SCHEDULE_NONE ||
                !r->season_ends || r->carried_over || jobs[i].hours == 0)
                continue;
            struct date then = { r->start.day + 7 * floats[i] };
            assert_true(floats[i] >= 0);
            if (room_from(s, i, then) < jobs[i].hours - 1e-6)
                fail_msg("round %d: no room for %s", round, jobs[i].name);
            promised++;
            then.day += 7;
            if (room_from(s, i, then) < jobs[i].hours - 1e-6)
                refused++;
            else
                odd++;
        }
        schedule_free(s);
    }
    assert_true(promised > 200);
    assert_true(odd * 12 < refused);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(odd_plans_come_back_unharmed),
        cmocka_unit_test(weeks_tried_one_by_one),
        cmocka_unit_test(there_is_room_for_what_is_promised),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

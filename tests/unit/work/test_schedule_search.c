/* The search over orders and crews, held against trying all of them on small plans. */
#include "schedule_random.h"

#include "work/schedule_parts.h"

/* Few jobs, few hours, short windows, deadlines: plans in which the order matters. */
static void make_tight(int count)
{
    make_task(count, false);
    while (date_civil(task.start).year > 2180)
        task.start.day -= 3653;
    int crew_count = 1 + below(2);
    make_crews(crew_count);
    for (int c = 0; c < crew_count; c++) {
        crews[c].hours_each = 8 + below(12);
        crews[c].people = 1;
        crews[c].rate = 10 * below(4);
        crews[c].from.given = crews[c].to.given = false;
        crews[c].off = yearly_none();
    }
    for (int i = 0; i < count; i++) {
        struct schedule_job *j = &jobs[i];
        j->hours = 5 + below(60);
        j->fixed.given = j->done = j->has_condition = j->earliest.given = false;
        j->who = SCHEDULE_ANY;
        if (below(2) == 0) {
            j->who = SCHEDULE_LISTED;
            able[i][0] = (size_t)below(crew_count);
            able[i][1] = (size_t)below(crew_count);
            j->crews = able[i];
            j->crew_count = 2; /* one crew listed twice is one crew */
        }
        j->limit_count = 0;
        j->in_one_week = false;
        j->first = below(3) == 0;
        j->latest.given = below(2) == 0;
        j->latest.date = from_start(30 + below(700));
        for (size_t k = 0; k < j->after_count; k++)
            if (afters[i][k].least > 60)
                afters[i][k].least = below(60);
    }
}

/* ---- every order and every crew ---- */

#ifdef __SANITIZE_ADDRESS__
enum { ROUNDS = 100 }; /* each schedule takes twenty times as long */
#else
enum { ROUNDS = 500 };
#endif

struct all {
    struct solver s;
    struct bound bounds[8];
    struct score best;
    bool any, used[8];
    size_t schedules;
    int finish[SCHEDULE_GOALS]; /* the soonest, of schedules that place all jobs */
};

static void stands(const struct solver *s)
{
    struct schedule shown = { .told = s->told, .count = s->task->job_count };
    struct buf breach;
    buf_init(&breach);
    if (!schedule_check(s->task, &shown, &breach))
        fail_msg("%s", breach.data);
    buf_clear(&breach);
}

/* When the jobs of a goal are finished; a goal's jobs as schedule.h has them. */
static int finish_of(const struct all *a, enum schedule_goals goal)
{
    int finish = 0;
    for (size_t g = 0; g < a->s.group_count; g++) {
        const struct group *group = &a->s.groups[g];
        bool first = false;
        for (size_t job = group->first; job != SCHEDULE_NONE; job = a->s.next[job])
            first = first || jobs[job].first;
        bool in = goal == SCHEDULE_ALL || (goal == SCHEDULE_MARKED_FIRST && first) ||
                  (goal == SCHEDULE_FIRST_YEAR && a->bounds[g].start < a->s.begin + 365);
        if (in && group->finish > finish)
            finish = group->finish;
    }
    return finish;
}

static void note_goals(struct all *a)
{
    for (size_t g = 0; g < a->s.group_count; g++)
        if (!a->s.groups[g].placed)
            return;
    for (int goal = 0; goal < SCHEDULE_GOALS; goal++) {
        int finish = finish_of(a, (enum schedule_goals)goal);
        if (finish < a->finish[goal])
            a->finish[goal] = finish;
    }
}

static void try_one(struct all *a)
{
    struct fault f = { 0 };
    assert_true(solver_place(&a->s, &f));
    struct score score = score_of(&a->s, a->bounds);
    if (!a->any || score_compare(&score, &a->best) < 0)
        a->best = score;
    a->any = true;
    note_goals(a);
    if (++a->schedules % 64 == 0) {
        assert_true(solver_tell(&a->s, &f));
        stands(&a->s);
    }
}

/* Of the crews that could do it: one that cannot would only leave it out. */
static void try_crews(struct all *a, size_t g)
{
    if (g == a->s.group_count) {
        try_one(a);
        return;
    }
    for (size_t c = 0; c <= task.crew_count; c++) {
        a->s.groups[g].wanted = c < task.crew_count ? c : SCHEDULE_NONE;
        if (c < task.crew_count && !(a->bounds[g].crews >> c & 1))
            continue;
        try_crews(a, g + 1);
    }
}

static bool may_be_next(const struct all *a, size_t g)
{
    for (size_t i = a->s.before_at[g]; i < a->s.before_at[g + 1]; i++)
        if (!a->used[a->s.before[i]])
            return false;
    return !a->used[g];
}

static void try_orders(struct all *a, size_t at)
{
    if (at == a->s.group_count) {
        try_crews(a, 0);
        return;
    }
    for (size_t g = 0; g < a->s.group_count; g++) {
        if (!may_be_next(a, g))
            continue;
        a->used[g] = true;
        a->s.order[at] = g;
        a->s.place[g] = at;
        try_orders(a, at + 1);
        a->used[g] = false;
    }
}

static void start_all(struct all *a)
{
    struct fault f = { 0 };
    *a = (struct all){ .any = false };
    for (int goal = 0; goal < SCHEDULE_GOALS; goal++)
        a->finish[goal] = INT32_MAX;
    assert_true(solver_init(&a->s, &task, &f));
    assert_true(solver_order(&a->s, &f));
    assert_true(bounds_find(&a->s, a->bounds, &f));
}

static void end_all(struct all *a)
{
    for (size_t i = 0; i < task.job_count; i++)
        job_told_clear(&a->s.told[i]);
    free(a->s.told);
    solver_clear(&a->s);
}

/* Some go round: they have no order to be tried. */
static bool any_order(void)
{
    struct fault f = { 0 };
    struct schedule *s = schedule_new(&task, &f);
    bool any = true;
    for (size_t i = 0; i < task.job_count; i++)
        any = any && schedule_of(s, i)->why != SCHEDULE_CYCLE;
    schedule_free(s);
    return any;
}

struct goals {
    size_t looked_at, met;
};

/* No order finishes before the bound; how often one does as soon is counted. */
static void check_goals(const struct all *a, const struct all *b, struct goals *out)
{
    for (size_t g = 0; g < b->s.group_count; g++)
        if (!b->s.groups[g].placed)
            return;
    for (int goal = 0; goal < SCHEDULE_GOALS; goal++) {
        const struct schedule_goal *is = &b->s.outcome.goals[goal];
        if (is->jobs == 0)
            continue;
        assert_int_equal(solver_day(&b->s, is->finish),
                         finish_of(b, (enum schedule_goals)goal));
        assert_true(solver_day(&a->s, is->bound) <= a->finish[goal]);
        out->looked_at++;
        out->met += solver_day(&a->s, is->bound) == a->finish[goal];
    }
}

static void the_search_finds_the_best_of_all_orders_and_crews(void **state)
{
    (void)state;
    size_t found = 0, exact = 0, plain = 0, troubled = 0, schedules = 0, proven = 0;
    struct goals goals = { 0 };
    random_state = 31;
    for (int round = 0; round < ROUNDS; round++) {
        struct all a, b;
        struct fault f = { 0 };
        do
            make_tight(2 + below(4));
        while (!any_order());
        task.seed = (uint64_t)round;
        task.tries = 300;
        start_all(&a);
        struct score bound = score_bound(&a.s, a.bounds);
        assert_true(solver_place(&a.s, &f));
        struct score first = score_of(&a.s, a.bounds);
        try_orders(&a, 0);
        if (score_compare(&bound, &a.best) > 0) {
            for (int i = 0; i < SCORES; i++)
                print_error("%d: bound %.9g, best %.9g\n", i, bound.of[i], a.best.of[i]);
            fail_msg("round %d: the bound lies above the best", round);
        }
        start_all(&b);
        assert_true(solver_search(&b.s, &f));
        assert_true(solver_tell(&b.s, &f));
        assert_true(goals_find(&b.s, &f));
        memcpy(b.bounds, b.s.bounds, b.s.group_count * sizeof *b.bounds);
        check_goals(&a, &b, &goals);
        stands(&b.s);
        struct score score = score_of(&b.s, b.bounds);
        int apart = score_compare(&score, &a.best);
        assert_true(apart >= 0);
        bool counts = true; /* proven: nothing better where it counts */
        for (int i = 0; i < SCORE_UNEVEN; i++)
            counts = counts && score.of[i] <= a.best.of[i] + 1e-6;
        assert_true(!b.s.outcome.proven || counts);
        proven += b.s.outcome.proven;
        assert_true(b.s.outcome.tries <= task.tries);
        exact += apart == 0;
        found += apart == 0 || b.s.outcome.proven;
        plain += score_compare(&first, &a.best) == 0;
        troubled += a.best.of[SCORE_UNPLACED] > 0 ||
                    first.of[SCORE_UNPLACED] > a.best.of[SCORE_UNPLACED];
        schedules += a.schedules;
        end_all(&a);
        end_all(&b);
    }
    print_message("%d plans, %zu orders and crews: the search finds the best in %zu (%zu "
                  "to the last point) and proves it of %zu, the plan's own order in %zu; "
                  "%zu have jobs that are hard to place\n",
                  ROUNDS, schedules, found, exact, proven, plain, troubled);
    print_message(
        "the days before which nothing can be done: %zu, no order is sooner, and "
        "one is as soon in %zu\n",
        goals.looked_at, goals.met);
    assert_true(goals.looked_at > ROUNDS / 2 && goals.met * 100 > goals.looked_at * 60);
    assert_true(found * 100 >= ROUNDS * 99 && proven * 100 > ROUNDS * 60);
    assert_true(plain * 100 < ROUNDS * 80 && troubled > ROUNDS / 8);
}

/* ---- the crew that is wanted ---- */

static void the_wanted_crew_is_not_waited_for_in_vain(void **state)
{
    (void)state;
    struct all a;
    random_state = 5;
    make_tight(2);
    make_crews(2);
    for (int c = 0; c < 2; c++)
        crews[c] = (struct schedule_crew){ .name = c ? "hired" : "owner",
                                           .people = 1,
                                           .hours_each = 20,
                                           .off = yearly_none() };
    crews[1].to = (struct schedule_day_given){ true, from_start(3) };
    for (int i = 0; i < 2; i++)
        jobs[i] = (struct schedule_job){
            .name = names[i], .hours = 30, .open = yearly_all(), .days = 1
        };
    jobs[1].fixed = (struct schedule_day_given){ true, from_start(40) };
    start_all(&a);
    struct fault f = { 0 };
    a.s.groups[0].wanted = a.s.groups[1].wanted = 1;
    assert_true(solver_place(&a.s, &f));
    assert_true(a.s.groups[0].placed && a.s.groups[1].placed);
    assert_int_equal(a.s.groups[0].crew, 0);
    assert_int_equal(a.s.groups[1].crew, 0);
    /* Made again, it is that crew's or nobody's. */
    a.s.crews_kept = true;
    assert_true(solver_place(&a.s, &f));
    assert_false(a.s.groups[0].placed);
    end_all(&a);
}

/* ---- what the search keeps to ---- */

struct watcher {
    size_t seen;
    int round;
};

static void watch(void *watcher, const struct schedule_task *asked,
                  const struct schedule *s)
{
    struct watcher *w = watcher;
    struct buf breach;
    buf_init(&breach);
    w->seen++;
    if (!schedule_check(asked, s, &breach))
        fail_msg("round %d, schedule %zu: %s", w->round, w->seen, breach.data);
    buf_clear(&breach);
}

static void every_schedule_tried_stands_and_no_more_are_tried_than_asked(void **state)
{
    (void)state;
    struct watcher w = { 0 };
    random_state = 8;
    size_t all = 0, reached = 0;
    for (w.round = 0; w.round < 300; w.round++) {
        if (w.round % 2)
            make_tight(1 + below(20));
        else
            make_task(1 + below(24), w.round % 4 == 0);
        task.tries = (size_t)(1 + below(30));
        task.watch = watch;
        task.watcher = &w;
        w.seen = 0;
        struct schedule *s = solve_and_check(w.round);
        struct schedule_outcome outcome = schedule_outcome(s);
        assert_int_equal(w.seen, outcome.tries);
        assert_true(outcome.tries >= 1 && outcome.tries <= task.tries);
        all += w.seen;
        reached += outcome.tries == task.tries;
        schedule_free(s);
    }
    task.watch = NULL;
    assert_true(all > 1500 && reached > 100);
}

static bool alike(const struct schedule *a, const struct schedule *b)
{
    for (size_t i = 0; i < task.job_count; i++) {
        const struct schedule_result *x = schedule_of(a, i), *y = schedule_of(b, i);
        if (x->state != y->state || x->crew != y->crew || x->day_count != y->day_count)
            return false;
        if (x->state == SCHEDULE_PLACED &&
            (x->start.day != y->start.day || x->finish.day != y->finish.day))
            return false;
    }
    return true;
}

static void a_seed_gives_one_schedule_and_others_may_give_others(void **state)
{
    (void)state;
    random_state = 99;
    size_t others = 0;
    for (int round = 0; round < 60; round++) {
        make_tight(8 + below(12));
        task.tries = 40;
        task.seed = 7;
        struct schedule *a = solve_and_check(round), *b = solve_and_check(round);
        assert_true(alike(a, b));
        task.seed = 8;
        struct schedule *c = solve_and_check(round);
        others += !alike(a, c);
        schedule_free(a);
        schedule_free(b);
        schedule_free(c);
    }
    task.seed = 0;
    assert_true(others > 5); /* the seed is not left out */
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
    }
}

/* The first of the plan has all the time there is and takes the weeks of the second, which
 * has two; what comes third is pressed as well, by a deadline. */
static void what_the_order_of_the_plan_leaves_out_is_placed(void **state)
{
    (void)state;
    simple_jobs(3);
    jobs[0].hours = 40;
    jobs[1].latest = (struct schedule_day_given){ true, from_start(13) };
    jobs[2].latest = (struct schedule_day_given){ true, from_start(6) };
    task.tries = 1;
    struct schedule *s = solve_and_check(0);
    assert_int_equal(schedule_of(s, 0)->state, SCHEDULE_PLACED);
    assert_int_equal(schedule_of(s, 1)->state, SCHEDULE_UNPLACED);
    assert_int_equal(schedule_of(s, 2)->state, SCHEDULE_UNPLACED);
    assert_int_equal(schedule_outcome(s).tries, 1);
    schedule_free(s);
    task.tries = 0;
    s = solve_and_check(0);
    for (size_t i = 0; i < 3; i++)
        assert_int_equal(schedule_of(s, i)->state, SCHEDULE_PLACED);
    assert_int_equal(schedule_of(s, 2)->start.day, task.start.day);
    assert_int_equal(schedule_of(s, 1)->start.day, task.start.day + 7);
    assert_int_equal(schedule_of(s, 0)->finish.day, task.start.day + 35);
    assert_true(schedule_outcome(s).proven);
    schedule_free(s);
}

/* Three jobs of ten hours in one week: two crews, one of twice the hours of the other. It
 * fills its week as much with two of them as the other with one: 1/4 and 1/4 of squares,
 * where all three take 9/16. */
static void weeks_are_evened_when_all_else_is_as_good_as_can_be(void **state)
{
    (void)state;
    static struct schedule_crew two[2];
    simple_jobs(3);
    two[0] = (struct schedule_crew){ .name = "owner", .people = 2, .hours_each = 10 };
    two[1] = (struct schedule_crew){ .name = "hired", .people = 4, .hours_each = 10 };
    two[0].off = two[1].off = yearly_none();
    task.crews = two;
    task.crew_count = 2;
    for (size_t i = 0; i < 3; i++)
        jobs[i].latest = (struct schedule_day_given){ true, { task.start.day + 6 } };
    struct schedule *s = solve_and_check(0);
    size_t of_owner = 0;
    for (size_t i = 0; i < 3; i++) {
        assert_int_equal(schedule_of(s, i)->state, SCHEDULE_PLACED);
        of_owner += schedule_of(s, i)->crew == 0;
    }
    assert_int_equal(of_owner, 1);
    schedule_free(s);
}

/* Nothing but the evenness of its weeks can be better: few more are made for that. */
static void a_plan_that_is_fine_at_once_is_made_a_few_times(void **state)
{
    (void)state;
    simple_jobs(3);
    task.tries = 600;
    struct schedule *s = solve_and_check(0);
    struct schedule_outcome outcome = schedule_outcome(s);
    assert_in_range(outcome.tries, 2, 102);
    assert_true(outcome.proven);
    schedule_free(s);
    simple_jobs(1); /* there is but one way */
    s = solve_and_check(0);
    outcome = schedule_outcome(s);
    assert_in_range(outcome.tries, 1, 3);
    assert_true(outcome.proven);
    schedule_free(s);
}

/* The owner costs nothing and the hired crew is listed first: the dear crew is not taken
 * where the owner can do it in time. */
static void the_cheaper_crew_is_found(void **state)
{
    (void)state;
    static struct schedule_crew two[2];
    static const size_t both[] = { 1, 0 };
    simple_jobs(2);
    two[0] = task.crews[0];
    two[1] = two[0];
    two[1].name = "hired";
    two[1].rate = 40;
    task.crews = two;
    task.crew_count = 2;
    for (size_t i = 0; i < 2; i++) {
        jobs[i].who = SCHEDULE_LISTED;
        jobs[i].crews = both;
        jobs[i].crew_count = 2;
    }
    struct schedule *s = solve_and_check(0);
    assert_int_equal(schedule_of(s, 0)->crew, 0);
    assert_int_equal(schedule_of(s, 1)->crew, 0);
    schedule_free(s);
    /* One of the two has to be hired when both are wanted in the first week. */
    for (size_t i = 0; i < 2; i++)
        jobs[i].latest = (struct schedule_day_given){ true, from_start(6) };
    s = solve_and_check(0);
    assert_int_equal(schedule_of(s, 0)->state, SCHEDULE_PLACED);
    assert_int_equal(schedule_of(s, 1)->state, SCHEDULE_PLACED);
    assert_int_equal(schedule_of(s, 0)->crew + schedule_of(s, 1)->crew, 1);
    schedule_free(s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_search_finds_the_best_of_all_orders_and_crews),
        cmocka_unit_test(the_wanted_crew_is_not_waited_for_in_vain),
        cmocka_unit_test(every_schedule_tried_stands_and_no_more_are_tried_than_asked),
        cmocka_unit_test(a_seed_gives_one_schedule_and_others_may_give_others),
        cmocka_unit_test(what_the_order_of_the_plan_leaves_out_is_placed),
        cmocka_unit_test(a_plan_that_is_fine_at_once_is_made_a_few_times),
        cmocka_unit_test(weeks_are_evened_when_all_else_is_as_good_as_can_be),
        cmocka_unit_test(the_cheaper_crew_is_found),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

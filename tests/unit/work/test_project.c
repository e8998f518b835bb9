/* Projects of a few activities against the best of every schedule there is; what is
 * refused; a network worked by hand. */
#include "../unit.h"

#include "base/buf.h"
#include "base/fault.h"
#include "project_checker.h"
#include "project_drawn.h"
#include "work/project_bound.h"
#include "work/project_exact.h"

enum { PROJECTS = 1500 };

struct tally {
    int found, impossible;
    long steps;
};

/* Answers, bounds and proofs against the best of all. */
static void compare(const struct drawn_project *d, int horizon, bool exact, int best,
                    struct tally *seen)
{
    struct fault f;
    struct project_answer a;
    struct project_ask ask = { .schedules = 60, .seed = 5, .steps = exact ? 200000 : 0 };
    fault_clear(&f);
    assert_true(project_solve(&d->p, &ask, &a, &f));
    assert_true(a.schedules <= ask.schedules && a.steps <= ask.steps);
    if (best < 0)
        assert_int_not_equal(a.state, PROJECT_FOUND);
    if (a.state == PROJECT_IMPOSSIBLE)
        assert_int_equal(best, -1);
    if (exact)
        assert_int_equal(a.state, best < 0 ? PROJECT_IMPOSSIBLE : PROJECT_FOUND);
    if (a.state == PROJECT_FOUND) {
        assert_null(project_wrong(&d->p, a.starts, horizon));
        assert_int_equal(project_finish(&d->p, a.starts), a.finish);
        assert_true(a.finish >= best && (!exact || a.finish == best));
        assert_true(!exact || a.optimal);
    }
    if (best >= 0) {
        assert_true(a.bounds.path <= best && a.bounds.energy <= best);
        assert_true(a.bounds.apart <= best && a.bounds.windows <= best);
        assert_true(a.bounds.best <= best);
    }
    seen->found += a.state == PROJECT_FOUND;
    seen->impossible += a.state == PROJECT_IMPOSSIBLE;
    project_answer_free(&a);
}

/* Branch and bound with nothing to start from, which has to try the most. */
static void search_alone(const struct project_net *n, int horizon, int best,
                         struct tally *seen)
{
    struct fault f;
    int starts[TRIED_MOST];
    struct project_schedule s = { .starts = starts, .late = 1 };
    struct project_exact_result r;
    fault_clear(&f);
    assert_true(project_exact(n, 1000000, 0, &s, &r, &f));
    assert_true(r.complete);
    assert_true((s.late == 0) == (best >= 0));
    seen->steps += (long)r.steps;
    if (best < 0)
        return;
    assert_int_equal(s.finish, best);
    assert_null(project_wrong(n->project, starts, horizon));
    assert_int_equal(project_finish(n->project, starts), best);
}

static struct tally against_all(struct drawn_kind kind, uint64_t chance)
{
    struct tally seen = { 0 };
    int horizon = kind.horizon;
    for (int n = 0; n < PROJECTS; n++) {
        struct drawn_project d;
        struct fault f;
        fault_clear(&f);
        kind.horizon = kind.by_time ? horizon : 0;
        drawn_project(&d, &kind, &chance);
        d.p.horizon = horizon;
        struct project_net *net = project_net_new(&d.p, &f);
        if (!net) {
            /* Negative lags may go round in a circle; then there is no schedule. */
            assert_true(kind.most);
            assert_string_equal(f.id, "project-cycle");
            assert_int_equal(project_try_all(&d.p, horizon), -1);
            continue;
        }
        int best = project_try_all(&d.p, horizon);
        search_alone(net, horizon, best, &seen);
        project_net_free(net);
        compare(&d, horizon, true, best, &seen);
        compare(&d, horizon, false, best, &seen);
    }
    return seen;
}

static void plain_against_all(void **state)
{
    (void)state;
    struct drawn_kind kind = { .count = 6, .duration = 3, .horizon = 18 };
    struct tally seen = against_all(kind, 1);
    assert_int_equal(seen.impossible, 0);
    assert_int_equal(seen.found, 2 * PROJECTS);
}

static void short_of_time_against_all(void **state)
{
    (void)state;
    struct drawn_kind kind = { .count = 5, .duration = 4, .horizon = 8, .lags = true };
    struct tally seen = against_all(kind, 2);
    assert_true(seen.impossible > 100 && seen.found > 1000);
}

static void dates_against_all(void **state)
{
    (void)state;
    struct drawn_kind kind = { .count = 5, .duration = 3, .horizon = 11, .lags = true,
                               .dates = true };
    struct tally seen = against_all(kind, 3);
    assert_true(seen.impossible > 100 && seen.found > 1000);
}

static void capacities_by_time_against_all(void **state)
{
    (void)state;
    struct drawn_kind kind = { .count = 5, .duration = 3, .horizon = 12, .lags = true,
                               .dates = true, .by_time = true };
    struct tally seen = against_all(kind, 4);
    assert_true(seen.impossible > 100 && seen.found > 500);
}

static void most_lags_against_all(void **state)
{
    (void)state;
    struct drawn_kind kind = { .count = 6, .duration = 3, .horizon = 9, .lags = true,
                               .most = true };
    struct tally seen = against_all(kind, 5);
    assert_true(seen.impossible > 20 && seen.found > 1000);
}

static void everything_against_all(void **state)
{
    (void)state;
    struct drawn_kind kind = { .count = 5, .duration = 3, .horizon = 12, .lags = true,
                               .most = true, .dates = true, .by_time = true };
    struct tally seen = against_all(kind, 6);
    assert_true(seen.impossible > 100 && seen.found > 500);
}

/* Two saws. Felling (3 units of time, one saw) comes before hauling (2, both saws),
 * brushing (2, one) before bucking (3, one); piling (4, one) by itself. 16 saw-units take
 * two saws 8 units of time at least, and 8 can be: felling 0-3, bucking 3-6 on one saw,
 * brushing 0-2, piling 2-6 on the other, hauling 6-8 with both. Brushing then bucking are
 * the longest path: 5. */
static void five_jobs_by_hand(void **state)
{
    (void)state;
    int one[] = { 1 }, two[] = { 2 };
    struct project_activity a[] = { { 3, one, 0, PROJECT_NO_END },
                                    { 2, one, 0, PROJECT_NO_END },
                                    { 2, two, 0, PROJECT_NO_END },
                                    { 3, one, 0, PROJECT_NO_END },
                                    { 4, one, 0, PROJECT_NO_END } };
    struct project_order o[] = { { 0, 2, 0, PROJECT_NO_END },
                                 { 1, 3, 0, PROJECT_NO_END } };
    struct project_resource saws = { 2, NULL };
    struct project p = { a, 5, &saws, 1, o, 2, 0 };
    struct project_ask ask = { 200, 1, 1000 };
    struct project_answer out;
    struct fault f;
    fault_clear(&f);
    assert_true(project_solve(&p, &ask, &out, &f));
    assert_true(out.optimal);
    assert_int_equal(out.bounds.path, 5);
    assert_int_equal(out.bounds.energy, 8);
    assert_int_equal(out.finish, 8);
    project_answer_free(&out);
}

/* Hauling must follow skidding at once; the truck is taken by another haul until 5.
 * Skidding has to wait too, though nothing holds it itself. */
static void a_most_lag_draws_what_comes_before_it(void **state)
{
    (void)state;
    int one[] = { 1 };
    const uint32_t list[] = { 0, 1, 2 };
    struct project_activity a[] = { { 2, NULL, 0, PROJECT_NO_END },
                                    { 5, one, 0, PROJECT_NO_END },
                                    { 3, one, 0, PROJECT_NO_END } };
    struct project_order o = { 0, 2, 0, 0 };
    struct project_resource truck = { 1, NULL };
    struct project p = { a, 3, &truck, 1, &o, 1, 0 };
    struct project_schedule out = { .starts = (int[3]){ 0 } };
    struct fault f;
    fault_clear(&f);
    struct project_net *n = project_net_new(&p, &f);
    struct project_sgs *s = project_sgs_new(n, 10, &f);
    assert_true(sgs_serial(s, list, &out));
    assert_int_equal(out.late, 0);
    assert_int_equal(out.starts[0], 3);
    assert_int_equal(out.starts[2], 5);
    assert_int_equal(s->left, 8);
    project_sgs_free(s);
    /* With a budget of one there is nothing to build anew: late by 3. */
    s = project_sgs_new(n, 1, &f);
    assert_true(sgs_serial(s, list, &out));
    assert_int_equal(out.late, 3);
    assert_false(sgs_serial(s, list, &out));
    project_sgs_free(s);
    project_net_free(n);
}

static void refuses(const struct project *p, const char *id)
{
    struct fault f;
    struct project_answer out;
    struct project_ask ask = { 10, 1, 10 };
    fault_clear(&f);
    assert_false(project_solve(p, &ask, &out, &f));
    assert_string_equal(f.id, id);
    assert_null(out.starts);
}

static void what_cannot_be_is_refused(void **state)
{
    (void)state;
    int one[] = { 1 }, three[] = { 3 }, less[] = { -1 };
    struct project_activity a[] = { { 2, one, 0, PROJECT_NO_END },
                                    { 2, one, 0, PROJECT_NO_END } };
    struct project_resource r = { 2, NULL };
    struct project_order o[] = { { 0, 1, 0, PROJECT_NO_END },
                                 { 1, 0, 0, PROJECT_NO_END } };
    struct project p = { a, 2, &r, 1, o, 2, 0 };
    refuses(&p, "project-cycle");
    o[1] = (struct project_order){ 0, 1, -4, -1 }; /* after, and before it ends */
    refuses(&p, "project-cycle");
    o[1] = (struct project_order){ 0, 2, 0, PROJECT_NO_END };
    refuses(&p, "project-number");
    o[1] = (struct project_order){ 0, 1, 3, 2 };
    refuses(&p, "project-number");
    p.order_count = 1;
    a[1].demands = three;
    refuses(&p, "project-demand");
    a[1].demands = less;
    refuses(&p, "project-number");
    a[1].demands = NULL;
    a[1].duration = -1;
    refuses(&p, "project-number");
    a[1].duration = 0;
    a[1].earliest = -1;
    refuses(&p, "project-number");
    a[1].earliest = 0;
    r.capacity = PROJECT_MOST_DEMAND + 1;
    refuses(&p, "project-number");
    r = (struct project_resource){ 2, one }; /* capacities by time want a horizon */
    refuses(&p, "project-number");
}

static void nothing_to_do_is_done_at_once(void **state)
{
    (void)state;
    struct project p = { 0 };
    struct project_ask ask = { 10, 1, 10 };
    struct project_answer out;
    struct fault f;
    fault_clear(&f);
    assert_true(project_solve(&p, &ask, &out, &f));
    assert_true(out.optimal);
    assert_int_equal(out.finish, 0);
    project_answer_free(&out);
}

/* Each thing that can be broken is told by both checkers. */
static void breaches_are_told(void **state)
{
    (void)state;
    int two[] = { 2 }, by_time[] = { 2, 2, 2, 0, 2, 2, 2, 2 };
    struct project_activity a[] = { { 2, two, 1, 6 }, { 2, two, 0, PROJECT_NO_END } };
    struct project_resource r = { 2, by_time };
    struct project_order o = { 0, 1, 1, 3 };
    struct project p = { a, 2, &r, 1, &o, 1, 8 };
    const int cases[][2] = { { 1, 4 }, { 0, 4 }, { 5, 6 }, { 1, 3 }, { 1, 6 },
                             { 2, 5 }, { 1, 7 }, { -1, 4 }, { 1, -1 } };
    for (size_t k = 0; k < sizeof cases / sizeof *cases; k++) {
        struct buf words;
        buf_init(&words);
        bool good = project_check(&p, cases[k], &words);
        assert_true(good == (project_wrong(&p, cases[k], 8) == NULL));
        assert_true(good == (k == 0 || k == 4));
        assert_true(good == (words.length == 0));
        buf_clear(&words);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(plain_against_all),
        cmocka_unit_test(short_of_time_against_all),
        cmocka_unit_test(dates_against_all),
        cmocka_unit_test(capacities_by_time_against_all),
        cmocka_unit_test(most_lags_against_all),
        cmocka_unit_test(everything_against_all),
        cmocka_unit_test(five_jobs_by_hand),
        cmocka_unit_test(a_most_lag_draws_what_comes_before_it),
        cmocka_unit_test(what_cannot_be_is_refused),
        cmocka_unit_test(nothing_to_do_is_done_at_once),
        cmocka_unit_test(breaches_are_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

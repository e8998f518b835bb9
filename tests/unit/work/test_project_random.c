/* Thousands of projects by chance: every schedule of every kind of building stands before
 * the checker, the same seed gives the same answer, budgets are never exceeded, and
 * branch and bound never ends later than the heuristics. */
#include "../unit.h"

#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "project_checker.h"
#include "project_drawn.h"
#include "work/project_bound.h"
#include "work/project_exact.h"
#include "work/project_improve.h"
#include "work/project_rules.h"

enum { PROJECTS = 1200 };

static const struct drawn_kind kinds[] = {
    { .count = 40, .duration = 10 },
    { .count = 40, .duration = 6, .lags = true },
    { .count = 25, .duration = 5, .horizon = 120, .lags = true, .dates = true },
    { .count = 25, .duration = 5, .horizon = 150, .lags = true, .by_time = true },
    { .count = 20, .duration = 6, .lags = true, .most = true },
    { .count = 20, .duration = 5, .horizon = 150, .lags = true, .most = true,
      .dates = true, .by_time = true },
};
enum { KINDS = sizeof kinds / sizeof *kinds };

static bool keeps_order(const struct project_net *n, const uint32_t *list)
{
    size_t at[DRAWN_COUNT];
    bool seen[DRAWN_COUNT] = { false };
    for (size_t k = 0; k < n->count; k++) {
        if (list[k] >= n->count || seen[list[k]])
            return false;
        seen[list[k]] = true;
        at[list[k]] = k;
    }
    for (size_t i = 0; i < n->count; i++)
        for (uint32_t o = n->out.first[i]; o < n->out.first[i + 1]; o++)
            if (n->out.arcs[o].forward && at[n->out.arcs[o].to] < at[i])
                return false;
    return true;
}

static void stands(const struct project_net *n, const struct project_schedule *a)
{
    if (a->late > 0) {
        assert_true(n->has_most || n->project->horizon > 0);
        return;
    }
    assert_null(project_wrong(n->project, a->starts, n->horizon));
    assert_true(project_check(n->project, a->starts, NULL));
    assert_int_equal(project_finish(n->project, a->starts), a->finish);
}

/* Builds by one list and one order, justifies both; how many kept all limits. */
static size_t build(struct project_sgs *s, const uint32_t *list, const uint32_t *order)
{
    const struct project_net *n = s->net;
    int starts[DRAWN_COUNT];
    uint32_t again[DRAWN_COUNT];
    struct project_schedule a = { .starts = starts };
    size_t good = 0;
    assert_true(keeps_order(n, list));
    for (int way = 0; way < 3; way++) {
        assert_true(way == 0   ? sgs_serial(s, list, &a)
                    : way == 1 ? sgs_parallel(s, order, &a)
                               : sgs_worst_case(s, &a));
        stands(n, &a);
        int before = a.finish;
        if (a.late == 0) {
            good++;
            assert_true(sgs_justify(s, &a));
            assert_true(a.finish <= before && a.late == 0);
            stands(n, &a);
        }
        sgs_list(s, &a, again);
        assert_true(keeps_order(n, again));
        /* The list of a schedule builds one no later. */
        struct project_schedule b = { .starts = (int[DRAWN_COUNT]){ 0 } };
        before = a.finish;
        if (a.late == 0 && !n->has_most) {
            assert_true(sgs_serial(s, again, &b));
            assert_true(b.late == 0 && b.finish <= before);
        }
    }
    return good;
}

static void every_schedule_stands(void **state)
{
    (void)state;
    uint64_t chance = 17;
    size_t good = 0;
    for (int k = 0; k < PROJECTS; k++) {
        struct drawn_project d;
        struct fault f;
        int value[DRAWN_COUNT];
        uint32_t list[DRAWN_COUNT], order[DRAWN_COUNT];
        fault_clear(&f);
        drawn_project(&d, &kinds[k % KINDS], &chance);
        struct project_net *n = project_net_new(&d.p, &f);
        if (!n)
            continue;
        struct project_sgs *s = project_sgs_new(n, 100000, &f);
        struct lists *l = project_lists(n, &f);
        assert_true(s && l);
        for (int rule = 0; rule < RULE_COUNT; rule++) {
            assert_true(rules_values(n, (enum project_rule)rule, value, &f));
            lists_by_value(l, value, list);
            for (size_t i = 0; i < n->count; i++) /* in parallel any order will do */
                order[n->count - 1 - i] = list[i];
            good += build(s, list, order);
            lists_by_chance(l, value, &chance, list);
            good += build(s, list, order);
        }
        lists_free(l);
        project_sgs_free(s);
        project_net_free(n);
    }
    assert_true(good > PROJECTS * RULE_COUNT * 2);
}

static void answers_are_the_same_and_within_budget(void **state)
{
    (void)state;
    uint64_t chance = 23;
    size_t found = 0, differ = 0;
    for (int k = 0; k < PROJECTS / 2; k++) {
        struct drawn_project d;
        struct fault f;
        struct project_answer a, b, c;
        fault_clear(&f);
        drawn_project(&d, &kinds[k % KINDS], &chance);
        struct project_ask ask = { .schedules = 1 + chance_below(&chance, 300),
                                   .seed = (uint64_t)k,
                                   .steps = chance_below(&chance, 60) };
        if (!project_solve(&d.p, &ask, &a, &f))
            continue;
        assert_true(project_solve(&d.p, &ask, &b, &f));
        assert_true(a.schedules <= ask.schedules && a.steps <= ask.steps);
        assert_int_equal(a.state, b.state);
        assert_int_equal(a.finish, b.finish);
        assert_memory_equal(a.starts, b.starts, d.p.count * sizeof *a.starts);
        ask.seed += 1000;
        assert_true(project_solve(&d.p, &ask, &c, &f));
        differ += memcmp(a.starts, c.starts, d.p.count * sizeof *a.starts) != 0;
        if (a.state == PROJECT_FOUND) {
            found++;
            assert_true(a.bounds.best <= a.finish && c.bounds.path <= a.finish);
            assert_true(c.state != PROJECT_FOUND || a.bounds.best <= c.finish);
        }
        project_answer_free(&a);
        project_answer_free(&b);
        project_answer_free(&c);
    }
    assert_true(found > PROJECTS / 6 && differ > 10);
}

/* Of a dozen activities: what is proven is never later than what was found, though the
 * proof starts from nothing. */
static void proofs_are_no_later_than_searches(void **state)
{
    (void)state;
    uint64_t chance = 31;
    size_t proven = 0, late = 0;
    for (int k = 0; k < PROJECTS / 4; k++) {
        struct drawn_project d;
        struct fault f;
        struct drawn_kind kind = kinds[k % KINDS];
        kind.count = 12;
        kind.horizon = kind.horizon > 0 ? 60 : 0;
        fault_clear(&f);
        drawn_project(&d, &kind, &chance);
        struct project_net *n = project_net_new(&d.p, &f);
        if (!n)
            continue;
        int found[DRAWN_COUNT], least[DRAWN_COUNT];
        struct project_schedule a = { .starts = found };
        struct project_schedule b = { .starts = least, .late = 1 };
        struct project_exact_result r;
        size_t used;
        assert_true(project_improve(n, 400, 1, 0, &a, &used, &f));
        assert_true(project_exact(n, 20000, 0, &b, &r, &f));
        assert_true(used <= 400 && r.steps <= 20000);
        stands(n, &b);
        if (r.complete && a.late == 0) {
            proven++;
            assert_true(b.late == 0 && b.finish <= a.finish);
            late += b.finish < a.finish;
        }
        project_net_free(n);
    }
    assert_true(proven > 100);
    assert_true(late < proven / 10);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_schedule_stands),
        cmocka_unit_test(answers_are_the_same_and_within_budget),
        cmocka_unit_test(proofs_are_no_later_than_searches),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* plan_fixture.h: a small plan on a graph of its own.
 *
 *     struct bench b;
 *     bench_open(&b);
 *     uint32_t act = bench_act(&b, "a/cut", 20);      // 20 h
 *     bench_close(&b);
 */
#ifndef SPINNEY_TESTS_PLAN_FIXTURE_H
#define SPINNEY_TESTS_PLAN_FIXTURE_H

#include <string.h>

#include "../unit.h"

#include "base/buf.h"
#include "base/fault.h"
#include "plan/plan.h"
#include "plan/timing.h"

struct bench {
    struct units *units;
    struct graph *graph;
    struct plan *plan;
};

static inline struct date on(int year, int month, int day)
{
    struct date d = { 0 };
    struct fault f = { 0 };
    assert_true(date_make(year, month, day, &d, &f));
    return d;
}

static inline struct yearly window(int m1, int d1, int m2, int d2)
{
    struct window w = { { (int8_t)m1, (int8_t)d1 }, { (int8_t)m2, (int8_t)d2 } };
    return yearly_of(w);
}

static inline struct qty measure(struct bench *b, double value, const char *unit)
{
    struct fault f = { 0 };
    struct unit_id id;
    assert_true(units_find(b->units, unit, strlen(unit), &id, &f));
    struct qty q = graph_leaf(b->graph, value, id, (struct origin){ SPAN_NONE, NULL }, &f);
    assert_true(qty_is(q));
    return q;
}

static inline void bench_open(struct bench *b)
{
    b->units = units_new();
    b->graph = graph_new(b->units);
    b->plan = plan_new(b->graph);
    assert_non_null(b->plan);
    plan_set_text(b->plan, &b->plan->property, "Quill Creek");
    b->plan->starts = on(2026, 10, 15);
    uint32_t crew = plan_add_crew(b->plan, "owners");
    b->plan->crews[crew].people = 2;
    b->plan->crews[crew].hours_each_week = 10;
    b->plan->crews[crew].off = yearly_none();
}

static inline void bench_close(struct bench *b)
{
    assert_false(b->plan->failed);
    plan_free(b->plan);
    graph_free(b->graph);
    units_free(b->units);
}

static inline uint32_t bench_act(struct bench *b, const char *id, double hours)
{
    uint32_t act = plan_add_act(b->plan, id, "cut", PLAN_NONE, SPAN_NONE);
    struct qty q = measure(b, hours, "h");
    plan_set_figure(b->plan, &b->plan->acts[act].figures, "hours", "hours", q);
    graph_release(b->graph, q);
    plan_add_able(b->plan, act, 0);
    return act;
}

static inline void schedule(struct bench *b)
{
    struct fault f = { 0 };
    assert_true(plan_schedule(b->plan, &f));
    assert_true(plan_tell_risk(b->plan, &f));
}

#endif

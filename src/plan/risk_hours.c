/* Hours of the acts, drawn together from their ranges. */
#include "plan/risk_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "quantity/draws.h"
#include "quantity/node.h"
#include "quantity/select.h"

/* Acts whose hours are drawn at once: it bounds the memory, nothing else. */
enum { AT_ONCE = 256 };

static bool is_drawn(const struct plan *plan, const struct plan_act *act)
{
    struct qty hours = plan_figure(&act->figures, "hours");
    bool may_be_done = act->state == ACT_PLACED || act->state == ACT_UNPLACED ||
                       act->fallback_of != PLAN_NONE; /* where the ground fails another */
    return may_be_done && act->state != ACT_DONE && !act->nobody && qty_is(hours) &&
           graph_is_uncertain(plan->graph, hours);
}

/* A draw that cannot be worked out, or an endless one, counts at its likely value. */
static double sound(double hours, double likely)
{
    return isfinite(hours) && hours >= 0 ? hours : likely;
}

struct total {
    double hours;
    size_t draw;
};

static int by_hours(const void *a, const void *b)
{
    const struct total *x = a, *y = b;
    if (x->hours != y->hours)
        return x->hours < y->hours ? -1 : 1;
    return x->draw < y->draw ? -1 : x->draw > y->draw;
}

/* Which draws are taken: evenly from those of little work to those of much, so that a few
 * hundred are nearly as sure as all. */
static bool pick_draws(struct risk *r, const struct draws *d, size_t count,
                       struct fault *f)
{
    struct total *totals = malloc(SPREAD_DRAWS * sizeof *totals);
    if (!totals)
        return fault_no_memory(f);
    for (size_t k = 0; k < SPREAD_DRAWS; k++) {
        totals[k] = (struct total){ 0, k };
        for (size_t i = 0; i < count; i++)
            totals[k].hours += sound(draws_row(d, i)[k], 0);
    }
    qsort(totals, SPREAD_DRAWS, sizeof *totals, by_hours);
    size_t step = SPREAD_DRAWS / r->draws;
    for (size_t k = 0; k < r->draws; k++)
        r->pick[k] = totals[k * step + step / 2].draw;
    free(totals);
    return true;
}

/* Draws of the hours of some acts, from the `first` of those uncertain on. */
static struct draws *draws_from(const struct risk *r, size_t first, size_t count,
                                struct fault *f)
{
    uint32_t nodes[AT_ONCE];
    const struct plan *plan = r->plan;
    for (size_t i = 0; i < count; i++) {
        const struct plan_act *act = &plan->acts[r->uncertain[first + i]];
        nodes[i] = graph_node_of(plan->graph, plan_figure(&act->figures, "hours"));
    }
    return draws_of(plan->graph, nodes, count, f);
}

/* Entries of one cut, a mowing of three years: acts of the same hours share their draws. */
static void take_high(struct risk *r, const struct draws *d, size_t first, size_t count)
{
    double high[AT_ONCE];
    bool known[AT_ONCE] = { false };
    for (size_t i = 0; i < count; i++) {
        size_t act = r->uncertain[first + i], row = draws_row_number(d, i);
        if (!known[row])
            high[row] = select_percentiles(draws_row(d, i), SPREAD_DRAWS).high;
        known[row] = true;
        r->high[act] = sound(high[row] / r->per_hour, r->likely[act]);
    }
}

static void take_drawn(struct risk *r, const struct draws *d, size_t first, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        size_t act = r->uncertain[first + i];
        const double *row = draws_row(d, i);
        for (size_t k = 0; k < r->draws; k++)
            r->drawn[k * r->plan->act_count + act] =
                sound(row[r->pick[k]] / r->per_hour, r->likely[act]);
    }
}

static size_t at_once(const struct risk *r, size_t first)
{
    size_t left = r->uncertain_count - first;
    return left < AT_ONCE ? left : AT_ONCE;
}

/* Keeps the first draws, which most often are all. */
bool risk_high(struct risk *r, struct fault *f)
{
    struct unit_id hour;
    if (!units_find(graph_units(r->plan->graph), "h", 1, &hour, f))
        return false;
    r->per_hour = unit_factor(graph_units(r->plan->graph), hour);
    for (size_t i = 0; i < r->plan->act_count; i++)
        if (is_drawn(r->plan, &r->plan->acts[i]))
            r->uncertain[r->uncertain_count++] = i;
    for (size_t i = 0; i < r->uncertain_count; i += AT_ONCE) {
        struct draws *d = draws_from(r, i, at_once(r, i), f);
        if (!d)
            return false;
        take_high(r, d, i, at_once(r, i));
        if (i == 0)
            r->first_draws = d;
        else
            draws_free(d);
    }
    return true;
}

bool risk_draw(struct risk *r, struct fault *f)
{
    size_t acts = r->plan->act_count;
    r->draws = acts <= 100 ? RISK_DRAWS : acts <= 400 ? RISK_DRAWS / 2 : RISK_TRIED;
    r->drawn = malloc(r->draws * acts * sizeof *r->drawn);
    if (!r->drawn)
        return fault_no_memory(f);
    for (size_t k = 0; k < r->draws; k++)
        memcpy(r->drawn + k * acts, r->likely, acts * sizeof *r->likely);
    if (r->uncertain_count == 0)
        return true;
    if (!pick_draws(r, r->first_draws, at_once(r, 0), f))
        return false;
    take_drawn(r, r->first_draws, 0, at_once(r, 0));
    for (size_t i = AT_ONCE; i < r->uncertain_count; i += AT_ONCE) {
        struct draws *d = draws_from(r, i, at_once(r, i), f);
        if (!d)
            return false;
        take_drawn(r, d, i, at_once(r, i));
        draws_free(d);
    }
    return true;
}

const double *risk_row(const struct risk *r, size_t draw)
{
    return r->drawn + draw * r->plan->act_count;
}

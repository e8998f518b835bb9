/* Hours of the acts, drawn together from their ranges. */
#include "plan/risk_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "quantity/draws.h"
#include "quantity/node.h"
#include "quantity/spread.h"

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

bool risk_high(struct risk *r, struct fault *f)
{
    struct plan *plan = r->plan;
    struct unit_id hour;
    if (!units_find(graph_units(plan->graph), "h", 1, &hour, f))
        return false;
    r->per_hour = unit_factor(graph_units(plan->graph), hour);
    for (size_t i = 0; i < plan->act_count; i++)
        if (is_drawn(plan, &plan->acts[i]))
            r->uncertain[r->uncertain_count++] = i;
    struct qty *hours = malloc((r->uncertain_count + 1) * sizeof *hours);
    struct spread *spreads = malloc((r->uncertain_count + 1) * sizeof *spreads);
    bool fine = (hours && spreads) || fault_no_memory(f);
    for (size_t i = 0; fine && i < r->uncertain_count; i++)
        hours[i] = plan_figure(&plan->acts[r->uncertain[i]].figures, "hours");
    fine = fine && spread_of(plan->graph, hours, r->uncertain_count, spreads, f);
    for (size_t i = 0; fine && i < r->uncertain_count; i++) {
        size_t act = r->uncertain[i];
        r->high[act] = sound(spreads[i].high / r->per_hour, r->likely[act]);
    }
    free(hours);
    free(spreads);
    return fine;
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
    bool fine = true;
    for (size_t i = 0; fine && i < r->uncertain_count; i += AT_ONCE) {
        struct draws *d = draws_from(r, i, at_once(r, i), f);
        /* By the first of them, which most often are all. */
        fine = d && (i > 0 || pick_draws(r, d, at_once(r, 0), f));
        if (fine)
            take_drawn(r, d, i, at_once(r, i));
        draws_free(d);
    }
    return fine;
}

const double *risk_row(const struct risk *r, size_t draw)
{
    return r->drawn + draw * r->plan->act_count;
}

/* Equations over quantities. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "quantity/graph_inner.h"
#include "quantity/unit_inner.h"

/* A longer list when `more` items do not fit. */
static bool room_for(struct graph *g, void **list, size_t count, size_t *capacity,
                     size_t more, size_t item)
{
    if (more > UINT32_MAX - count)
        return false;
    if (count + more <= *capacity)
        return true;
    void *moved = memory_grow(&g->memory, *list, capacity, count + more, item);
    if (moved)
        *list = moved;
    return moved != NULL;
}

static bool more_room(struct graph *g, size_t operands, size_t with)
{
    void *equations = g->equations, *list = g->operands, *numbers = g->with;
    bool room = room_for(g, &equations, g->equations_count, &g->equations_capacity, 1,
                         sizeof *g->equations);
    g->equations = equations;
    room = room && room_for(g, &list, g->operands_count, &g->operands_capacity, operands,
                            sizeof *g->operands);
    g->operands = list;
    room = room && room_for(g, &numbers, g->with_count, &g->with_capacity, with,
                            sizeof *g->with);
    g->with = numbers;
    return room;
}

static double handed_over(const struct graph *g, const struct operand *o)
{
    return graph_value_in(g, o->of, o->in);
}

static bool operands_fit(const struct graph *g, const struct formula *formula,
                         const struct operand *operands, size_t count, struct fault *f)
{
    for (size_t i = 0; i < count; i++) {
        const struct operand *o = &operands[i];
        if (graph_says_in(g, graph_index(g, o->of), o->in, f))
            continue;
        if (o->name && o->in.i != 0)
            fault_hint(f, "%s takes its %s in %s", formula->name, o->name,
                       unit_name(g->units, o->in, false));
        else if (o->name)
            fault_hint(f, "%s takes its %s as a bare number", formula->name, o->name);
        return false;
    }
    return true;
}

static bool not_finite(const struct graph *g, const struct formula *formula,
                       const struct operand *operands, size_t count, double value,
                       struct fault *f)
{
    struct buf said;
    buf_init(&said);
    buf_printf(&said, "cannot work out %s of ", formula->name);
    for (size_t i = 0; i < count; i++) {
        const struct operand *o = &operands[i];
        buf_puts(&said, i == 0 ? "" : i + 1 < count ? ", " : " and ");
        if (o->name)
            buf_printf(&said, "%s ", o->name);
        unit_print(g->units, o->in, graph_value(g, o->of), &said);
    }
    buf_puts(&said, isnan(value) ? ": the equation does not reach so far"
                                 : ": the result is too large to count with");
    if (said.failed)
        fault_no_memory(f);
    else
        fault_set(f, "value-not-finite", SPAN_NONE, "%s", said.data);
    buf_clear(&said);
    return false;
}

/* What the equation says of the likely values, in base units. */
static bool work_out(const struct graph *g, const struct formula *formula,
                     const double *with, const struct operand *operands, size_t count,
                     struct unit_id unit, double *out, struct fault *f)
{
    double x[FORMULA_OPERANDS_MOST];
    for (size_t i = 0; i < count; i++)
        x[i] = handed_over(g, &operands[i]);
    *out = formula->value(x, with) * unit_factor(g->units, unit);
    return isfinite(*out) || not_finite(g, formula, operands, count, *out, f);
}

/* Room for it has been made. */
static struct qty take_on(struct graph *g, struct node n, struct kept_equation kept,
                          const double *with, const struct operand *operands)
{
    kept.first = (uint32_t)g->operands_count;
    kept.first_with = (uint32_t)g->with_count;
    for (size_t i = 0; i < kept.count; i++) {
        uint32_t node = graph_index(g, operands[i].of);
        n.uncertain = n.uncertain || g->nodes[node].uncertain;
        g->operands[g->operands_count++] =
            (struct formula_operand){ node, operands[i].in, operands[i].name };
    }
    for (size_t i = 0; i < kept.with_count; i++)
        g->with[g->with_count++] = with[i];
    n.detail = (uint32_t)g->equations_count;
    g->equations[g->equations_count++] = kept;
    *graph_next(g) = n;
    return graph_done(g);
}

struct qty graph_formula(struct graph *g, const struct formula *formula,
                         const double *with, size_t with_count,
                         const struct operand *operands, size_t count,
                         struct unit_id unit, struct origin from, struct fault *f)
{
    double value;
    uint32_t origin;
    assert(count > 0 && count <= FORMULA_OPERANDS_MOST);
    assert(with_count <= FORMULA_WITH_MOST);
    for (size_t i = 0; i < count; i++) {
        if (!qty_is(operands[i].of))
            return QTY_NONE;
    }
    if (!operands_fit(g, formula, operands, count, f)
        || !work_out(g, formula, with, operands, count, unit, &value, f)
        || !graph_room(g, f))
        return QTY_NONE;
    if (!more_room(g, count, with_count)) {
        fault_no_memory(f);
        return QTY_NONE;
    }
    if (!graph_origin_put(g, from, &origin, f))
        return QTY_NONE;
    struct node n = { .value = value, .unit = unit, .kind = unit_kind(g->units, unit),
                      .op = OP_FORMULA, .origin = origin };
    struct kept_equation kept = { .formula = formula, .count = (uint32_t)count,
                                  .with_count = (uint32_t)with_count };
    return take_on(g, n, kept, with, operands);
}

struct equation graph_equation_of(const struct graph *g, uint32_t index)
{
    const struct kept_equation *e = &g->equations[g->nodes[index].detail];
    return (struct equation){ e->formula, g->operands + e->first, g->with + e->first_with,
                              e->count, e->with_count };
}

void graph_formula_move(struct graph *g, struct node *n)
{
    struct kept_equation e = g->equations[n->detail];
    for (uint32_t i = 0; i < e.count; i++) {
        struct formula_operand o = g->operands[e.first + i];
        o.node = g->moved[o.node];
        g->operands[g->operands_count + i] = o;
    }
    e.first = (uint32_t)g->operands_count;
    g->operands_count += e.count;
    if (e.with_count > 0)
        memmove(g->with + g->with_count, g->with + e.first_with,
                e.with_count * sizeof *g->with);
    e.first_with = (uint32_t)g->with_count;
    g->with_count += e.with_count;
    n->detail = (uint32_t)g->equations_count;
    g->equations[g->equations_count++] = e;
}

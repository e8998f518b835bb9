#include "quantity/draws.h"

#include "base/fault.h"
#include "quantity/node.h"
#include "quantity/normal.h"
#include "quantity/scratch.h"
#include "quantity/steps.h"
#include "quantity/twins.h"

struct draws {
    struct scratch memory; /* of all below, and of the draws themselves */
    double *rows;
    size_t *row; /* by place in the list asked for */
};

bool draws_operand(const struct graph *g, uint32_t index, size_t i, uint32_t *out)
{
    const struct node *n = graph_node(g, index);
    struct equation e;
    struct term t;
    switch ((enum op)n->op) {
    case OP_LEAF:
    case OP_RANGE:
    case OP_SHARED:
        return false;
    case OP_FORMULA:
        e = graph_equation_of(g, index);
        if (i >= e.count)
            return false;
        *out = e.operands[i].node;
        return true;
    case OP_SUM:
        if (!graph_term(g, index, i, &t))
            return false;
        *out = t.node;
        return true;
    case OP_MULTIPLY:
    case OP_DIVIDE:
    case OP_MIN:
    case OP_MAX:
        *out = i == 0 ? n->a : n->b;
        return i < 2;
    case OP_POWER:
    case OP_CEIL:
    case OP_FLOOR:
    case OP_SAY:
    case OP_NAME:
        *out = n->a;
        return i < 1;
    }
    return false;
}

void draws_reach(const struct graph *g, uint32_t top, bool *marks)
{
    for (uint32_t i = top; i > 0; i--) {
        uint32_t operand;
        for (size_t k = 0; marks[i] && draws_operand(g, i, k, &operand); k++)
            marks[operand] = operand != NODE_NONE;
    }
}

/* By node what stands behind it: names and other ways of saying looked through, and of
 * several that would have the same draws the first. */
static uint32_t *look_through(const struct graph *g, const bool *marks, uint32_t top,
                              struct scratch *memory)
{
    size_t needed = 0;
    for (uint32_t i = 1; i <= top; i++)
        needed += marks[i];
    uint32_t *real = scratch_get(memory, (size_t)top + 1, sizeof *real);
    struct twins twins = twins_of(g, real, needed, memory);
    for (uint32_t i = 0; !memory->failed && i <= top; i++) {
        if (!marks[i]) {
            real[i] = NODE_NONE;
            continue;
        }
        const struct node *n = graph_node(g, i);
        if (n->op == OP_NAME || n->op == OP_SAY)
            real[i] = real[n->a];
        else
            real[i] = n->uncertain ? twins_first(&twins, i) : i;
    }
    return real;
}

void draws_table(double *table)
{
    for (int i = 0; i < SPREAD_DRAWS / 2; i++) {
        double z = normal_inverse((i + 0.5) / SPREAD_DRAWS);
        table[i] = z;
        table[SPREAD_DRAWS - 1 - i] = -z;
    }
}

/* Gives each different node a row: the uncertain ones first, so that theirs are the rows
 * that the steps write. Returns how many those are. */
static size_t share_rows(const struct graph *g, const uint32_t *nodes, size_t count,
                         const uint32_t *real, uint32_t *row_of, uint32_t *asked,
                         size_t *rows)
{
    size_t used = 0, uncertain = 0;
    for (int certain = 0; certain < 2; certain++) {
        for (size_t i = 0; i < count; i++) {
            uint32_t node = real[nodes[i]];
            if (row_of[node] == 0 && graph_node(g, node)->uncertain != (certain == 1)) {
                asked[used++] = node;
                row_of[node] = (uint32_t)used; /* from 1: 0 is none yet */
            }
        }
        uncertain = certain == 0 ? used : uncertain;
    }
    *rows = used;
    return uncertain;
}

static bool work_out(const struct graph *g, const uint32_t *nodes, size_t count,
                     struct draws *d)
{
    struct scratch *memory = &d->memory;
    uint32_t top = 0;
    for (size_t i = 0; i < count; i++)
        top = nodes[i] > top ? nodes[i] : top;
    bool *marks = scratch_zeroed(memory, (size_t)top + 1, sizeof *marks);
    if (memory->failed)
        return false;
    for (size_t i = 0; i < count; i++)
        marks[nodes[i]] = true;
    draws_reach(g, top, marks);
    uint32_t *real = look_through(g, marks, top, memory);
    uint32_t *row_of = scratch_zeroed(memory, (size_t)top + 1, sizeof *row_of);
    uint32_t *asked = scratch_get(memory, count, sizeof *asked);
    double *table = scratch_get(memory, SPREAD_DRAWS, sizeof *table);
    d->row = scratch_get(memory, count, sizeof *d->row);
    if (memory->failed)
        return false;
    size_t rows, uncertain = share_rows(g, nodes, count, real, row_of, asked, &rows);
    for (size_t i = 0; i < count; i++)
        d->row[i] = row_of[real[nodes[i]]] - 1;
    d->rows = scratch_get(memory, rows * SPREAD_DRAWS, sizeof *d->rows);
    struct steps steps;
    struct needs needs = { asked, uncertain, real, top };
    if (memory->failed || !steps_lay_out(g, needs, memory, &steps))
        return false;
    draws_table(table);
    steps_run(&steps, table, d->rows);
    for (size_t i = uncertain; i < rows; i++) {
        for (size_t k = 0; k < SPREAD_DRAWS; k++)
            d->rows[i * SPREAD_DRAWS + k] = graph_node(g, asked[i])->value;
    }
    return true;
}

struct draws *draws_of(const struct graph *g, const uint32_t *nodes, size_t count,
                       struct fault *f)
{
    struct scratch memory = scratch_of(g);
    struct draws *d = scratch_get(&memory, 1, sizeof *d);
    if (!d) {
        fault_no_memory(f);
        return NULL;
    }
    *d = (struct draws){ .memory = memory };
    if (!work_out(g, nodes, count, d)) {
        fault_no_memory(f);
        draws_free(d);
        return NULL;
    }
    return d;
}

void draws_free(struct draws *d)
{
    if (!d)
        return;
    struct scratch memory = d->memory; /* `d` lies in it */
    scratch_clear(&memory);
}

const double *draws_row(const struct draws *d, size_t i)
{
    return d->rows + d->row[i] * SPREAD_DRAWS;
}

size_t draws_row_number(const struct draws *d, size_t i)
{
    return d->row[i];
}

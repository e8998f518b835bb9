#include "quantity/steps.h"

#include "quantity/block.h"
#include "quantity/draws.h"
#include "quantity/node.h"
#include "quantity/scratch.h"
#include "quantity/steps_inner.h"

static bool uncertain(const struct layout *l, uint32_t node)
{
    return graph_node(l->g, node)->uncertain;
}

struct step *steps_emit(struct layout *l, enum kind kind, uint32_t out)
{
    struct step *step = &l->s->step[l->s->steps++];
    *step = (struct step){ .out = out, .kind = (uint8_t)kind };
    return step;
}

uint32_t steps_buffer(struct layout *l)
{
    return l->spare_count > 0 ? l->spare[--l->spare_count]
                              : (uint32_t)l->s->buffers_count++;
}

void steps_give_back(struct layout *l, uint32_t buffer)
{
    l->spare[l->spare_count++] = buffer;
}

uint32_t steps_place(struct layout *l, uint32_t node)
{
    if (l->place[node] == NOWHERE)
        l->place[node] = steps_buffer(l);
    return l->place[node];
}

static void emit_leaf(struct layout *l, uint32_t node)
{
    if (graph_node(l->g, node)->op == OP_SHARED) {
        steps_shared_leaf(l, node);
        return;
    }
    struct range r = graph_range_of(l->g, node);
    struct step *step = steps_emit(l, STEP_LEAF, steps_place(l, node));
    step->a = (uint32_t)l->s->leaves;
    l->s->leaf[l->s->leaves++] = (struct leaf_draw){
        .shape = two_piece_through(r.low, r.likely, r.high),
        .order = shuffle_of(r.key),
    };
}

uint32_t steps_read(struct layout *l, uint32_t operand)
{
    uint32_t node = l->real[operand];
    if (l->place[node] == NOWHERE)
        emit_leaf(l, node);
    return l->place[node];
}

void steps_release(struct layout *l, uint32_t operand)
{
    uint32_t node = l->real[operand];
    if (--l->uses[node] == 0 && !(l->place[node] & ROW))
        steps_give_back(l, l->place[node]);
}

struct pair_kinds {
    enum kind both, right_certain, left_certain;
};

static void emit_pair(struct layout *l, uint32_t i, struct pair_kinds kinds)
{
    const struct node *n = graph_node(l->g, i);
    bool left = uncertain(l, n->a), right = uncertain(l, n->b);
    uint32_t a = left ? steps_read(l, n->a) : NOWHERE;
    uint32_t b = right ? steps_read(l, n->b) : NOWHERE;
    struct step *step = steps_emit(l, left && right ? kinds.both
                                      : left        ? kinds.right_certain
                                                    : kinds.left_certain,
                                   steps_place(l, i));
    step->a = left ? a : b;
    step->b = b;
    step->k = graph_node(l->g, left ? n->b : n->a)->value;
    if (left)
        steps_release(l, n->a);
    if (right)
        steps_release(l, n->b);
}

static void emit_one(struct layout *l, uint32_t i, enum kind kind, double k)
{
    const struct node *n = graph_node(l->g, i);
    uint32_t a = steps_read(l, n->a);
    struct step *step = steps_emit(l, kind, steps_place(l, i));
    step->a = a;
    step->k = k;
    step->numerator = n->numerator;
    step->denominator = n->denominator;
    steps_release(l, n->a);
}

/* The next uncertain term of a sum. */
static bool next_term(const struct layout *l, uint32_t i, size_t *at, struct term *out)
{
    while (graph_term(l->g, i, (*at)++, out)) {
        if (out->node != NODE_NONE && uncertain(l, out->node))
            return true;
    }
    return false;
}

static double certain_terms(const struct layout *l, uint32_t i)
{
    struct term t;
    double total = 0;
    for (size_t at = 0; graph_term(l->g, i, at, &t); at++) {
        if (t.node == NODE_NONE)
            total += t.rest;
        else if (!uncertain(l, t.node))
            total += t.times * graph_node(l->g, t.node)->value;
    }
    return total;
}

/* Two terms at a time, so that the total is read and written half as often; the plain sum
 * and the plain difference of two have steps of their own. */
static void emit_sum(struct layout *l, uint32_t i)
{
    double start = certain_terms(l, i);
    struct term s, t;
    size_t at = 0;
    for (bool first = true; next_term(l, i, &at, &s); first = false) {
        bool two = next_term(l, i, &at, &t);
        uint32_t a = steps_read(l, s.node), b = two ? steps_read(l, t.node) : NOWHERE;
        enum kind kind = first ? (two ? STEP_PAIR : STEP_LINE)
                               : (two ? STEP_PAIR_INTO : STEP_INTO);
        if (first && two && start == 0 && s.times == 1 && t.times == 1)
            kind = STEP_ADD;
        else if (first && two && start == 0 && s.times == 1 && t.times == -1)
            kind = STEP_SUBTRACT;
        struct step *step = steps_emit(l, kind, steps_place(l, i));
        step->k = start;
        step->s = s.times;
        step->t = two ? t.times : 0;
        step->a = a;
        step->b = b;
        steps_release(l, s.node);
        if (two)
            steps_release(l, t.node);
    }
}

static void emit_node(struct layout *l, uint32_t i)
{
    const struct node *n = graph_node(l->g, i);
    switch ((enum op)n->op) {
    case OP_LEAF:
    case OP_NAME:
    case OP_SAY:
        break; /* certain, or looked through */
    case OP_RANGE:
    case OP_SHARED:
        if (l->place[i] != NOWHERE)
            emit_leaf(l, i); /* asked for itself; others when they are first read */
        break;
    case OP_SUM:
        emit_sum(l, i);
        break;
    case OP_MULTIPLY:
        emit_pair(l, i, (struct pair_kinds){ STEP_MULTIPLY, STEP_SCALE, STEP_SCALE });
        break;
    case OP_DIVIDE:
        emit_pair(l, i, (struct pair_kinds){ STEP_DIVIDE, STEP_DIVIDE_BY,
                                             STEP_DIVIDE_INTO });
        break;
    case OP_MIN:
        emit_pair(l, i, (struct pair_kinds){ STEP_MIN, STEP_AT_MOST, STEP_AT_MOST });
        break;
    case OP_MAX:
        emit_pair(l, i, (struct pair_kinds){ STEP_MAX, STEP_AT_LEAST, STEP_AT_LEAST });
        break;
    case OP_FORMULA:
        steps_formula(l, i);
        break;
    case OP_POWER:
        emit_one(l, i, STEP_POWER, 0);
        break;
    case OP_CEIL:
        emit_one(l, i, STEP_CEIL, unit_factor(graph_units(l->g), n->unit));
        break;
    case OP_FLOOR:
        emit_one(l, i, STEP_FLOOR, unit_factor(graph_units(l->g), n->unit));
        break;
    }
}

/* How often each node is read, and how many steps and leaves that can make at most. */
static void count_uses(struct layout *l, uint32_t top, size_t *steps, size_t *leaves)
{
    for (uint32_t i = 1; i <= top; i++) {
        if (l->real[i] != i || !uncertain(l, i))
            continue;
        ++*steps;
        *leaves += graph_node(l->g, i)->op == OP_RANGE;
        uint32_t operand;
        for (size_t k = 0; draws_operand(l->g, i, k, &operand); k++) {
            if (operand == NODE_NONE || !uncertain(l, operand))
                continue;
            l->uses[l->real[operand]]++;
            *steps += k > 0; /* a sum may take a step a term */
        }
    }
}

static void lay_out(struct layout *l, uint32_t top)
{
    for (uint32_t i = 1; i <= top; i++) {
        if (l->real[i] == i && uncertain(l, i))
            emit_node(l, i);
    }
}

bool steps_lay_out(const struct graph *g, struct needs needs, struct scratch *memory,
                   struct steps *out)
{
    *out = (struct steps){ 0 };
    struct layout l = { .g = g, .real = needs.real, .s = out };
    size_t places = (size_t)needs.top + 1, most = 0, leaves = 0;
    l.uses = scratch_zeroed(memory, places, sizeof *l.uses);
    l.place = scratch_get(memory, places, sizeof *l.place);
    if (memory->failed)
        return false;
    count_uses(&l, needs.top, &most, &leaves);
    if (!steps_count_shared(&l, needs.top, memory, &most, &leaves))
        return false;
    out->step = scratch_get(memory, most, sizeof *out->step);
    out->leaf = scratch_get(memory, leaves, sizeof *out->leaf);
    l.spare = scratch_get(memory, most, sizeof *l.spare);
    if (memory->failed)
        return false;
    for (size_t i = 0; i < places; i++)
        l.place[i] = NOWHERE;
    for (size_t i = 0; i < needs.count; i++)
        l.place[needs.asked[i]] = ROW | (uint32_t)i;
    lay_out(&l, needs.top);
    out->buffers = scratch_get(memory, out->buffers_count * BLOCK, sizeof *out->buffers);
    return !memory->failed;
}

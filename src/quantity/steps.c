#include "quantity/steps.h"

#include "quantity/block.h"
#include "quantity/draws.h"
#include "quantity/node.h"
#include "quantity/scratch.h"
#include "quantity/shuffle.h"
#include "quantity/spread.h"

_Static_assert((int)BLOCK == (int)SHUFFLE_BLOCK, "a leaf is ordered a block at a time");
_Static_assert((int)SPREAD_DRAWS == (int)SHUFFLE_SIZE, "a leaf takes each part once");

enum kind {
    STEP_LEAF, /* a: which leaf */
    STEP_ADD, STEP_SUBTRACT, STEP_LINE, STEP_PAIR, STEP_INTO, STEP_PAIR_INTO,
    STEP_MULTIPLY, STEP_SCALE,
    STEP_DIVIDE, STEP_DIVIDE_BY, STEP_DIVIDE_INTO,
    STEP_POWER,
    STEP_MIN, STEP_AT_MOST,
    STEP_MAX, STEP_AT_LEAST,
    STEP_CEIL, STEP_FLOOR
};

/* A place for a block: a buffer by number, or (with ROW) a row of the results. */
#define ROW (UINT32_C(1) << 31)
#define NOWHERE UINT32_MAX

struct step {
    double k, s, t;
    uint32_t out, a, b;
    uint8_t kind;
    int8_t numerator, denominator;
};

struct leaf_draw {
    struct two_piece shape;
    struct shuffle order;
};

/* What is known while the steps are laid out. */
struct layout {
    const struct graph *g;
    const uint32_t *real;
    struct steps *s;
    uint32_t *uses;  /* by node: how often it is still to be read */
    uint32_t *place; /* by node */
    uint32_t *spare; /* buffers taken back, the last on top */
    size_t spare_count;
};

static bool uncertain(const struct layout *l, uint32_t node)
{
    return graph_node(l->g, node)->uncertain;
}

static struct step *emit(struct layout *l, enum kind kind, uint32_t out)
{
    struct step *step = &l->s->step[l->s->steps++];
    *step = (struct step){ .out = out, .kind = (uint8_t)kind };
    return step;
}

/* A buffer for the node, or its row when it was asked for. */
static uint32_t place_for(struct layout *l, uint32_t node)
{
    if (l->place[node] == NOWHERE) {
        l->place[node] = l->spare_count > 0 ? l->spare[--l->spare_count]
                                            : (uint32_t)l->s->buffers_count++;
    }
    return l->place[node];
}

static void emit_leaf(struct layout *l, uint32_t node)
{
    struct range r = graph_range_of(l->g, node);
    struct step *step = emit(l, STEP_LEAF, place_for(l, node));
    step->a = (uint32_t)l->s->leaves;
    l->s->leaf[l->s->leaves++] = (struct leaf_draw){
        .shape = two_piece_through(r.low, r.likely, r.high),
        .order = shuffle_of(r.key),
    };
}

/* Where an operand's block lies; a leaf is drawn when it is first wanted. */
static uint32_t read(struct layout *l, uint32_t operand)
{
    uint32_t node = l->real[operand];
    if (l->place[node] == NOWHERE)
        emit_leaf(l, node);
    return l->place[node];
}

/* After the step that read it; only then may its buffer be written again. */
static void release(struct layout *l, uint32_t operand)
{
    uint32_t node = l->real[operand];
    if (--l->uses[node] == 0 && !(l->place[node] & ROW))
        l->spare[l->spare_count++] = l->place[node];
}

struct pair_kinds {
    enum kind both, right_certain, left_certain;
};

static void emit_pair(struct layout *l, uint32_t i, struct pair_kinds kinds)
{
    const struct node *n = graph_node(l->g, i);
    bool left = uncertain(l, n->a), right = uncertain(l, n->b);
    uint32_t a = left ? read(l, n->a) : NOWHERE, b = right ? read(l, n->b) : NOWHERE;
    struct step *step = emit(l, left && right ? kinds.both
                                : left        ? kinds.right_certain
                                              : kinds.left_certain, place_for(l, i));
    step->a = left ? a : b;
    step->b = b;
    step->k = graph_node(l->g, left ? n->b : n->a)->value;
    if (left)
        release(l, n->a);
    if (right)
        release(l, n->b);
}

static void emit_one(struct layout *l, uint32_t i, enum kind kind, double k)
{
    const struct node *n = graph_node(l->g, i);
    uint32_t a = read(l, n->a);
    struct step *step = emit(l, kind, place_for(l, i));
    step->a = a;
    step->k = k;
    step->numerator = n->numerator;
    step->denominator = n->denominator;
    release(l, n->a);
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
        uint32_t a = read(l, s.node), b = two ? read(l, t.node) : NOWHERE;
        enum kind kind = first ? (two ? STEP_PAIR : STEP_LINE)
                               : (two ? STEP_PAIR_INTO : STEP_INTO);
        if (first && two && start == 0 && s.times == 1 && t.times == 1)
            kind = STEP_ADD;
        else if (first && two && start == 0 && s.times == 1 && t.times == -1)
            kind = STEP_SUBTRACT;
        struct step *step = emit(l, kind, place_for(l, i));
        step->k = start;
        step->s = s.times;
        step->t = two ? t.times : 0;
        step->a = a;
        step->b = b;
        release(l, s.node);
        if (two)
            release(l, t.node);
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

struct bench {
    double *buffers, *results;
    size_t from; /* first draw of this block */
};

static double *at(const struct bench *w, uint32_t place)
{
    if (place & ROW)
        return w->results + (size_t)(place & ~ROW) * SPREAD_DRAWS + w->from;
    return w->buffers + (size_t)place * BLOCK;
}

static void draw_leaf(const struct leaf_draw *leaf, const double *table,
                      const struct bench *w, double *out)
{
    uint16_t order[BLOCK];
    shuffle_block(&leaf->order, (unsigned)w->from, order);
    block_leaf(out, leaf->shape, table, order);
}

static void take(const struct steps *all, const struct step *p, const double *table,
                 const struct bench *w)
{
    double *out = at(w, p->out);
    if (p->kind == STEP_LEAF) {
        draw_leaf(&all->leaf[p->a], table, w, out);
        return;
    }
    const double *a = at(w, p->a);
    const double *b = p->b == NOWHERE ? NULL : at(w, p->b);
    switch ((enum kind)p->kind) {
    case STEP_LEAF: break; /* above */
    case STEP_ADD: block_add(out, a, b); break;
    case STEP_SUBTRACT: block_subtract(out, a, b); break;
    case STEP_LINE: block_line(out, p->k, p->s, a); break;
    case STEP_PAIR: block_pair(out, p->k, p->s, a, p->t, b); break;
    case STEP_INTO: block_into(out, p->s, a); break;
    case STEP_PAIR_INTO: block_pair_into(out, p->s, a, p->t, b); break;
    case STEP_MULTIPLY: block_multiply(out, a, b); break;
    case STEP_SCALE: block_scale(out, a, p->k); break;
    case STEP_DIVIDE: block_divide(out, a, b); break;
    case STEP_DIVIDE_BY: block_divide_by(out, a, p->k); break;
    case STEP_DIVIDE_INTO: block_divide_into(out, p->k, a); break;
    case STEP_POWER: block_power(out, a, p->numerator, p->denominator); break;
    case STEP_MIN: block_min(out, a, b); break;
    case STEP_AT_MOST: block_at_most(out, a, p->k); break;
    case STEP_MAX: block_max(out, a, b); break;
    case STEP_AT_LEAST: block_at_least(out, a, p->k); break;
    case STEP_CEIL: block_ceil(out, a, p->k); break;
    case STEP_FLOOR: block_floor(out, a, p->k); break;
    }
}

void steps_run(const struct steps *s, const double *table, double *results)
{
    struct bench w = { .buffers = s->buffers, .results = results };
    for (; w.from < SPREAD_DRAWS; w.from += BLOCK) {
        for (size_t i = 0; i < s->steps; i++)
            take(s, &s->step[i], table, &w);
    }
}

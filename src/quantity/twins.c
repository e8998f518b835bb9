#include "quantity/twins.h"

#include <string.h>

#include "quantity/node.h"
#include "quantity/scratch.h"

struct twins twins_of(const struct graph *g, const uint32_t *real, size_t count,
                      struct scratch *memory)
{
    size_t room = 16;
    while (room < count * 2)
        room *= 2;
    struct twins t = { g, real, scratch_zeroed(memory, room, sizeof *t.slots),
                       (uint32_t)(room - 1) };
    return t;
}

static uint64_t mix(uint64_t hash, uint64_t more)
{
    hash = (hash ^ more) * UINT64_C(0x9e3779b97f4a7c15);
    return hash ^ hash >> 29;
}

static uint64_t bits_of(double value)
{
    uint64_t bits;
    memcpy(&bits, &value, sizeof bits);
    return bits;
}

static uint64_t mix_operand(const struct twins *t, uint64_t hash, uint32_t operand)
{
    const struct node *n = graph_node(t->g, operand);
    return mix(hash, n->uncertain ? t->real[operand] : bits_of(n->value));
}

static bool same_number(double a, double b)
{
    return bits_of(a) == bits_of(b);
}

static bool same_operand(const struct twins *t, uint32_t a, uint32_t b)
{
    const struct node *x = graph_node(t->g, a), *y = graph_node(t->g, b);
    if (x->uncertain != y->uncertain)
        return false;
    return x->uncertain ? t->real[a] == t->real[b] : same_number(x->value, y->value);
}

static uint64_t hash_sum(const struct twins *t, uint64_t hash, uint32_t node)
{
    struct term term;
    for (size_t i = 0; graph_term(t->g, node, i, &term); i++) {
        if (term.node == NODE_NONE)
            hash = mix(hash, bits_of(term.rest));
        else
            hash = mix_operand(t, mix(hash, bits_of(term.times)), term.node);
    }
    return hash;
}

static uint64_t hash_causes(const struct twins *t, uint64_t hash, uint32_t node)
{
    struct causes c = graph_causes_of(t->g, node);
    for (size_t i = 0; i < c.count; i++)
        hash = mix(mix(hash, c.list[i].key), bits_of(c.list[i].weight));
    return hash;
}

static uint64_t hash_equation(const struct twins *t, uint64_t hash, uint32_t node)
{
    struct equation e = graph_equation_of(t->g, node);
    for (size_t i = 0; i < e.count; i++)
        hash = mix_operand(t, hash, e.operands[i].node);
    for (size_t i = 0; i < e.with_count; i++)
        hash = mix(hash, bits_of(e.with[i]));
    return hash;
}

static uint64_t hash_of(const struct twins *t, uint32_t node)
{
    const struct node *n = graph_node(t->g, node);
    uint64_t hash = mix(n->op, 1);
    switch ((enum op)n->op) {
    case OP_RANGE: return mix(hash, graph_range_of(t->g, node).key);
    case OP_SHARED: return hash_causes(t, hash, node);
    case OP_SUM: return hash_sum(t, hash, node);
    case OP_FORMULA: return hash_equation(t, hash, node);
    case OP_MULTIPLY:
    case OP_DIVIDE:
    case OP_MIN:
    case OP_MAX: return mix_operand(t, mix_operand(t, hash, n->a), n->b);
    case OP_LEAF:
    case OP_POWER:
    case OP_CEIL:
    case OP_FLOOR:
    case OP_SAY:
    case OP_NAME: break;
    }
    return mix_operand(t, hash, n->a);
}

static bool same_sum(const struct twins *t, uint32_t a, uint32_t b)
{
    struct term x, y;
    for (size_t i = 0;; i++) {
        bool more = graph_term(t->g, a, i, &x);
        if (graph_term(t->g, b, i, &y) != more)
            return false;
        if (!more)
            return true;
        if ((x.node == NODE_NONE) != (y.node == NODE_NONE))
            return false;
        if (x.node == NODE_NONE
                ? !same_number(x.rest, y.rest)
                : !same_number(x.times, y.times) || !same_operand(t, x.node, y.node))
            return false;
    }
}

static bool same_range(const struct twins *t, uint32_t a, uint32_t b)
{
    struct range x = graph_range_of(t->g, a), y = graph_range_of(t->g, b);
    return x.key == y.key && same_number(x.low, y.low) &&
           same_number(x.likely, y.likely) && same_number(x.high, y.high);
}

static bool same_shared(const struct twins *t, uint32_t a, uint32_t b)
{
    struct causes x = graph_causes_of(t->g, a), y = graph_causes_of(t->g, b);
    if (!same_range(t, a, b) || x.count != y.count)
        return false;
    for (size_t i = 0; i < x.count; i++) {
        if (x.list[i].key != y.list[i].key
            || !same_number(x.list[i].weight, y.list[i].weight))
            return false;
    }
    return true;
}

static bool same_equation(const struct twins *t, uint32_t a, uint32_t b)
{
    struct equation x = graph_equation_of(t->g, a), y = graph_equation_of(t->g, b);
    if (x.formula != y.formula || x.count != y.count || x.with_count != y.with_count
        || graph_node(t->g, a)->unit.i != graph_node(t->g, b)->unit.i)
        return false;
    for (size_t i = 0; i < x.count; i++) {
        const struct formula_operand *o = &x.operands[i], *p = &y.operands[i];
        if (o->in.i != p->in.i || !same_operand(t, o->node, p->node))
            return false;
    }
    for (size_t i = 0; i < x.with_count; i++) {
        if (!same_number(x.with[i], y.with[i]))
            return false;
    }
    return true;
}

static bool are_twins(const struct twins *t, uint32_t a, uint32_t b)
{
    const struct node *x = graph_node(t->g, a), *y = graph_node(t->g, b);
    if (x->op != y->op)
        return false;
    switch ((enum op)x->op) {
    case OP_RANGE: return same_range(t, a, b);
    case OP_SHARED: return same_shared(t, a, b);
    case OP_SUM: return same_sum(t, a, b);
    case OP_FORMULA: return same_equation(t, a, b);
    case OP_MULTIPLY:
    case OP_DIVIDE:
    case OP_MIN:
    case OP_MAX: return same_operand(t, x->a, y->a) && same_operand(t, x->b, y->b);
    case OP_POWER:
        return x->numerator == y->numerator && x->denominator == y->denominator &&
               same_operand(t, x->a, y->a);
    case OP_CEIL:
    case OP_FLOOR: return x->unit.i == y->unit.i && same_operand(t, x->a, y->a);
    case OP_LEAF:
    case OP_SAY:
    case OP_NAME: break;
    }
    return false;
}

uint32_t twins_first(struct twins *t, uint32_t node)
{
    if (!t->slots)
        return node;
    uint32_t at = (uint32_t)hash_of(t, node) & t->mask;
    for (; t->slots[at] != 0; at = (at + 1) & t->mask) {
        if (are_twins(t, t->slots[at], node))
            return t->slots[at];
    }
    t->slots[at] = node;
    return node;
}

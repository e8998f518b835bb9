/* Steps of shared leaves and of equations. */
#include <stdlib.h>

#include "quantity/node.h"
#include "quantity/scratch.h"
#include "quantity/steps_inner.h"

struct totals {
    size_t shared, causes, equations, operands;
};

static bool is_needed(const struct layout *l, uint32_t i)
{
    return l->real[i] == i && graph_node(l->g, i)->uncertain;
}

static struct totals count_all(const struct layout *l, uint32_t top)
{
    struct totals t = { 0 };
    for (uint32_t i = 1; i <= top; i++) {
        if (!is_needed(l, i))
            continue;
        enum op op = (enum op)graph_node(l->g, i)->op;
        if (op == OP_SHARED) {
            t.shared++;
            t.causes += graph_causes_of(l->g, i).count;
        } else if (op == OP_FORMULA) {
            t.equations++;
            t.operands += graph_equation_of(l->g, i).count;
        }
    }
    return t;
}

static int by_key(const void *a, const void *b)
{
    const struct cause_draw *x = a, *y = b;
    return x->key < y->key ? -1 : x->key > y->key;
}

/* The causes of all shared leaves by key, each once, with how many lean on it. */
static void list_causes(struct layout *l, uint32_t top)
{
    struct cause_draw *list = l->causes;
    size_t count = 0, kept = 0;
    for (uint32_t i = 1; i <= top; i++) {
        if (!is_needed(l, i) || graph_node(l->g, i)->op != OP_SHARED)
            continue;
        struct causes c = graph_causes_of(l->g, i);
        for (size_t k = 0; k < c.count; k++)
            list[count++] = (struct cause_draw){ c.list[k].key, 1, NOWHERE };
    }
    if (count > 0)
        qsort(list, count, sizeof *list, by_key);
    for (size_t i = 0; i < count; i++) {
        if (kept > 0 && list[kept - 1].key == list[i].key)
            list[kept - 1].uses++;
        else
            list[kept++] = list[i];
    }
    l->causes_count = kept;
}

bool steps_count_shared(struct layout *l, uint32_t top, struct scratch *memory,
                        size_t *most, size_t *leaves)
{
    struct totals t = count_all(l, top);
    struct steps *s = l->s;
    l->causes = scratch_get(memory, t.causes, sizeof *l->causes);
    s->equation = scratch_get(memory, t.equations, sizeof *s->equation);
    s->operand = scratch_get(memory, t.operands, sizeof *s->operand);
    if (memory->failed)
        return false;
    list_causes(l, top);
    *most += t.causes + t.shared + l->causes_count;
    *leaves += t.shared + l->causes_count;
    return true;
}

static struct cause_draw *cause_of(const struct layout *l, uint64_t key)
{
    struct cause_draw wanted = { .key = key };
    return bsearch(&wanted, l->causes, l->causes_count, sizeof wanted, by_key);
}

/* Where the scores of a cause lie; they are drawn when they are first wanted. */
static uint32_t read_cause(struct layout *l, struct cause_draw *c)
{
    if (c->place == NOWHERE) {
        c->place = steps_buffer(l);
        struct step *step = steps_emit(l, STEP_SCORE, c->place);
        step->a = (uint32_t)l->s->leaves;
        l->s->leaf[l->s->leaves++] = (struct leaf_draw){ .order = shuffle_of(c->key) };
    }
    return c->place;
}

static void release_cause(struct layout *l, struct cause_draw *c)
{
    if (--c->uses == 0)
        steps_give_back(l, c->place);
}

/* The score of the leaf, two causes at a time, then the figure that stands there. */
void steps_shared_leaf(struct layout *l, uint32_t node)
{
    struct causes of = graph_causes_of(l->g, node);
    struct range r = graph_range_of(l->g, node);
    uint32_t out = steps_place(l, node);
    for (size_t i = 0; i < of.count; i += 2) {
        bool two = i + 1 < of.count;
        struct cause_draw *a = cause_of(l, of.list[i].key);
        struct cause_draw *b = two ? cause_of(l, of.list[i + 1].key) : NULL;
        uint32_t first = read_cause(l, a), second = two ? read_cause(l, b) : NOWHERE;
        struct step *step = steps_emit(l, i == 0 ? (two ? STEP_PAIR : STEP_LINE)
                                                 : (two ? STEP_PAIR_INTO : STEP_INTO),
                                       out);
        step->s = of.list[i].weight;
        step->t = two ? of.list[i + 1].weight : 0;
        step->a = first;
        step->b = second;
        release_cause(l, a);
        if (two)
            release_cause(l, b);
    }
    struct step *step = steps_emit(l, STEP_BEND, out);
    step->a = (uint32_t)l->s->leaves;
    l->s->leaf[l->s->leaves++] =
        (struct leaf_draw){ .shape = two_piece_through(r.low, r.likely, r.high) };
}

void steps_formula(struct layout *l, uint32_t node)
{
    const struct units *u = graph_units(l->g);
    struct equation e = graph_equation_of(l->g, node);
    struct steps *s = l->s;
    struct equation_draw *draw = &s->equation[s->equations];
    *draw = (struct equation_draw){
        .value = e.formula->value,
        .with = e.with,
        .size = unit_factor(u, graph_node(l->g, node)->unit),
        .first = (uint32_t)s->operands,
        .count = (uint32_t)e.count,
    };
    for (size_t i = 0; i < e.count; i++) {
        const struct formula_operand *o = &e.operands[i];
        const struct node *n = graph_node(l->g, o->node);
        double size = unit_factor(u, o->in);
        s->operand[s->operands++] = (struct operand_draw){
            .value = n->value / size,
            .size = size,
            .place = n->uncertain ? steps_read(l, o->node) : NOWHERE,
        };
    }
    struct step *step = steps_emit(l, STEP_FORMULA, steps_place(l, node));
    step->a = (uint32_t)s->equations++;
    for (size_t i = 0; i < e.count; i++) {
        if (graph_node(l->g, e.operands[i].node)->uncertain)
            steps_release(l, e.operands[i].node);
    }
}

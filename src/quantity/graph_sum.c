/* Sums: n-ary, flattened as they grow. A sum of one or two terms keeps them in the node
 * (operands a and b, how often in `numerator` and `denominator`); a longer one sees a
 * stretch of a vector that it shares with the sums it grew out of. A running sum so costs
 * one node and one view a step, whatever its length. */
#include <limits.h>
#include <math.h>
#include <string.h>

#include "base/fault.h"
#include "quantity/graph_inner.h"

/* A sum under construction. */
struct sum {
    uint32_t vector; /* 0: the terms are in `pair` */
    uint32_t length; /* terms but the rest */
    struct entry pair[2];
    double last; /* times of the last term, when in a vector */
    double rest;
    uint64_t rest_count;
};

static uint32_t vector_new(struct graph *g, uint32_t room, struct fault *f)
{
    uint32_t id = g->free_vector;
    if (id) {
        g->free_vector = g->vectors[id].next;
    } else {
        if (g->vectors_count >= g->vectors_capacity) {
            struct vector *moved = memory_grow(&g->memory, g->vectors,
                                               &g->vectors_capacity,
                                               g->vectors_count + 1, sizeof *g->vectors);
            if (!moved)
                return fault_no_memory(f);
            g->vectors = moved;
        }
        id = (uint32_t)g->vectors_count++;
        g->vectors[id] = (struct vector){ .list = NULL };
    }
    struct vector *v = &g->vectors[id];
    v->count = 0;
    v->next = 0;
    if (v->capacity >= room)
        return id;
    size_t capacity = v->capacity;
    struct entry *list = memory_grow(&g->memory, v->list, &capacity, room, sizeof *list);
    if (!list || capacity > UINT32_MAX) {
        v->next = g->free_vector;
        g->free_vector = id;
        return fault_no_memory(f);
    }
    g->entries_bytes += (capacity - v->capacity) * sizeof *list;
    v->list = list;
    v->capacity = (uint32_t)capacity;
    return id;
}

static bool vector_append(struct graph *g, uint32_t id, struct entry e, struct fault *f)
{
    struct vector *v = &g->vectors[id];
    if (v->count == v->capacity) {
        size_t capacity = v->capacity;
        struct entry *list = capacity > UINT32_MAX / 4 ? NULL
                             : memory_grow(&g->memory, v->list, &capacity, capacity + 1,
                                           sizeof *list);
        if (!list)
            return fault_no_memory(f);
        g->entries_bytes += (capacity - v->capacity) * sizeof *list;
        v->list = list;
        v->capacity = (uint32_t)capacity;
    }
    v->list[v->count++] = e;
    return true;
}

/* A sum of just this one node. */
static inline void sum_one(struct sum *s, uint32_t index)
{
    s->vector = 0;
    s->length = 1;
    s->pair[0] = (struct entry){ 1, index };
    s->pair[1] = (struct entry){ 0, NODE_NONE };
    s->last = 0;
    s->rest = 0;
    s->rest_count = 0;
}

/* The sum that a node is, or a sum of just that node. */
static inline void sum_of(const struct graph *g, uint32_t index, struct sum *s)
{
    const struct node *n = &g->nodes[index];
    if (n->op == OP_SUM && n->detail) {
        const struct view *v = &g->views[n->detail];
        *s = (struct sum){ .vector = v->vector, .length = v->length, .last = v->last,
                           .rest = v->rest, .rest_count = v->rest_count };
        return;
    }
    sum_one(s, index);
    if (n->op != OP_SUM)
        return;
    s->length = n->b ? 2 : 1;
    s->pair[0] = (struct entry){ n->numerator, n->a };
    s->pair[1] = (struct entry){ n->denominator, n->b };
}

static inline struct entry sum_entry(const struct graph *g, const struct sum *s,
                                     uint32_t i)
{
    if (s->vector == 0)
        return s->pair[i];
    struct entry e = g->vectors[s->vector].list[i];
    if (i + 1 == s->length)
        e.times = s->last;
    return e;
}

/* Moves the terms into a vector of their own, with room for one more. */
static bool sum_copy(struct graph *g, struct sum *s, struct fault *f)
{
    uint32_t id = vector_new(g, s->length + 1, f);
    if (!id)
        return false;
    struct vector *v = &g->vectors[id];
    for (uint32_t i = 0; i < s->length; i++)
        v->list[i] = sum_entry(g, s, i);
    v->count = s->length;
    s->last = v->list[s->length - 1].times;
    s->vector = id;
    return true;
}

static bool sum_put(struct graph *g, struct sum *s, struct entry e, struct fault *f)
{
    if (s->vector == 0) {
        if (s->length < 2) {
            s->pair[s->length++] = e;
            return true;
        }
        if (!sum_copy(g, s, f))
            return false;
    } else if (g->vectors[s->vector].count != s->length && !sum_copy(g, s, f)) {
        return false;
    }
    g->vectors[s->vector].list[s->length - 1].times = s->last;
    if (!vector_append(g, s->vector, e, f))
        return false;
    s->last = e.times;
    s->length++;
    return true;
}

/* One more term. The same as the last one only raises its `times`; past the first
 * SUM_SHOWN, a certain term without a name goes into the rest. */
static bool sum_push(struct graph *g, struct sum *s, struct entry e, struct fault *f)
{
    double *last = s->vector ? &s->last : &s->pair[s->length - 1].times;
    if (sum_entry(g, s, s->length - 1).node == e.node && (*last > 0) == (e.times > 0)) {
        *last += e.times;
        return true;
    }
    const struct node *n = &g->nodes[e.node];
    if (s->length >= SUM_SHOWN && !n->uncertain && n->op != OP_NAME) {
        s->rest += e.times * n->value;
        s->rest_count++;
        return true;
    }
    return sum_put(g, s, e, f);
}

/* All terms of another sum, each `times` as often. */
static bool sum_push_all(struct graph *g, struct sum *s, const struct sum *other,
                         double times, struct fault *f)
{
    for (uint32_t i = 0; i < other->length; i++) {
        struct entry e = sum_entry(g, other, i);
        e.times *= times;
        if (!sum_push(g, s, e, f))
            return false;
    }
    s->rest += times * other->rest;
    s->rest_count += other->rest_count;
    return true;
}

static bool is_small(const struct entry *e)
{
    return fabs(e->times) <= INT8_MAX;
}

static bool views_room(struct graph *g, struct fault *f)
{
    if (g->views_count < g->views_capacity)
        return true;
    struct view *moved = memory_grow(&g->memory, g->views, &g->views_capacity,
                                     g->views_count + 1, sizeof *g->views);
    if (!moved)
        return fault_no_memory(f);
    g->views = moved;
    return true;
}

/* Puts the terms of a complete sum into its node. There is room for a view. */
static bool sum_done(struct graph *g, struct sum *s, struct node *n, struct fault *f)
{
    bool small = s->vector == 0 && is_small(&s->pair[0])
                 && (s->length < 2 || is_small(&s->pair[1]));
    if (small) {
        n->a = s->pair[0].node;
        n->numerator = (int8_t)s->pair[0].times;
        n->b = s->pair[1].node;
        n->denominator = (int8_t)s->pair[1].times;
        return true;
    }
    if (s->vector == 0 && !sum_copy(g, s, f))
        return false;
    n->detail = (uint32_t)g->views_count;
    struct view *v = &g->views[g->views_count++];
    v->vector = s->vector;
    v->length = s->length;
    v->last = s->last;
    v->rest = s->rest;
    v->rest_count = s->rest_count;
    return true;
}

/* A long sum whose vector has gone on without it becomes a term rather than be copied for
 * every sum that starts from it. */
static bool is_left_behind(const struct graph *g, const struct sum *s)
{
    return s->vector && g->vectors[s->vector].count != s->length && s->length > SUM_SHOWN;
}

/* The terms of x and y brought together, in the node n. */
static bool add_terms(struct graph *g, uint32_t x, uint32_t y, int sign, struct node *n,
                      struct fault *f)
{
    enum { FEW = 8 };
    struct sum s, t;
    if (!views_room(g, f))
        return false;
    sum_of(g, x, &s);
    if (is_left_behind(g, &s))
        sum_one(&s, x);
    if (g->nodes[y].op != OP_SUM)
        return sum_push(g, &s, (struct entry){ sign, y }, f) && sum_done(g, &s, n, f);
    sum_of(g, y, &t);
    if (t.length <= FEW)
        return sum_push_all(g, &s, &t, sign, f) && sum_done(g, &s, n, f);
    /* a + (long sum): the same terms, the new one last, so that a sum may also be built
     * from its other end. */
    if (g->nodes[x].op != OP_SUM && sign > 0 && !is_left_behind(g, &t))
        return sum_push(g, &t, (struct entry){ 1, x }, f) && sum_done(g, &t, n, f);
    return sum_push(g, &s, (struct entry){ sign, y }, f) && sum_done(g, &s, n, f);
}

struct qty graph_add_signed(struct graph *g, struct qty a, struct qty b, int sign,
                            const char *verb, struct fault *f)
{
    if (!qty_is(a) || !qty_is(b) || !graph_room(g, f))
        return QTY_NONE;
    uint32_t x = graph_index(g, a), y = graph_index(g, b);
    const struct node *p = &g->nodes[x], *q = &g->nodes[y];
    if (p->kind != q->kind && !graph_fits(g, a, b, verb, f))
        return QTY_NONE;
    double value = p->value + sign * q->value;
    bool uncertain = p->uncertain || q->uncertain;
    if (!graph_finite(g, value, verb, x, y, f))
        return QTY_NONE;
    struct node *n = graph_next(g);
    *n = (struct node){ .value = value, .kind = p->kind, .unit = p->unit, .op = OP_SUM,
                        .uncertain = uncertain };
    if (p->op != OP_SUM && q->op != OP_SUM && x != y) {
        n->a = x; /* the commonest: two terms and nothing to flatten */
        n->b = y;
        n->numerator = 1;
        n->denominator = (int8_t)sign;
    } else if (!add_terms(g, x, y, sign, n, f)) {
        return QTY_NONE;
    }
    return graph_done(g);
}

struct qty graph_sum(struct graph *g, const struct qty *terms, size_t count,
                     struct fault *f)
{
    if (count == 0)
        return graph_leaf(g, 0, UNIT_NUMBER, (struct origin){ { 0, 0, 0 }, NULL }, f);
    if (count == 1)
        return graph_hold(g, terms[0], f);
    for (size_t i = 0; i < count; i++)
        if (!qty_is(terms[i]) || !graph_fits(g, terms[0], terms[i], "add", f))
            return QTY_NONE;
    if (!graph_room(g, f) || !views_room(g, f))
        return QTY_NONE;
    uint32_t first = graph_index(g, terms[0]);
    const struct node *p = &g->nodes[first];
    struct node *n = graph_next(g);
    *n = (struct node){ .value = p->value, .kind = p->kind, .unit = p->unit, .op = OP_SUM,
                        .uncertain = p->uncertain };
    struct sum s, t;
    sum_of(g, first, &s);
    for (size_t i = 1; i < count; i++) {
        uint32_t x = graph_index(g, terms[i]);
        sum_of(g, x, &t);
        n->value += g->nodes[x].value;
        n->uncertain = n->uncertain || g->nodes[x].uncertain;
        if (!graph_finite(g, n->value, "add", first, x, f)
            || !sum_push_all(g, &s, &t, 1, f))
            return QTY_NONE;
    }
    return sum_done(g, &s, n, f) ? graph_done(g) : QTY_NONE;
}

bool graph_term(const struct graph *g, uint32_t index, size_t i, struct term *out)
{
    struct sum s;
    sum_of(g, index, &s);
    if (i < s.length) {
        struct entry e = sum_entry(g, &s, (uint32_t)i);
        *out = (struct term){ .node = e.node, .times = e.times };
        return true;
    }
    if (i > s.length || s.rest_count == 0)
        return false;
    *out = (struct term){ .node = NODE_NONE, .times = 1, .rest = s.rest,
                          .rest_count = (size_t)s.rest_count };
    return true;
}

/* graph_inner.h: how the graph is stored, for the files of this module.
 *
 *     if (!graph_room(g, f)) return QTY_NONE;   // may collect: read indices after it
 *     uint32_t x = graph_node_of(g, a);
 *     *graph_next(g) = (struct node){ .op = OP_POWER, .a = x, ... };
 *     return graph_done(g);
 *
 * Slots in use form one list in the order in which they were handed out, with the marks
 * of open scopes among them, so that closing a scope walks only what it releases. */
#ifndef SPINNEY_QUANTITY_GRAPH_INNER_H
#define SPINNEY_QUANTITY_GRAPH_INNER_H

#include <math.h>

#include "quantity/graph_pool.h"
#include "quantity/node.h"

enum {
    GRAPH_FLOOR = 1024, /* nodes made before a collection is worth its while */
    GRAPH_RECENT = 32,
    SUM_SHOWN = 64      /* terms kept apart in a sum of certain terms; see node.h */
};

struct slot {
    uint32_t node; /* NODE_NONE: free, or the mark of a scope */
    uint32_t before, after;
};

/* One term of a vector of terms. */
struct entry {
    double times;
    uint32_t node;
};

/* Terms shared by the sums that grew out of one another: each sees a stretch from the
 * start. One that sees all may add its next term in place; others copy, or become a term.
 * Which of these must not depend on what is collected, so `count` never goes down. */
struct vector {
    struct entry *list;
    uint32_t count, capacity;
    uint32_t live; /* collecting: the longest stretch that a live sum sees */
    uint32_t next; /* of those free for use */
};

/* What one sum sees. `last` stands for the vector's own `times` of the last term, which
 * belongs to whichever sum has gone on from there. */
struct view {
    uint32_t vector, length;
    double last, rest;
    uint64_t rest_count;
};

/* One OP_SHARED; its causes are a stretch of the list of all. */
struct shared {
    struct range range;
    uint32_t first, count;
};

/* One OP_FORMULA; its operands and numbers are stretches of the lists of all. */
struct kept_equation {
    const struct formula *formula;
    uint32_t first, count;
    uint32_t first_with, with_count;
};

/* An origin as it is kept. */
struct kept_origin {
    uint32_t source, at, length, words;
};
struct recent_origin {
    struct span at;
    uint32_t id; /* 0: none */
};

struct graph {
    struct units *units;
    struct memory memory;
    struct node *nodes;
    uint32_t *moved; /* as long as nodes, so that collecting needs no memory */
    uint32_t count, limit; /* limit: collect when this many are reached */
    size_t capacity;
    struct slot *slots; /* slot 0 is the ends of the list */
    size_t slots_count, slots_capacity;
    uint32_t free_slot;
    struct range *ranges;
    size_t ranges_count, ranges_capacity;
    struct shared *shared;
    size_t shared_count, shared_capacity;
    struct cause *causes;
    size_t causes_count, causes_capacity;
    struct kept_equation *equations;
    size_t equations_count, equations_capacity;
    struct formula_operand *operands;
    size_t operands_count, operands_capacity;
    double *with;
    size_t with_count, with_capacity;
    struct view *views;
    size_t views_count, views_capacity;
    struct vector *vectors;
    size_t vectors_count, vectors_capacity;
    uint32_t free_vector;
    size_t terms_live; /* seen by sums at the last collection */
    size_t entries_bytes;
    struct pool texts;   /* names and words */
    struct pool origins; /* struct kept_origin as bytes */
    /* Places lately met, by where they are, so that a loop need not look them up. */
    struct recent_origin recent[GRAPH_RECENT];
    struct ahead *ahead; /* draws that are kept; NULL for none */
};

/* Room for a node and for its slot. Collects when it is time to: indices read before are
 * no longer good after it. */
bool graph_room_slowly(struct graph *g, struct fault *f);
/* So many nodes are made before the next collection, where there is memory for them. */
void graph_room_for(struct graph *g, uint32_t nodes);
static inline bool graph_room(struct graph *g, struct fault *f)
{
    if (g->count < g->limit && g->free_slot)
        return true;
    return graph_room_slowly(g, f);
}
/* Where the next node goes: filled in place (a copy of what was just written costs more
 * than all the rest of an addition), then taken on by graph_done, which cannot fail. */
static inline struct node *graph_next(struct graph *g)
{
    return &g->nodes[g->count];
}
static inline struct qty graph_hand_out(struct graph *g, uint32_t node)
{
    uint32_t slot = g->free_slot, last = g->slots[0].before;
    struct slot *s = &g->slots[slot];
    g->free_slot = s->after;
    *s = (struct slot){ node, last, 0 };
    g->slots[last].after = slot;
    g->slots[0].before = slot;
    return (struct qty){ slot };
}
static inline struct qty graph_done(struct graph *g)
{
    return graph_hand_out(g, g->count++);
}
static inline void graph_give_back(struct graph *g, uint32_t slot)
{
    struct slot *s = &g->slots[slot];
    g->slots[s->before].after = s->after;
    g->slots[s->after].before = s->before;
    *s = (struct slot){ NODE_NONE, 0, g->free_slot };
    g->free_slot = slot;
}
static inline uint32_t graph_index(const struct graph *g, struct qty q)
{
    return g->slots[q.slot].node;
}
/* "felling cost (3,150 USD)" or "3,150 USD". */
struct buf;
void graph_put(const struct graph *g, uint32_t node, struct buf *out);
const char *graph_node_label(const struct graph *g, uint32_t node); /* NULL: unnamed */

/* graph_fits.c: says that x `verb` y ("add", "divide", ...) gives no number that can be
 * counted with; y 0 for none. */
bool graph_not_finite(const struct graph *g, const char *verb, uint32_t x, uint32_t y,
                      struct fault *f);
static inline bool graph_finite(const struct graph *g, double value, const char *verb,
                                uint32_t x, uint32_t y, struct fault *f)
{
    return isfinite(value) || graph_not_finite(g, verb, x, y, f);
}
/* May x be said in that unit? Else dimension-say. */
bool graph_says_in(const struct graph *g, uint32_t x, struct unit_id unit,
                   struct fault *f);

/* graph_leaf.c. The id of an origin, 0 for none. */
bool graph_origin_put(struct graph *g, struct origin from, uint32_t *out,
                      struct fault *f);
/* Three figures in `unit` as a range in base units, when they are finite and in order. */
bool graph_range_read(const struct graph *g, double low, double likely, double high,
                      struct unit_id unit, struct range *out, struct fault *f);

/* graph_shared.c, graph_formula.c. Collecting: a live node, in the order of nodes, after
 * the counts of what they keep were set to 0. */
void graph_shared_move(struct graph *g, struct node *n);
void graph_formula_move(struct graph *g, struct node *n);

/* graph_sum.c: a + sign x b. */
struct qty graph_add_signed(struct graph *g, struct qty a, struct qty b, int sign,
                            const char *verb, struct fault *f);

#endif

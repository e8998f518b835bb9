/* node.h: what the graph is made of, for the other modules of this room (draws,
 * explanations) and for its tests. No other room includes it.
 *
 *     uint32_t n = graph_node_of(g, q);
 *     const struct node *node = graph_node(g, n);
 *     if (node->op == OP_SUM) while (graph_term(g, n, i++, &term)) ...
 *
 * Operands always have smaller indices than what is made of them. Indices are good until
 * the graph next makes a node or collects. */
#ifndef SPINNEY_QUANTITY_NODE_H
#define SPINNEY_QUANTITY_NODE_H

#include "quantity/graph.h"

enum op {
    OP_LEAF,     /* a value typed, measured or published */
    OP_RANGE,    /* an uncertain leaf: see graph_range_of */
    OP_SHARED,   /* a range that shares its doubt: see graph_range_of, graph_causes_of */
    OP_SUM,      /* n-ary: see graph_term; also differences (times is negative) */
    OP_MULTIPLY, /* a x b */
    OP_DIVIDE,   /* a / b */
    OP_POWER,    /* a to numerator/denominator */
    OP_MIN, OP_MAX,
    OP_CEIL, OP_FLOOR, /* of a, to whole numbers of the node's unit */
    OP_FORMULA,  /* an equation over operands: see graph_equation_of */
    OP_SAY,      /* a, said in the node's unit */
    OP_NAME      /* a, under a name */
};

enum { NODE_NONE = 0 }; /* index 0 is never a node */

struct node {
    double value;          /* base units, leaves at their likely value */
    uint32_t a, b;         /* operands by index; OP_SUM, OP_FORMULA: elsewhere */
    uint32_t origin;       /* see graph_origin; 0 for none */
    uint32_t detail;       /* by op: name, range, shared, equation or view of terms */
    uint16_t kind;         /* dimension and per land, interned: equals may be added */
    struct unit_id unit;
    uint8_t op;
    bool uncertain;        /* an uncertain leaf lies below */
    int8_t numerator, denominator; /* OP_POWER */
};

uint32_t graph_node_of(const struct graph *g, struct qty q);
const struct node *graph_node(const struct graph *g, uint32_t index);
struct dim graph_node_dim(const struct graph *g, uint32_t index);
struct origin graph_origin(const struct graph *g, uint32_t index);
/* OP_NAME: the name. Borrowed until the graph next changes. */
const char *graph_node_name(const struct graph *g, uint32_t index);

struct range {
    double low, likely, high; /* base units */
    uint64_t key;
};
/* OP_RANGE and OP_SHARED (whose key is 0: it has causes). */
struct range graph_range_of(const struct graph *g, uint32_t index);
/* Is the node drawn by itself, its three percentiles what was typed? */
static inline bool node_is_drawn(const struct node *n)
{
    return n->op == OP_RANGE || n->op == OP_SHARED;
}

/* OP_SHARED: its causes, by key, each once, none of weight 0, their squares 1 in all.
 * Borrowed until the graph next changes. */
struct causes {
    const struct cause *list;
    size_t count;
};
struct causes graph_causes_of(const struct graph *g, uint32_t index);

/* OP_FORMULA. Borrowed until the graph next changes. */
struct formula_operand {
    uint32_t node;
    struct unit_id in;
    const char *name; /* or NULL */
};
struct equation {
    const struct formula *formula;
    const struct formula_operand *operands;
    const double *with;
    size_t count, with_count;
};
struct equation graph_equation_of(const struct graph *g, uint32_t index);

/* The terms of an OP_SUM in order of adding. A running sum of the same term keeps one
 * term with `times`; certain unnamed terms past the first 64 are kept as their total
 * (`node` is NODE_NONE, `rest` their sum in base units, `rest_count` how many). Sums that
 * are themselves terms are unfolded unless they are named or long. */
struct term {
    uint32_t node;
    double times; /* -1 for a term taken away */
    double rest;
    size_t rest_count;
};
bool graph_term(const struct graph *g, uint32_t index, size_t i, struct term *out);

/* `value` up or down to whole numbers of `factor`, as OP_CEIL and OP_FLOOR do it. */
double graph_whole(double value, double factor, bool up);

#endif

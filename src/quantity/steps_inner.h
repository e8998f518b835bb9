/* steps_inner.h: the steps of steps.h among the files that lay them out and run them.
 *
 *     struct step *step = steps_emit(l, STEP_SCALE, steps_place(l, node));
 *     step->a = steps_read(l, operand);            // read first, then the place
 *     steps_release(l, operand);                   // after the step that read it
 *
 * steps.c lays out what nodes of operands take, steps_shared.c what shared leaves and
 * equations take, steps_run.c runs them all. */
#ifndef SPINNEY_QUANTITY_STEPS_INNER_H
#define SPINNEY_QUANTITY_STEPS_INNER_H

#include "quantity/normal.h"
#include "quantity/shuffle.h"
#include "quantity/steps.h"

enum kind {
    STEP_LEAF,    /* a: which leaf */
    STEP_SCORE,   /* of a cause. a: which leaf, of which only the order counts */
    STEP_BEND,    /* scores to figures. a: which leaf, of which only the shape counts */
    STEP_FORMULA, /* a: which equation. The last that does not read a block as `a` */
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

/* An operand of an equation: its block, or (NOWHERE) its value. */
struct operand_draw {
    double value; /* in the unit that it is handed over in */
    double size;  /* of that unit */
    uint32_t place;
};
struct equation_draw {
    double (*value)(const double *x, const double *with);
    const double *with;
    double size; /* of the unit of the result */
    uint32_t first, count;
};

/* One cause that shared leaves lean on. */
struct cause_draw {
    uint64_t key;
    uint32_t uses, place;
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
    struct cause_draw *causes; /* by key, each once */
    size_t causes_count;
};

struct step *steps_emit(struct layout *l, enum kind kind, uint32_t out);
/* A buffer that is free. */
uint32_t steps_buffer(struct layout *l);
void steps_give_back(struct layout *l, uint32_t buffer);
/* A buffer for the node, or its row when it was asked for. */
uint32_t steps_place(struct layout *l, uint32_t node);
/* Where an operand's block lies; a leaf is drawn when it is first wanted. */
uint32_t steps_read(struct layout *l, uint32_t operand);
/* After the step that read it; only then may its buffer be written again. */
void steps_release(struct layout *l, uint32_t operand);

/* steps_shared.c. Room for causes and equations; `most` (steps) and `leaves` grow by what
 * they can take. False when memory fails. */
bool steps_count_shared(struct layout *l, uint32_t top, struct scratch *memory,
                        size_t *most, size_t *leaves);
void steps_shared_leaf(struct layout *l, uint32_t node);
void steps_formula(struct layout *l, uint32_t node);

#endif

/* Running the steps, a block of draws at a time. */
#include <math.h>

#include "quantity/block.h"
#include "quantity/spread.h"
#include "quantity/steps_inner.h"

_Static_assert((int)BLOCK == (int)SHUFFLE_BLOCK, "a leaf is ordered a block at a time");
_Static_assert((int)SPREAD_DRAWS == (int)SHUFFLE_SIZE, "a leaf takes each part once");

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

static void draw_score(const struct leaf_draw *cause, const double *table,
                       const struct bench *w, double *out)
{
    uint16_t order[BLOCK];
    shuffle_block(&cause->order, (unsigned)w->from, order);
    block_score(out, table, order);
}

/* An operand that differs from draw to draw. */
struct varying {
    const double *block;
    double size;
    uint32_t place; /* among the operands */
};

/* An operand that is lost loses the draw, whatever the equation makes of it. `x` has the
 * operands that never differ. */
static double equation_at(const struct equation_draw *e, const struct varying *list,
                          uint32_t count, double *x, int i)
{
    bool lost = false;
    for (uint32_t k = 0; k < count; k++) {
        double value = list[k].block[i] / list[k].size;
        x[list[k].place] = value;
        lost = lost || isnan(value);
    }
    return lost ? NAN : e->value(x, e->with) * e->size;
}

static void draw_equation(const struct steps *all, const struct equation_draw *e,
                          const struct bench *w, double *out)
{
    const struct operand_draw *of = &all->operand[e->first];
    struct varying list[FORMULA_OPERANDS_MOST];
    double x[FORMULA_OPERANDS_MOST];
    uint32_t count = 0;
    bool lost = false;
    for (uint32_t k = 0; k < e->count; k++) {
        x[k] = of[k].value;
        if (of[k].place != NOWHERE)
            list[count++] = (struct varying){ at(w, of[k].place), of[k].size, k };
        else
            lost = lost || isnan(x[k]);
    }
    for (int i = 0; i < BLOCK; i++)
        out[i] = lost ? NAN : equation_at(e, list, count, x, i);
}

/* Of what is no block: `a` says which leaf or equation. */
static void take_other(const struct steps *all, const struct step *p, const double *table,
                       const struct bench *w)
{
    double *out = at(w, p->out);
    if (p->kind == STEP_LEAF)
        draw_leaf(&all->leaf[p->a], table, w, out);
    else if (p->kind == STEP_SCORE)
        draw_score(&all->leaf[p->a], table, w, out);
    else if (p->kind == STEP_BEND)
        block_bend(out, all->leaf[p->a].shape);
    else
        draw_equation(all, &all->equation[p->a], w, out);
}

static void take(const struct steps *all, const struct step *p, const double *table,
                 const struct bench *w)
{
    if (p->kind <= STEP_FORMULA) {
        take_other(all, p, table, w);
        return;
    }
    double *out = at(w, p->out);
    const double *a = at(w, p->a);
    const double *b = p->b == NOWHERE ? NULL : at(w, p->b);
    switch ((enum kind)p->kind) {
    case STEP_LEAF:
    case STEP_SCORE:
    case STEP_BEND:
    case STEP_FORMULA: break; /* above */
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

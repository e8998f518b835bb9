/* The tree of `why`: first the lines it will have, then the spreads of all of them at
 * once, then the words. */
#include "quantity/explain.h"

#include <math.h>

#include "base/buf.h"
#include "base/fault.h"
#include "quantity/explain_inner.h"
#include "quantity/explain_plan.h"
#include "quantity/fold.h"
#include "quantity/scratch.h"
#include "quantity/spread_inner.h"

enum {
    DEPTH_MOST = 40,   /* the plan of lines recurses no deeper */
    LINES_MOST = 2000, /* nobody reads further, and shared unnamed parts multiply */
    INDENT = 2
};

static struct line *add_line(struct plan *p, enum line_kind kind, int depth)
{
    struct line *line = &p->lines[p->count];
    *line = (struct line){ .kind = kind, .depth = depth, .times = 1 };
    if (p->count == LINES_MOST) {
        line->kind = LINE_ENOUGH; /* overwritten by itself from here on */
        return line;
    }
    p->count++;
    return line;
}

/* The largest terms of a long sum, largest first; equal ones in the order of adding. */
static size_t largest_terms(const struct plan *p, uint32_t sum, struct term *best)
{
    size_t kept = 0;
    struct term t;
    for (size_t i = 0; graph_term(p->g, sum, i, &t); i++) {
        if (t.node == NODE_NONE)
            continue;
        double size = fabs(t.times * graph_node(p->g, t.node)->value);
        size_t at = kept < EXPLAIN_TERMS ? kept++ : EXPLAIN_TERMS;
        for (; at > 0; at--) {
            struct term *before = &best[at - 1];
            if (fabs(before->times * graph_node(p->g, before->node)->value) >= size)
                break;
            if (at < EXPLAIN_TERMS)
                best[at] = *before;
        }
        if (at < EXPLAIN_TERMS)
            best[at] = t;
    }
    return kept;
}

static void plan_part(struct plan *p, uint32_t part, uint32_t whole, double times,
                      int depth);

static void plan_long_sum(struct plan *p, uint32_t sum, int depth)
{
    struct term best[EXPLAIN_TERMS];
    size_t shown = largest_terms(p, sum, best);
    double rest = graph_node(p->g, sum)->value;
    for (size_t i = 0; i < shown; i++) {
        rest -= best[i].times * graph_node(p->g, best[i].node)->value;
        plan_part(p, best[i].node, sum, best[i].times, depth);
    }
    struct line *line = add_line(p, LINE_REST, depth);
    line->rest = rest;
    line->rest_count = explain_terms(p->g, sum) - shown;
    line->whole = sum;
}

struct parts_at {
    struct plan *p;
    int depth;
    size_t first; /* line of this formula */
};

/* A part that stands twice in one formula ("width x width") is listed once. */
static void see_part(void *with, uint32_t whole, uint32_t part)
{
    const struct parts_at *at = with;
    for (size_t i = at->first; i < at->p->count; i++) {
        const struct line *line = &at->p->lines[i];
        if (line->kind == LINE_PART && line->depth == at->depth && line->node == part)
            return;
    }
    plan_part(at->p, part, whole, 1, at->depth);
}

static void plan_formula(struct plan *p, uint32_t part, uint32_t body, int depth)
{
    struct line *line = add_line(p, LINE_FORMULA, depth);
    line->node = part;
    line->whole = body;
    if (explain_op(p, body) == OP_NAME) {
        plan_part(p, body, body, 1, depth);
    } else if (explain_is_long(p->g, part, body)) {
        plan_long_sum(p, body, depth);
    } else {
        struct parts_at at = { p, depth, p->count };
        explain_parts(p->g, part, body, see_part, &at);
    }
}

static void plan_part(struct plan *p, uint32_t part, uint32_t whole, double times,
                      int depth)
{
    uint32_t under = explain_under(p->g, part);
    bool named = explain_op(p, under) == OP_NAME;
    uint32_t body = named ? explain_under(p->g, graph_node(p->g, under)->a) : under;
    const struct node *n = graph_node(p->g, under);
    /* A bare figure of a formula (the 2 of "2 x width") has nothing more to tell. */
    if (explain_is_leaf(p, under) && n->origin == 0 && !n->uncertain && depth > 0
        && times == 1 && explain_in_unit(p->g, whole, part))
        return;
    if (p->count == LINES_MOST)
        return;
    struct line *line = add_line(p, LINE_PART, depth);
    line->node = part;
    line->whole = whole;
    line->times = times;
    /* Said in another unit is another thing to show, unless it has a name. */
    bool *shown = &p->shown[named ? under : part];
    line->above = *shown;
    if (line->above || explain_is_leaf(p, body)) {
        *shown = true;
        return;
    }
    line->cut = depth >= p->look.depth;
    if (line->cut)
        return;
    *shown = true;
    plan_formula(p, part, body, depth + 1);
}

static bool plan_lines(struct plan *p, uint32_t top)
{
    p->lines = scratch_get(p->memory, LINES_MOST + 1, sizeof *p->lines);
    p->shown = scratch_zeroed(p->memory, (size_t)top + 1, sizeof *p->shown);
    if (p->memory->failed)
        return false;
    plan_part(p, top, top, 1, 0);
    if (p->count == LINES_MOST)
        p->lines[p->count++] = (struct line){ .kind = LINE_ENOUGH };
    return true;
}

static bool plan_spreads(struct plan *p, struct fault *f)
{
    uint32_t *nodes = scratch_get(p->memory, p->count, sizeof *nodes);
    struct spread *spreads = scratch_get(p->memory, p->count, sizeof *spreads);
    if (p->memory->failed)
        return fault_no_memory(f);
    for (size_t i = 0; i < p->count; i++)
        nodes[i] = p->lines[i].kind == LINE_PART ? p->lines[i].node : NODE_NONE;
    if (!spread_of_nodes(p->g, nodes, p->count, spreads, f))
        return false;
    for (size_t i = 0; i < p->count; i++)
        p->lines[i].spread = spreads[i];
    return true;
}

static bool print(const struct plan *p, uint32_t top, struct buf *out, struct fault *f)
{
    struct buf text;
    bool done = false;
    buf_init(&text);
    for (size_t i = 0; i < p->count; i++) {
        text.length = 0;
        explain_line(p, &p->lines[i], &text);
        fold_line(out, text.data, p->lines[i].depth * INDENT, p->look.width);
    }
    text.length = 0;
    if (!explain_hangs_on(p->g, p->sources, top, &text, f))
        goto done;
    if (text.length > 0)
        fold_line(out, text.data, 0, p->look.width);
    if (p->lines[0].spread.lost > 0) {
        text.length = 0;
        explain_lost(p, &text);
        fold_line(out, text.data, 0, p->look.width);
    }
    done = !text.failed && !out->failed ? true : fault_no_memory(f);
done:
    buf_clear(&text);
    return done;
}

bool explain_text(struct graph *g, const struct sources *sources, struct qty a,
                  struct explain_look look, struct buf *out, struct fault *f)
{
    if (!qty_is(a))
        return true;
    look.depth = look.depth < 0 ? 0 : look.depth > DEPTH_MOST ? DEPTH_MOST : look.depth;
    struct scratch memory = scratch_of(g);
    struct plan p = { .g = g, .sources = sources, .look = look, .memory = &memory };
    uint32_t top = graph_node_of(g, a);
    bool done = plan_lines(&p, top) ? plan_spreads(&p, f) && print(&p, top, out, f)
                                    : fault_no_memory(f);
    scratch_clear(&memory);
    return done;
}

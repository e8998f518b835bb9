/* The tree of `why`: first the lines it will have, then the spreads of all of them at
 * once, then the words. */
#include "quantity/explain.h"

#include <math.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/num.h"
#include "base/utf8.h"
#include "quantity/explain_inner.h"
#include "quantity/fold.h"
#include "quantity/scratch.h"
#include "quantity/spread_inner.h"
#include "quantity/unit_inner.h"

enum {
    DEPTH_MOST = 40,   /* the plan of lines recurses no deeper */
    LINES_MOST = 2000, /* nobody reads further, and shared unnamed parts multiply */
    INDENT = 2
};

enum line_kind {
    LINE_PART,    /* name and figure */
    LINE_FORMULA, /* of the part above */
    LINE_REST,    /* of a long sum */
    LINE_ENOUGH   /* LINES_MOST was reached */
};

struct line {
    enum line_kind kind;
    int depth;
    uint32_t node;  /* part: whose figure; formula: the part that it belongs to */
    uint32_t whole; /* part: what it is a direct part of; formula: its compound */
    double times;   /* part of a long sum: how often */
    bool above, cut;
    double rest;
    size_t rest_count;
    struct spread spread;
};

struct plan {
    const struct graph *g;
    const struct sources *sources;
    struct explain_look look;
    struct scratch *memory;
    struct line *lines;
    size_t count;
    bool *shown; /* by node, names and all */
};

/* ---- which lines ---- */

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

static enum op op_of(const struct plan *p, uint32_t node)
{
    return (enum op)graph_node(p->g, node)->op;
}

static bool is_leaf(const struct plan *p, uint32_t node)
{
    return op_of(p, node) == OP_LEAF || node_is_drawn(graph_node(p->g, node));
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
    if (op_of(p, body) == OP_NAME) {
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
    bool named = op_of(p, under) == OP_NAME;
    uint32_t body = named ? explain_under(p->g, graph_node(p->g, under)->a) : under;
    const struct node *n = graph_node(p->g, under);
    /* A bare figure of a formula (the 2 of "2 x width") has nothing more to tell. */
    if (is_leaf(p, under) && n->origin == 0 && !n->uncertain && depth > 0 && times == 1
        && explain_in_unit(p->g, whole, part))
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
    if (line->above || is_leaf(p, body)) {
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

/* ---- their words ---- */

static bool same_origin(struct origin a, struct origin b)
{
    return a.at.source == b.at.source && a.at.at == b.at.at
           && (a.words == b.words
               || (a.words && b.words && strcmp(a.words, b.words) == 0));
}

/* Where a leaf came from, and the name above it where that is another place. */
static void put_leaf_origin(const struct plan *p, uint32_t part, struct buf *out)
{
    uint32_t under = explain_under(p->g, part);
    struct origin name = graph_origin(p->g, under), leaf = name;
    if (op_of(p, under) == OP_NAME)
        leaf = graph_origin(p->g, explain_under(p->g, graph_node(p->g, under)->a));
    bool said = explain_origin(p->sources, leaf, ", from ", out);
    if (!same_origin(name, leaf))
        explain_origin(p->sources, name, said ? "; " : ", from ", out);
}

/* The part in the unit of the sum or the choice that it is a part of, or in the one that
 * an equation takes it in. */
static void put_in_unit_of(const struct plan *p, uint32_t part, uint32_t whole,
                           struct buf *out)
{
    const struct units *u = graph_units(p->g);
    const struct node *n = graph_node(p->g, whole);
    struct unit_id unit = unit_printed(u, n->unit, n->value);
    const struct formula_operand *o = explain_operand(p->g, whole, part);
    buf_puts(out, ", that is ");
    if (o) {
        explain_in(p->g, o->in, graph_node(p->g, part)->value, out);
        return;
    }
    num_trade(out, graph_node(p->g, part)->value / unit_factor(u, unit));
    buf_putc(out, FOLD_BLANK);
    buf_puts(out, unit_name(u, unit, false));
}

/* What is rounded to a whole number must not look whole before: "2,314 plants, more
 * exactly 2,314.13" are 2,315. As many decimals as it takes, up to the 9 that count. */
static void put_fraction(const struct plan *p, uint32_t part, uint32_t whole,
                         struct buf *out)
{
    enum op op = op_of(p, whole);
    double size = unit_factor(graph_units(p->g), graph_node(p->g, whole)->unit);
    double value = graph_node(p->g, part)->value / size;
    double from_whole = fabs(value - nearbyint(value));
    if ((op != OP_CEIL && op != OP_FLOOR) || fabs(value) < 100 || from_whole <= 1e-9)
        return; /* below 100, figures show their decimals */
    buf_puts(out, ", more exactly ");
    num_fixed(out, value, from_whole >= 0.005 ? 2 : from_whole >= 0.00005 ? 4 : 9, true);
}

/* What the equation calls it, where it does not bear that name itself. */
static void put_operand_name(const struct plan *p, const struct line *line,
                             const char *own, struct buf *out)
{
    const struct formula_operand *o = explain_operand(p->g, line->whole, line->node);
    if (!o || !o->name || (own && strcmp(own, o->name) == 0))
        return;
    explain_plain(o->name, out);
    buf_puts(out, " = ");
}

static void put_part(const struct plan *p, const struct line *line, struct buf *out)
{
    uint32_t under = explain_under(p->g, line->node);
    bool named = op_of(p, under) == OP_NAME;
    uint32_t body = named ? explain_under(p->g, graph_node(p->g, under)->a) : under;
    if (line->times < 0)
        buf_puts(out, "less ");
    put_operand_name(p, line, named ? graph_node_name(p->g, under) : NULL, out);
    if (named) {
        explain_plain(graph_node_name(p->g, under), out);
        buf_puts(out, " = ");
    }
    explain_node_figure(p->g, line->node, &line->spread, FOLD_BLANK, out);
    if (!explain_in_unit(p->g, line->whole, line->node))
        put_in_unit_of(p, line->node, line->whole, out);
    put_fraction(p, line->node, line->whole, out);
    if (fabs(line->times) != 1) {
        buf_puts(out, ", times ");
        num_trade(out, fabs(line->times));
    }
    if (line->above)
        buf_puts(out, " (above)");
    else if (line->cut)
        buf_puts(out, ", worked out from parts not shown");
    else if (is_leaf(p, body))
        put_leaf_origin(p, line->node, out);
}

static void put_formula(const struct plan *p, const struct line *line, struct buf *out)
{
    buf_puts(out, "= ");
    explain_formula(p->g, line->node, line->whole, out);
    struct origin how = graph_origin(p->g, explain_under(p->g, line->node));
    bool said = false;
    if (op_of(p, line->whole) == OP_FORMULA) {
        struct origin own = graph_origin(p->g, line->whole);
        said = explain_origin(p->sources, own, " [", out);
        if (same_origin(how, own))
            how = (struct origin){ SPAN_NONE, NULL };
    }
    if (explain_origin(p->sources, how, said ? "; " : " [", out) || said)
        buf_putc(out, ']');
}

static void put_line(const struct plan *p, const struct line *line, struct buf *out)
{
    switch (line->kind) {
    case LINE_PART: put_part(p, line, out); break;
    case LINE_FORMULA: put_formula(p, line, out); break;
    case LINE_REST:
        buf_printf(out, "and %zu more, in all ", line->rest_count);
        explain_value(p->g, graph_node(p->g, line->whole)->unit, line->rest, FOLD_BLANK,
                      out);
        break;
    case LINE_ENOUGH: buf_puts(out, "and further parts, not shown"); break;
    }
}

static void put_lost(double share, struct buf *out)
{
    buf_puts(out, "cannot be worked out in ");
    num_trade(out, share * 100);
    buf_puts(out, " percent of the draws (the root of less than nothing, or nothing "
                  "divided by nothing): those are left out of the low and the high");
}

static bool print(const struct plan *p, uint32_t top, struct buf *out, struct fault *f)
{
    struct buf text;
    bool done = false;
    buf_init(&text);
    for (size_t i = 0; i < p->count; i++) {
        text.length = 0;
        put_line(p, &p->lines[i], &text);
        fold_line(out, text.data, p->lines[i].depth * INDENT, p->look.width);
    }
    text.length = 0;
    if (!explain_hangs_on(p->g, p->sources, top, &text, f))
        goto done;
    if (text.length > 0)
        fold_line(out, text.data, 0, p->look.width);
    if (p->lines[0].spread.lost > 0) {
        text.length = 0;
        put_lost(p->lines[0].spread.lost, &text);
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

/* Figures with their spread: part of explain.h. */
#include "quantity/explain.h"

#include <math.h>
#include <string.h>

#include "base/buf.h"
#include "base/num.h"
#include "quantity/explain_inner.h"
#include "quantity/spread.h"
#include "quantity/unit_inner.h"

static void put(struct buf *out, const char *text, char blank)
{
    for (; *text; text++)
        buf_putc(out, *text == ' ' ? blank : *text);
}

/* Puts the text from `start` on into words parted by `blank`. */
static void part_words(struct buf *out, size_t start, char blank)
{
    for (size_t i = start; i < out->length; i++)
        if (out->data[i] == ' ')
            out->data[i] = blank;
}

void explain_value(const struct graph *g, struct unit_id unit, double base, char blank,
                   struct buf *out)
{
    size_t start = out->length;
    unit_print(graph_units(g), unit, base, out);
    part_words(out, start, blank);
}

/* Do the two come out as the same digits? */
static bool same_figure(double a, double b)
{
    struct buf x, y;
    buf_init(&x);
    buf_init(&y);
    num_trade(&x, a);
    num_trade(&y, b);
    bool same = !x.failed && !y.failed && strcmp(x.data, y.data) == 0;
    buf_clear(&x);
    buf_clear(&y);
    return same;
}

/* What is lost beside the other end is nothing on a paper: "0 to 28.8", not "0.00099 to
 * 28.8". */
static double lost_beside(double end, double other)
{
    return fabs(end) < fabs(other) / 1000 ? 0 : end;
}

static void put_ends(struct buf *out, double low, double high, char blank)
{
    if (isfinite(low) && isfinite(high)) {
        double from = lost_beside(low, high);
        high = lost_beside(high, low);
        num_trade(out, from);
        put(out, " to ", blank);
        num_trade(out, high);
    } else if (isfinite(low)) {
        num_trade(out, low);
        put(out, " or more", blank);
    } else if (isfinite(high)) {
        num_trade(out, high);
        put(out, " or less", blank);
    } else {
        put(out, "no limit either way", blank);
    }
}

/* What follows the value: " (60 to 80)"; nothing where no digit of it would show. */
static void put_spread(const struct spread *s, double size, char blank, struct buf *out)
{
    if (!s || !s->uncertain)
        return;
    double value = s->value / size;
    double low = s->low / size, high = s->high / size, median = s->median / size;
    if (s->lost >= 1) {
        buf_puts(out, " (how sure cannot be worked out)");
        return;
    }
    if (same_figure(low, value) && same_figure(high, value))
        return;
    buf_puts(out, " (");
    put_ends(out, low, high, blank);
    if (s->skewed && isfinite(median) && !same_figure(median, value)) {
        buf_puts(out, ", typically");
        buf_putc(out, blank);
        num_trade(out, median);
    }
    buf_putc(out, ')');
}

void explain_node_figure(const struct graph *g, uint32_t node, const struct spread *s,
                         char blank, struct buf *out)
{
    const struct units *u = graph_units(g);
    const struct node *n = graph_node(g, node);
    explain_value(g, n->unit, n->value, blank, out);
    put_spread(s, unit_factor(u, unit_printed(u, n->unit, n->value)), blank, out);
}

void explain_figure(const struct graph *g, struct qty a, const struct spread *s,
                    struct buf *out)
{
    if (qty_is(a))
        explain_node_figure(g, graph_node_of(g, a), s, ' ', out);
}

void explain_bare(const struct graph *g, struct qty a, const struct spread *s,
                  struct buf *out)
{
    if (!qty_is(a))
        return;
    double size = unit_factor(graph_units(g), graph_unit(g, a));
    num_trade(out, graph_value(g, a) / size);
    put_spread(s, size, ' ', out);
}

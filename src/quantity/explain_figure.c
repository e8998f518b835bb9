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

static void put_median(double median, double value, char blank, struct buf *out)
{
    if (!isfinite(median) || same_figure(median, value))
        return;
    put(out, ", typically ", blank);
    num_trade(out, median);
}

/* What follows the value: " (60 to 80"; false where no digit of it would show. */
static bool open_spread(const struct spread *s, double size, char blank, struct buf *out)
{
    if (!s || !s->uncertain)
        return false;
    double value = s->value / size, low = s->low / size, high = s->high / size;
    if (s->lost >= 1) {
        buf_puts(out, " (how sure cannot be worked out)");
        return false;
    }
    if (same_figure(low, value) && same_figure(high, value))
        return false;
    buf_puts(out, " (");
    put_ends(out, low, high, blank);
    return true;
}

void explain_node_figure(const struct graph *g, uint32_t node, const struct spread *s,
                         char blank, struct buf *out)
{
    const struct units *u = graph_units(g);
    const struct node *n = graph_node(g, node);
    double size = unit_factor(u, unit_printed(u, n->unit, n->value));
    explain_value(g, n->unit, n->value, blank, out);
    if (!open_spread(s, size, blank, out))
        return;
    if (s->skewed)
        put_median(s->median / size, s->value / size, blank, out);
    buf_putc(out, ')');
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
    if (open_spread(s, size, ' ', out))
        buf_putc(out, ')');
}

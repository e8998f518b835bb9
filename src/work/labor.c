#include "work/labor.h"

#include "base/buf.h"
#include "base/fault.h"

enum fit { NO_FIT, DIVIDE, MULTIPLY };

/* Amount and rate give hours in one of two ways, or in none. */
static enum fit rate_fits(const struct graph *g, struct qty amount, struct qty rate)
{
    struct dim work = dim_of(DIM_WORK, 1), out;
    if (dim_divide(graph_dim(g, amount), graph_dim(g, rate), &out) &&
        dim_equal(out, work))
        return DIVIDE;
    if (dim_multiply(graph_dim(g, amount), graph_dim(g, rate), &out) &&
        dim_equal(out, work))
        return MULTIPLY;
    return NO_FIT;
}

static void say(const struct graph *g, struct qty q, struct buf *out)
{
    unit_print(graph_units(g), graph_unit(g, q), graph_value(g, q), out);
}

static void tell_no_fit(const struct graph *g, struct qty amount, struct qty rate,
                        const char *name, struct fault *f)
{
    struct buf what, by;
    buf_init(&what);
    buf_init(&by);
    say(g, amount, &what);
    say(g, rate, &by);
    if (what.failed || by.failed) {
        fault_no_memory(f);
    } else {
        const char *unit = unit_name(graph_units(g), graph_unit(g, amount), false);
        fault_set(f, "rate-fit", SPAN_NONE, "%s: a rate of %s does not make hours of %s",
                  name, by.data, what.data);
        if (unit[0] != '\0')
            fault_hint(f, "a rate in %s/h or h/%s", unit, unit);
    }
    buf_clear(&what);
    buf_clear(&by);
}

static struct qty hours_of(struct graph *g, struct qty amount, struct qty rate,
                           const char *name, struct fault *f)
{
    switch (rate_fits(g, amount, rate)) {
    case DIVIDE:
        if (!(graph_value(g, rate) > 0)) {
            fault_set(f, "rate-zero", SPAN_NONE, "%s: a rate must be more than nothing",
                      name);
            return QTY_NONE;
        }
        return graph_divide(g, amount, rate, f);
    case MULTIPLY: return graph_multiply(g, amount, rate, f);
    case NO_FIT: break;
    }
    tell_no_fit(g, amount, rate, name, f);
    return QTY_NONE;
}

/* Hours in h, under a name; lets go of all else made since the mark. */
static struct qty finish(struct graph *g, uint32_t mark, struct qty hours,
                         const char *name, struct fault *f)
{
    struct origin none = { SPAN_NONE, NULL };
    struct unit_id h;
    struct buf words;
    buf_init(&words);
    buf_printf(&words, "%s hours", name);
    struct qty said = QTY_NONE;
    if (words.failed)
        fault_no_memory(f);
    else if (qty_is(hours) && units_find(graph_units(g), "h", 1, &h, f))
        said = graph_unit(g, hours).i == h.i ? hours : graph_say_in(g, hours, h, f);
    if (qty_is(said) && !graph_name(g, &said, words.data, none, f))
        said = QTY_NONE;
    buf_clear(&words);
    graph_scope_close(g, mark, &said, qty_is(said) ? 1 : 0);
    return said;
}

struct qty labor_by_rate(struct graph *g, struct qty amount, struct qty rate,
                         const char *name, struct fault *f)
{
    if (!qty_is(amount) || !qty_is(rate))
        return QTY_NONE;
    uint32_t mark = graph_scope_open(g);
    return finish(g, mark, hours_of(g, amount, rate, name, f), name, f);
}

struct qty labor_felling(struct graph *g, const struct labor_class *classes, size_t count,
                         struct qty speed, struct fault *f)
{
    if (qty_is(speed) && !(graph_value(g, speed) > 0)) {
        fault_set(f, "rate-zero", SPAN_NONE,
                  "felling: what is left of the rate must be more "
                  "than nothing");
        return QTY_NONE;
    }
    uint32_t mark = graph_scope_open(g);
    struct origin none = { SPAN_NONE, NULL };
    struct unit_id h;
    struct qty sum = QTY_NONE;
    bool fine = units_find(graph_units(g), "h", 1, &h, f);
    if (fine && count == 0)
        sum = graph_leaf(g, 0, h, none, f);
    for (size_t i = 0; fine && i < count; i++) {
        struct qty hours = hours_of(g, classes[i].trees, classes[i].rate, "felling", f);
        fine = qty_is(hours) && graph_name(g, &hours, classes[i].name, none, f);
        sum = !fine ? QTY_NONE : i == 0 ? hours : graph_add(g, sum, hours, f);
    }
    if (fine && qty_is(speed))
        sum = graph_divide(g, sum, speed, f);
    return finish(g, mark, fine ? sum : QTY_NONE, "felling", f);
}

struct qty labor_cleanup(struct graph *g, struct qty felling, struct qty ratio,
                         struct fault *f)
{
    if (!qty_is(felling) || !qty_is(ratio))
        return QTY_NONE;
    if (!dim_is_number(graph_dim(g, ratio))) {
        tell_no_fit(g, felling, ratio, "cleanup", f);
        return QTY_NONE;
    }
    uint32_t mark = graph_scope_open(g);
    return finish(g, mark, graph_multiply(g, felling, ratio, f), "cleanup", f);
}

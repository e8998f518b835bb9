#include "forest/limit.h"

#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/num.h"
#include "forest/cruise.h"

static const char USE[] =
    "spinney limit 10 12.4, or on a slope spinney limit 10 12.4 30%";

/* --- arguments --- */

enum unit { UNIT_NONE, UNIT_IN, UNIT_PERCENT, UNIT_BAF };

static const struct {
    const char *word;
    enum unit unit;
} units[] = { { "in", UNIT_IN },       { "inch", UNIT_IN },   { "inches", UNIT_IN },
              { "\"", UNIT_IN },       { "%", UNIT_PERCENT }, { "percent", UNIT_PERCENT },
              { "pct", UNIT_PERCENT }, { "ft2/ac", UNIT_BAF } };
enum { UNITS = sizeof units / sizeof units[0] };

static const char *skip_blanks(const char *at)
{
    while (*at == ' ' || *at == '\t')
        at++;
    return at;
}

/* Takes the unit at the start of the text. False when what stands there is neither a
 * unit, nor a number, nor the end. */
static bool take_unit(const char **at, enum unit *unit)
{
    const char *from = skip_blanks(*at);
    size_t length = strcspn(from, " \t");
    *unit = UNIT_NONE;
    if (length == 0 || (*from >= '0' && *from <= '9') || *from == '.')
        return true;
    for (size_t i = 0; i < UNITS; i++) {
        if (strlen(units[i].word) != length || memcmp(from, units[i].word, length) != 0)
            continue;
        *unit = units[i].unit;
        *at = from + length;
        return true;
    }
    return false;
}

static bool not_read(struct fault *f, const char *at)
{
    fault_set(f, "line", SPAN_NONE, "`%s` is not read by limit", skip_blanks(at));
    fault_hint(f, "%s", USE);
    return false;
}

/* Factor, diameter, slope come in this order; a percent is a slope wherever it comes. */
static bool read_numbers(const char *at, double values[3], bool given[3], struct fault *f)
{
    static const enum unit fits[] = { UNIT_BAF, UNIT_IN, UNIT_PERCENT };
    size_t next = 0;
    for (at = skip_blanks(at); *at; at = skip_blanks(at)) {
        double value;
        enum unit unit;
        const char *from = at;
        size_t took = num_read(at, strlen(at), &value);
        at += took;
        if (took == 0 || !take_unit(&at, &unit))
            return not_read(f, took > 0 && *at == ' ' ? at : from);
        size_t which = unit == UNIT_PERCENT ? 2 : next;
        if (which > 2 || given[which] || (unit != UNIT_NONE && unit != fits[which]))
            return not_read(f, from);
        values[which] = value;
        given[which] = true;
        next = which == 2 ? next : next + 1;
    }
    return true;
}

static bool in_bounds(const struct limit *l, const bool given[3], struct fault *f)
{
    if (!given[0]) {
        fault_set(f, "line", SPAN_NONE,
                  "limit wants a basal area factor, and mostly a diameter in inches");
        fault_hint(f, "%s", USE);
    } else if (l->baf < 1 || l->baf > 100) {
        fault_set(f, "line", SPAN_NONE,
                  "a basal area factor lies between 1 and 100 ft2/ac");
        fault_hint(f, "%s", USE);
    } else if (given[1] &&
               (l->diameter_in < TALLY_LEAST_IN || l->diameter_in > TALLY_MOST_IN)) {
        fault_set(f, "line", SPAN_NONE, "a diameter lies between 0.5 and 60 in");
        fault_hint(f, "%s", USE);
    } else if (l->slope_percent > TALLY_SLOPE_MOST) {
        fault_set(f, "line", SPAN_NONE, "a slope lies between 0 and 150 percent");
    }
    return !fault_is_set(f);
}

bool limit_read(const char *const *words, size_t count, struct limit *out,
                struct fault *f)
{
    struct buf text;
    double values[3] = { 0, 0, 0 };
    bool given[3] = { false, false, false };
    buf_init(&text);
    for (size_t i = 0; i < count; i++) {
        bool named =
            i == 0 && (strcmp(words[0], "baf") == 0 || strcmp(words[0], "BAF") == 0);
        buf_puts(&text, i > 0 ? " " : "");
        buf_puts(&text, named ? "" : words[i]);
    }
    bool good = !text.failed || fault_no_memory(f);
    good = good && read_numbers(text.data ? text.data : "", values, given, f);
    buf_clear(&text);
    *out = (struct limit){ values[0], values[1], values[2] };
    return good && in_bounds(out, given, f);
}

/* --- what is printed --- */

static void put_right(struct buf *out, double value, int decimals, size_t width)
{
    struct buf text;
    buf_init(&text);
    num_fixed(&text, value, decimals, false);
    for (size_t i = text.length; i < width; i++)
        buf_puts(out, " ");
    buf_puts(out, text.data ? text.data : "");
    buf_clear(&text);
}

static void put_head(const struct limit *ask, struct buf *out)
{
    buf_puts(out, "BAF ");
    num_trade(out, ask->baf);
    if (ask->diameter_in > 0) {
        buf_puts(out, ", a tree of ");
        num_trade(out, ask->diameter_in);
        buf_puts(out, " in");
    }
    if (ask->slope_percent > 0) {
        buf_puts(out, ", slope ");
        num_trade(out, ask->slope_percent);
        buf_puts(out, "%");
    }
    buf_puts(out, "\n\n");
}

static void put_distance(struct buf *out, const char *words, double feet)
{
    buf_printf(out, "  %-44s", words);
    put_right(out, feet, 2, 7);
    buf_puts(out, " ft\n");
}

static void put_rule(struct buf *out)
{
    buf_puts(
        out,
        "\nMeasure from the middle of the point, the face at breast height on the side\n"
        "that looks at you. A tree nearer than that is in, a tree farther is out. One\n"
        "exactly there is borderline: count every other such tree, or each as half\n"
        "(in cruise notes: 12 half). Common practice, no source.\n"
        "Distance to the center: 33 sqrt(10) / (12 sqrt(BAF)) ft for each inch\n"
        "(Grosenbaugh 1952; formula from memory); to the face 1/24 ft an inch less.\n");
}

static void say_tree(const struct limit *ask, struct buf *out)
{
    double center = cruise_limit_center(ask->baf, ask->diameter_in);
    double face = cruise_limit_face(ask->baf, ask->diameter_in);
    double longer = cruise_slope_factor(ask->slope_percent);
    put_distance(out, "tape level, to the tree's center", center);
    put_distance(out, "tape level, to its face", face);
    if (ask->slope_percent > 0) {
        put_distance(out, "tape up or down the slope, to the center", center * longer);
        put_distance(out, "tape up or down the slope, to its face", face * longer);
        buf_puts(
            out,
            "\nThat is for a count corrected in the field. Where the notes say the slope "
            "and\n"
            "not `corrected`, the prism was held upright and the sums mend it: then the\n"
            "level figure is taped along the ground.\n");
    }
}

static void say_table(const struct limit *ask, struct buf *out)
{
    double longer = cruise_slope_factor(ask->slope_percent);
    buf_puts(out, ask->slope_percent > 0 ? "tape up or down the slope, in feet\n"
                                         : "tape level, in feet\n");
    buf_puts(out, "diameter   to center     to face\n");
    for (int d = 4; d <= 30; d++) {
        put_right(out, d, 0, 5);
        buf_puts(out, " in");
        put_right(out, cruise_limit_center(ask->baf, d) * longer, 2, 12);
        put_right(out, cruise_limit_face(ask->baf, d) * longer, 2, 12);
        buf_puts(out, "\n");
    }
}

void limit_say(const struct limit *ask, struct buf *out)
{
    put_head(ask, out);
    if (ask->diameter_in > 0)
        say_tree(ask, out);
    else
        say_table(ask, out);
    put_rule(out);
}

/* How plots are taken: the lines between plots, and slope. */
#include <math.h>

#include "forest/tally_line.h"

#define SQUARE_FEET_PER_ACRE 43560.0 /* NIST Handbook 44, appendix C */
#define METERS_PER_FOOT      0.3048  /* NIST Handbook 44: international foot */

/* "1/10 ac" */
static bool read_acres(struct tally_reader *r, double *acres)
{
    static const char *const land[] = { "ac", "acre", "acres", NULL };
    double below;
    tally_skip_blanks(r);
    if (!tally_number(r, acres))
        return false;
    if (tally_take_mark(r, '/')) {
        tally_skip_blanks(r);
        if (!tally_number(r, &below) || below <= 0)
            return false;
        *acres /= below;
    }
    return tally_take_one(r, land);
}

/* "24 ft" */
static bool read_radius(struct tally_reader *r, double *acres)
{
    static const char *const feet[] = { "ft", "feet", "foot", NULL };
    static const char *const meters[] = { "m", "meters", "meter", NULL };
    double radius;
    tally_skip_blanks(r);
    if (!tally_number(r, &radius))
        return false;
    if (tally_take_one(r, meters))
        radius /= METERS_PER_FOOT;
    else if (!tally_take_one(r, feet))
        return false;
    *acres = acos(-1.0) * radius * radius / SQUARE_FEET_PER_ACRE;
    return true;
}

static bool at_end(struct tally_reader *r)
{
    tally_skip_blanks(r);
    return r->at >= r->end;
}

/* Prisms and plots in use: outside lies a slip of the pen. Common practice, no source. */
static bool in_use(bool point, double size)
{
    return point ? size >= 1 && size <= 100 : size >= 0.0001 && size <= 10;
}

static bool tell_not_in_use(struct tally_reader *r, bool point, size_t from)
{
    struct fault f = { .id = NULL };
    fault_set(&f, "tally-method", SPAN_NONE,
              point ? "a basal area factor lies between 1 and 100 ft2/ac"
                    : "a plot lies between 1/10000 and 10 acres");
    return tally_tell(r, &f, from, r->end);
}

/* baf, radius, size */
static bool read_method(struct tally_reader *r, size_t word, size_t word_to)
{
    struct fault f = { .id = NULL };
    bool point = tally_same_word(r, word, word_to, "baf");
    double size = 0;
    r->at = word_to;
    r->method_missed = true; /* a method was meant: no second fault at each plot */
    tally_skip_blanks(r);
    size_t from = r->at;
    bool good = point                                       ? tally_number(r, &size)
                : tally_same_word(r, word, word_to, "size") ? read_acres(r, &size)
                                                            : read_radius(r, &size);
    if (!good || !at_end(r)) {
        fault_set(&f, "tally-method", SPAN_NONE, "`%s` does not say how plots were taken",
                  tally_typed(r, word, r->end).text);
        fault_hint(&f, point ? "baf 10" : "radius 24 ft, or size 1/10 ac");
        return tally_tell(r, &f, word, r->end);
    }
    if (!in_use(point, size))
        return tell_not_in_use(r, point, from);
    if (r->method_known && !r->method_used) {
        fault_set(&f, "tally-method", SPAN_NONE,
                  "`%s` comes before any plot was taken in the way told above it",
                  tally_typed(r, word, r->end).text);
        fault_hint(&f, "leave out the one that does not hold");
        return tally_tell(r, &f, word, r->end);
    }
    r->method_used = false;
    r->now.kind = point ? PLOT_POINT : PLOT_FIXED;
    r->now.size = size;
    r->method_known = true;
    return true;
}

/* --- slope --- */

bool tally_slope(struct tally_reader *r, size_t word, double *percent)
{
    static const char *const units[] = { "percent", "pct", NULL };
    struct fault f = { .id = NULL };
    tally_skip_blanks(r);
    size_t from = r->at;
    bool good =
        tally_number(r, percent) && (tally_take_mark(r, '%') || tally_take_one(r, units));
    if (good && *percent <= TALLY_SLOPE_MOST)
        return true;
    if (good) {
        fault_set(&f, "tally-slope", SPAN_NONE,
                  "a slope of %s is steeper than 150 percent",
                  tally_typed(r, from, r->at).text);
        return tally_tell(r, &f, from, r->at);
    }
    while (r->at < r->end && r->text[r->at] != ':' && !tally_is_mark(r->text[r->at]))
        r->at++;
    fault_set(&f, "tally-slope", SPAN_NONE, "`%s` does not say how steep it is",
              tally_typed(r, word, r->at).text);
    fault_hint(&f, "slope 30%%, rise over run in percent");
    return tally_tell(r, &f, word, r->at);
}

/* "slope 30%, corrected" */
static bool read_slope(struct tally_reader *r, size_t word)
{
    struct fault f = { .id = NULL };
    double percent;
    if (!tally_slope(r, word, &percent))
        return false;
    (void)tally_take_mark(r, ',');
    bool corrected = tally_take_word(r, "corrected");
    if (!at_end(r)) {
        fault_set(&f, "tally-slope", SPAN_NONE, "`%s` is not read here",
                  tally_typed(r, r->at, r->end).text);
        fault_hint(
            &f, "slope 30%%, or slope 30%%, corrected when that was done in the field");
        return tally_tell(r, &f, r->at, r->end);
    }
    r->now.slope = percent;
    r->now.corrected = corrected;
    return true;
}

/* --- small plots --- */

static bool tell_small(struct tally_reader *r, bool stems, size_t word)
{
    struct fault f = { .id = NULL };
    fault_set(&f, "tally-method", SPAN_NONE,
              "`%s` does not say how large the small plots are",
              tally_typed(r, word, r->end).text);
    fault_hint(&f, stems ? "regeneration on 1/1000 ac"
                         : "saplings on 1/100 ac, or saplings on 1/100 ac, below 4 in");
    return tally_tell(r, &f, word, r->end);
}

/* "on 1/100 ac, below 5 in", "on radius 6.8 ft" */
static bool read_small(struct tally_reader *r, bool stems, size_t word)
{
    struct fault f = { .id = NULL };
    double acres = 0, below = TALLY_SAPLINGS_BELOW_IN;
    bool good = tally_take_word(r, "on");
    tally_skip_blanks(r);
    size_t from = r->at;
    good = good && (tally_take_word(r, "radius") ? read_radius(r, &acres)
                                                 : read_acres(r, &acres));
    if (good && !stems && !at_end(r)) {
        static const char *const inches[] = { "in", "inches", "inch", NULL };
        (void)tally_take_mark(r, ',');
        good = tally_take_word(r, "below");
        tally_skip_blanks(r);
        good = good && tally_number(r, &below) && tally_take_one(r, inches);
    }
    if (!good || !at_end(r))
        return tell_small(r, stems, word);
    if (!in_use(false, acres))
        return tell_not_in_use(r, false, from);
    if (below < 1 || below > 12) {
        fault_set(&f, "tally-method", SPAN_NONE, "saplings end between 1 and 12 in");
        return tally_tell(r, &f, from, r->end);
    }
    if (stems) {
        r->now.stems_ac = acres;
    } else {
        r->now.saplings_ac = acres;
        r->now.saplings_below_in = below;
    }
    return true;
}

/* "no saplings" */
static bool read_no(struct tally_reader *r, size_t word)
{
    struct fault f = { .id = NULL };
    bool saplings = tally_take_word(r, "saplings");
    bool stems =
        !saplings && (tally_take_word(r, "regeneration") || tally_take_word(r, "regen"));
    if ((saplings || stems) && at_end(r)) {
        if (saplings)
            r->now.saplings_ac = 0;
        else
            r->now.stems_ac = 0;
        return true;
    }
    fault_set(&f, "tally-method", SPAN_NONE, "`%s` is not read here",
              tally_typed(r, word, r->end).text);
    fault_hint(&f, "no saplings, or no regeneration, when their small plots end; "
                   "plot 2: none for an empty plot");
    return tally_tell(r, &f, word, r->end);
}

bool tally_method(struct tally_reader *r, size_t word, size_t word_to)
{
    static const char *const words[] = { "baf",      "size",         "radius", "slope",
                                         "saplings", "regeneration", "regen",  "no" };
    enum { WORDS = sizeof words / sizeof words[0] };
    size_t which = 0;
    while (which < WORDS && !tally_same_word(r, word, word_to, words[which]))
        which++;
    if (which == WORDS)
        return false;
    struct tally_reader ahead = *r;
    ahead.at = word_to;
    if (which >= 4 && which < 7 && tally_take_mark(&ahead, ':'))
        return false; /* a part of a plot */
    tally_plot_end(r);
    r->at = word_to;
    if (which < 3)
        (void)read_method(r, word, word_to);
    else if (which == 3)
        (void)read_slope(r, word);
    else if (which < 7)
        (void)read_small(r, which > 4, word);
    else
        (void)read_no(r, word);
    return true;
}

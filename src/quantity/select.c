#include "quantity/select.h"

#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <string.h>

#include "base/wide.h"

enum {
    RANKS = 3,    /* each with its upper neighbour */
    SAMPLE = 64,  /* draws looked at to lay out the buckets */
    MARGIN = 3,   /* of the sample, left to the two end buckets: about a twentieth each */
    BUCKETS = 1024,
    TOPMOST = BUCKETS - 1,
    PART = 64     /* draws laid into buckets at a time */
};

static const double parts[RANKS] = { 0.1, 0.5, 0.9 };

struct want {
    size_t rank;     /* of the lower neighbour */
    double fraction; /* of the way to the upper one */
};

static void sort_few(double *x, size_t count)
{
    for (size_t i = 1; i < count; i++) {
        double moving = x[i];
        size_t j = i;
        for (; j > 0 && x[j - 1] > moving; j--)
            x[j] = x[j - 1];
        x[j] = moving;
    }
}

static double middle_of(double a, double b, double c)
{
    double low = a < b ? a : b, high = a < b ? b : a;
    return c < low ? low : c > high ? high : c;
}

/* Moves things about until x[rank] is what sorting would put there, with nothing larger
 * before it and nothing smaller behind. Three parts a round, so that equal draws (whole
 * plants, draws held at zero) end it at once. */
static void put_in_place(double *x, size_t count, size_t rank)
{
    size_t from = 0, to = count;
    while (to - from > 16) {
        double pivot = middle_of(x[from], x[from + (to - from) / 2], x[to - 1]);
        size_t less = from, at = from, more = to;
        while (at < more) {
            double here = x[at];
            if (here < pivot) {
                x[at++] = x[less];
                x[less++] = here;
            } else if (here > pivot) {
                x[at] = x[--more];
                x[more] = here;
            } else {
                at++;
            }
        }
        if (rank < less)
            to = less;
        else if (rank >= more)
            from = more;
        else
            return;
    }
    sort_few(x + from, to - from);
}

static double between(double lower, double upper, double fraction)
{
    /* Not lower + fraction * (upper - lower): neighbours may both be endless. */
    if (fraction <= 0 || lower == upper)
        return lower;
    return lower * (1 - fraction) + upper * fraction;
}

/* The percentile out of a group of draws that holds both neighbours; `before` draws are
 * smaller than the group. */
static double pick(double *group, size_t count, size_t before, struct want want)
{
    size_t rank = want.rank - before;
    put_in_place(group, count, rank);
    double lower = group[rank];
    if (rank + 1 >= count || want.fraction <= 0)
        return lower;
    double upper = group[rank + 1];
    for (size_t i = rank + 2; i < count; i++)
        upper = group[i] < upper ? group[i] : upper;
    return between(lower, upper, want.fraction);
}

struct layout {
    double from, scale;
};

/* The least numbers there have been, ascending. */
struct least {
    double list[MARGIN + 1];
};

static void least_keep(struct least *l, double x)
{
    int i = MARGIN;
    if (!(x < l->list[MARGIN]))
        return;
    for (; i > 0 && l->list[i - 1] > x; i--)
        l->list[i] = l->list[i - 1];
    l->list[i] = x;
}

/* Buckets of equal width over the middle nine tenths of the draws as a sample shows them;
 * the end buckets take the tails, so that a long tail does not crowd the rest into one.
 * False when the draws do not lend themselves (mostly equal, or endless). */
static bool lay_out(const double *draws, size_t count, struct layout *out)
{
    struct least low = { { INFINITY, INFINITY, INFINITY, INFINITY } }, high = low;
    for (size_t i = 0; i < SAMPLE; i++) {
        double draw = draws[i * count / SAMPLE];
        least_keep(&low, draw);
        least_keep(&high, -draw);
    }
    double from = low.list[MARGIN], to = -high.list[MARGIN];
    out->from = from;
    out->scale = (BUCKETS - 2) / (to - from);
    return isfinite(from) && isfinite(to) && isfinite(out->scale) && out->scale > 0;
}

/* Rounding keeps order here: a larger draw never lands in a lower bucket. Short loops over
 * arrays of a length known beforehand, for the compiler's vectors. False when one of them
 * is no number. */
WIDE static bool place_part(const double *restrict draws, struct layout lay,
                            int32_t *restrict bucket)
{
    double at[PART];
    int64_t lost = 0; /* as wide as a draw */
    for (int i = 0; i < PART; i++)
        lost |= draws[i] != draws[i];
    for (int i = 0; i < PART; i++) {
        double x = (draws[i] - lay.from) * lay.scale + 1;
        x = x < 0 ? 0 : x;
        at[i] = x < TOPMOST ? x : TOPMOST;
    }
    for (int i = 0; i < PART; i++)
        bucket[i] = (int32_t)at[i];
    return lost == 0;
}

/* `bucket` has room for a last whole part; false when some draw is no number. */
static bool into_buckets(const double *draws, size_t count, struct layout lay,
                         int32_t *bucket, uint16_t *sizes)
{
    for (size_t from = 0; from < count; from += PART) {
        double end[PART];
        size_t left = count - from;
        for (size_t i = 0; left < PART && i < PART; i++)
            end[i] = draws[from + (i < left ? i : 0)];
        if (!place_part(left < PART ? end : draws + from, lay, bucket + from))
            return false;
    }
    memset(sizes, 0, BUCKETS * sizeof *sizes);
    size_t i = 0;
    for (; i + 4 <= count; i += 4) {
        sizes[bucket[i]]++;
        sizes[bucket[i + 1]]++;
        sizes[bucket[i + 2]]++;
        sizes[bucket[i + 3]]++;
    }
    for (; i < count; i++)
        sizes[bucket[i]]++;
    return true;
}

static struct want want_of(double p, size_t count)
{
    double at = p * (double)count - 0.5;
    at = at < 0 ? 0 : at;
    if (at >= (double)(count - 1))
        return (struct want){ count - 1, 0 };
    return (struct want){ (size_t)at, at - floor(at) };
}

/* The buckets that hold the two neighbours of a percentile (those in between are empty),
 * and how many draws lie below them. The next one is looked for from there. */
struct stretch {
    uint16_t first, last;
    size_t before;
};

static size_t sum_of_eight(const uint16_t *sizes)
{
    size_t sum = 0;
    for (int i = 0; i < 8; i++)
        sum += sizes[i];
    return sum;
}

static struct stretch stretch_of(const uint16_t *sizes, size_t count, struct want want,
                                 struct stretch s)
{
    while (s.first + 8 < BUCKETS) {
        size_t eight = sum_of_eight(sizes + s.first);
        if (s.before + eight > want.rank)
            break;
        s.before += eight;
        s.first = (uint16_t)(s.first + 8);
    }
    while (s.before + sizes[s.first] <= want.rank)
        s.before += sizes[s.first++];
    size_t upper = want.rank + 1 < count ? want.rank + 1 : want.rank;
    s.last = s.first;
    for (size_t through = s.before + sizes[s.first]; through <= upper;)
        through += sizes[++s.last];
    return s;
}

/* Which of a part are in the buckets of one of the stretches. */
WIDE static void mark_part(const int32_t *restrict bucket, const struct stretch *s,
                           uint8_t *restrict near)
{
    int32_t first[RANKS], last[RANKS];
    for (int r = 0; r < RANKS; r++) {
        first[r] = s[r].first;
        last[r] = s[r].last;
    }
    for (int i = 0; i < PART; i++) {
        int32_t at = bucket[i];
        near[i] = (uint8_t)(((at >= first[0]) & (at <= last[0])) |
                            ((at >= first[1]) & (at <= last[1])) |
                            ((at >= first[2]) & (at <= last[2])));
    }
}

/* The places of the draws in the buckets of a stretch; returns how many. */
static size_t find_near(const int32_t *bucket, size_t count, const struct stretch *s,
                        uint16_t *places)
{
    size_t few = 0;
    for (size_t from = 0; from < count; from += PART) {
        uint8_t near[PART];
        mark_part(bucket + from, s, near);
        for (size_t i = 0; i < PART; i += 8) {
            uint64_t eight;
            memcpy(&eight, near + i, sizeof eight);
            for (size_t k = i; eight != 0 && k < i + 8; k++)
                if (near[k] && from + k < count)
                    places[few++] = (uint16_t)(from + k);
        }
    }
    return few;
}

/* By way of buckets; false when the draws do not lend themselves or some are lost. */
static bool from_buckets(const double *draws, size_t count, double *group, double *found)
{
    int32_t bucket[SELECT_MOST];
    uint16_t sizes[BUCKETS], places[SELECT_MOST];
    struct want want[RANKS];
    const struct stretch lowest = { 0, 0, 0 };
    struct stretch s[RANKS];
    struct layout lay;
    if (count < SAMPLE || !lay_out(draws, count, &lay) ||
        !into_buckets(draws, count, lay, bucket, sizes))
        return false;
    for (int r = 0; r < RANKS; r++) {
        want[r] = want_of(parts[r], count);
        s[r] = stretch_of(sizes, count, want[r], r > 0 ? s[r - 1] : lowest);
    }
    size_t few = find_near(bucket, count, s, places);
    for (int r = 0; r < RANKS; r++) {
        size_t held = 0;
        for (size_t i = 0; i < few; i++) {
            int32_t at = bucket[places[i]];
            if (at >= s[r].first && at <= s[r].last)
                group[held++] = draws[places[i]];
        }
        found[r] = pick(group, held, s[r].before, want[r]);
    }
    return true;
}

/* The draws that are numbers, in their order; returns how many. */
static size_t keep_numbers(const double *draws, size_t count, double *out)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        out[kept] = draws[i];
        kept += isnan(draws[i]) == 0;
    }
    return kept;
}

struct percentiles select_percentiles(const double *draws, size_t count)
{
    double group[SELECT_MOST], found[RANKS] = { NAN, NAN, NAN };
    size_t kept = count;
    if (!from_buckets(draws, count, group, found)) {
        kept = keep_numbers(draws, count, group);
        for (int r = 0; r < RANKS && kept > 0; r++)
            found[r] = pick(group, kept, 0, want_of(parts[r], kept));
    }
    return (struct percentiles){ found[0], found[1], found[2], count - kept };
}

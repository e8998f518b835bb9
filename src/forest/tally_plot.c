/* A plot of cruise notes: its number, what is told of it alone, its trees. */
#include <math.h>
#include <string.h>

#include "forest/tally_line.h"

void tally_plot_end(struct tally_reader *r)
{
    struct fault f = { .id = NULL };
    tally_species_end(r);
    if (r->in_plot && r->says_none && r->plot_trees) {
        struct tally_plot *p = &r->tally->plots[r->tally->plot_count - 1];
        fault_set(&f, "tally-plot", SPAN_NONE, "plot %u says none, but has trees",
                  (unsigned)p->number);
        tally_tell(r, &f, p->at.at - r->from.at, p->at.at - r->from.at + p->at.length);
    }
    r->in_plot = r->says_none = false;
}

/* A number is a stand's own: each may have a plot 1. */
static void tell_twice(struct tally_reader *r, uint32_t number, size_t from, size_t to)
{
    struct fault f = { .id = NULL };
    const struct tally *t = r->tally;
    size_t i = t->stand_count ? t->stands[t->stand_count - 1].first : 0;
    if (r->stand_missed) /* told: whose plots these are is not known */
        return;
    while (i < t->plot_count && t->plots[i].number != number)
        i++;
    if (i == t->plot_count)
        return;
    fault_set(&f, "tally-twice", SPAN_NONE, "plot %u is there twice", (unsigned)number);
    f.other = t->plots[i].at;
    tally_tell(r, &f, from, to);
}

static bool plot_put(struct tally_reader *r, const struct tally_plot *how, size_t from,
                     size_t to)
{
    struct fault f = { .id = NULL };
    struct tally *t = r->tally;
    tell_twice(r, how->number, from, to);
    if (!r->method_known && !r->method_missed) {
        fault_set(&f, "tally-method", SPAN_NONE, "how plot %u was taken is not said",
                  (unsigned)how->number);
        fault_hint(&f, "a line above it: baf 10, or radius 24 ft, or size 1/10 ac");
        r->method_missed = true;
        tally_tell(r, &f, from, to);
        fault_clear(&f);
    }
    if (t->plot_count == TALLY_PLOTS_MOST) {
        fault_set(&f, "tally-size", SPAN_NONE, "more than %d plots in one tally",
                  TALLY_PLOTS_MOST);
        r->told = FAULTS_MOST;
        return tally_tell(r, &f, from, to);
    }
    if (!tally_room(r, (void **)&t->plots, t->plot_count, &r->plot_room, sizeof *t->plots,
                    from, to))
        return false;
    r->method_used = true;
    struct tally_plot *p = &t->plots[t->plot_count++];
    *p = *how;
    p->first = t->tree_count;
    p->at = (struct span){ r->from.source, r->from.at + (uint32_t)from,
                           (uint32_t)(to - from) };
    r->in_plot = true;
    r->part = PART_TREES;
    r->once = PART_NONE;
    r->plot_trees = 0;
    r->small_missed[0] = r->small_missed[1] = false;
    return true;
}

/* One of ", slope 25%", ", corrected", ", half", ", quarter"; false when it is none. */
static bool read_aside(struct tally_reader *r, struct tally_plot *how)
{
    (void)tally_take_mark(r, ',');
    tally_skip_blanks(r);
    size_t word = r->at;
    if (tally_take_word(r, "slope")) {
        how->corrected = false;
        (void)tally_slope(r, word, &how->slope);
    } else if (tally_take_word(r, "corrected")) {
        how->corrected = true;
    } else if (tally_take_word(r, "half")) {
        how->parts = 2;
    } else if (tally_take_word(r, "quarter")) {
        how->parts = 4;
    } else {
        return false;
    }
    return true;
}

/* What stands between a plot's number and its colon, which is taken too. */
static void read_asides(struct tally_reader *r, struct tally_plot *how, size_t word)
{
    struct fault f = { .id = NULL };
    size_t number_to = r->at;
    bool more = true;
    while (more && !tally_take_mark(r, ':'))
        more = r->at < r->end && read_aside(r, how);
    if (more)
        return;
    tally_skip_blanks(r);
    const char *colon = memchr(r->text + r->at, ':', r->end - r->at);
    if (colon) {
        size_t to = (size_t)(colon - r->text);
        fault_set(&f, "tally-plot", SPAN_NONE,
                  "`%s` between the plot's number and its colon is not read here",
                  tally_typed(r, r->at, to).text);
        fault_hint(&f, "plot %u: red oak 14, or plot %u, slope 25%%, half: red oak 14",
                   (unsigned)how->number, (unsigned)how->number);
        tally_tell(r, &f, r->at, to);
        r->at = to + 1;
        return;
    }
    fault_set(&f, "tally-plot", SPAN_NONE, "a colon is missing after plot %u",
              (unsigned)how->number);
    fault_hint(&f, "plot %u: red oak 14", (unsigned)how->number);
    tally_tell(r, &f, word, number_to);
    r->at = r->end;
}

void tally_plot_line(struct tally_reader *r, size_t word, size_t word_to)
{
    struct fault f = { .id = NULL };
    double number = 0;
    tally_skip_blanks(r);
    size_t from = r->at;
    if (!tally_number(r, &number) || number < 1 || number > 99999 ||
        number != floor(number)) {
        size_t to = from;
        while (to < r->end && r->text[to] != ':' && !tally_is_blank(r->text[to]))
            to++;
        fault_set(&f, "tally-plot", SPAN_NONE, "a plot has a whole number, 1 to 99999");
        fault_hint(&f, "plot 1: red oak 14");
        tally_tell(r, &f, to > from ? from : word, to > from ? to : word_to);
        return;
    }
    size_t number_to = r->at;
    struct tally_plot how = r->now;
    how.number = (uint32_t)number;
    read_asides(r, &how, word);
    if (plot_put(r, &how, word, number_to))
        tally_entries(r);
}

enum tally_part tally_part_of(const struct tally_reader *r, size_t from, size_t to)
{
    static const struct {
        const char *word;
        enum tally_part part;
    } words[] = {
        { "trees", PART_TREES },      { "saplings", PART_SAPLINGS },
        { "sapling", PART_SAPLINGS }, { "snags", PART_SNAGS },
        { "snag", PART_SNAGS },       { "den", PART_DENS },
        { "dens", PART_DENS },        { "den trees", PART_DENS },
        { "den tree", PART_DENS },    { "regeneration", PART_STEMS },
        { "regen", PART_STEMS },
    };
    while (from < to && tally_is_blank(r->text[from]))
        from++;
    while (to > from && tally_is_blank(r->text[to - 1]))
        to--;
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (tally_same_word(r, from, to, words[i].word))
            return words[i].part;
    return PART_NONE;
}

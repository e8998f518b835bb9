#include "forest/tally_line.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/num.h"
#include "base/suggest.h"
#include "forest/species.h"

#define SQUARE_FEET_PER_ACRE 43560.0 /* NIST Handbook 44, appendix C */
#define METERS_PER_FOOT      0.3048  /* NIST Handbook 44: international foot */

bool tally_tell(struct tally_reader *r, struct fault *f, size_t from, size_t to)
{
    f->at = (struct span){ r->from.source, r->from.at + (uint32_t)from,
                           (uint32_t)(to - from) };
    faults_add(r->all, f);
    r->told++;
    return false;
}

struct tally_typed tally_typed(const struct tally_reader *r, size_t from, size_t to)
{
    struct tally_typed t;
    size_t n = 0;
    bool cut = to - from > sizeof t.text - 4;
    if (cut)
        to = from + sizeof t.text - 4;
    while (cut && to > from && ((unsigned char)r->text[to] & 0xC0) == 0x80)
        to--;
    for (size_t i = from; i < to; i++) {
        unsigned char c = (unsigned char)r->text[i];
        t.text[n++] = c < 0x20 || c == 0x7F ? '?' : r->text[i];
    }
    if (cut)
        n += 3;
    if (cut)
        memcpy(t.text + n - 3, "...", 3);
    t.text[n] = '\0';
    return t;
}

static void skip_blanks(struct tally_reader *r)
{
    while (r->at < r->end && tally_is_blank(r->text[r->at]))
        r->at++;
}

bool tally_same_word(const struct tally_reader *r, size_t from, size_t to,
                     const char *word)
{
    size_t n = strlen(word);
    if (to - from != n)
        return false;
    for (size_t i = 0; i < n; i++) {
        char c = r->text[from + i];
        if (c >= 'A' && c <= 'Z')
            c = (char)(c - 'A' + 'a');
        if (c != word[i])
            return false;
    }
    return true;
}

/* The letters at the start of what is left, as [from, to); nothing is taken. */
static size_t word_end(const struct tally_reader *r)
{
    size_t to = r->at;
    while (to < r->end && tally_is_letter(r->text[to]))
        to++;
    return to;
}

/* --- how the plots were taken --- */

bool tally_number(struct tally_reader *r, double *out)
{
    size_t took = num_read(r->text + r->at, r->end - r->at, out);
    r->at += took;
    return took > 0;
}

static bool unit_word(struct tally_reader *r, const char *const *words)
{
    skip_blanks(r);
    size_t to = word_end(r);
    for (; *words; words++) {
        if (!tally_same_word(r, r->at, to, *words))
            continue;
        r->at = to;
        return true;
    }
    return false;
}

static bool read_size(struct tally_reader *r, size_t word, size_t word_to, double *acres)
{
    static const char *const feet[] = { "ft", "feet", "foot", NULL };
    static const char *const meters[] = { "m", "meters", "meter", NULL };
    static const char *const land[] = { "ac", "acre", "acres", NULL };
    double value, below;
    if (!tally_number(r, &value))
        return false;
    if (tally_same_word(r, word, word_to, "size")) {
        skip_blanks(r);
        if (r->at < r->end && r->text[r->at] == '/') {
            r->at++;
            skip_blanks(r);
            if (!tally_number(r, &below) || below <= 0)
                return false;
            value /= below;
        }
        *acres = value;
        return unit_word(r, land);
    }
    if (unit_word(r, meters))
        value /= METERS_PER_FOOT;
    else if (!unit_word(r, feet))
        return false;
    *acres = acos(-1.0) * value * value / SQUARE_FEET_PER_ACRE;
    return true;
}

static bool read_method(struct tally_reader *r, size_t word, size_t word_to)
{
    struct fault f = { .id = NULL };
    bool point = tally_same_word(r, word, word_to, "baf");
    double size = 0;
    r->at = word_to;
    r->in_plot = false;
    r->method_missed = true; /* a method was meant: no second fault at each plot */
    skip_blanks(r);
    size_t from = r->at;
    bool good = point ? tally_number(r, &size) : read_size(r, word, word_to, &size);
    skip_blanks(r);
    if (!good || r->at < r->end) {
        fault_set(&f, "tally-method", SPAN_NONE, "`%s` does not say how plots were taken",
                  tally_typed(r, word, r->end).text);
        fault_hint(&f, point ? "baf 10" : "radius 24 ft, or size 1/10 ac");
        return tally_tell(r, &f, word, r->end);
    }
    /* Prisms and plots in use: outside lies a slip of the pen. Common practice, no
     * source. */
    if (point ? size < 1 || size > 100 : size < 0.0001 || size > 10) {
        fault_set(&f, "tally-method", SPAN_NONE,
                  point ? "a basal area factor lies between 1 and 100 ft2/ac"
                        : "a plot lies between 1/10000 and 10 acres");
        return tally_tell(r, &f, from, r->end);
    }
    if (r->method_known && !r->method_used) {
        fault_set(&f, "tally-method", SPAN_NONE,
                  "`%s` comes before any plot was taken in the way told above it",
                  tally_typed(r, word, r->end).text);
        fault_hint(&f, "leave out the one that does not hold");
        return tally_tell(r, &f, word, r->end);
    }
    r->method_used = false;
    r->kind = point ? PLOT_POINT : PLOT_FIXED;
    r->size = size;
    r->method_known = true;
    return true;
}

/* --- plots --- */

/* At the end of a plot: what is only known then. */
static void plot_end(struct tally_reader *r)
{
    struct fault f = { .id = NULL };
    tally_species_end(r);
    if (r->in_plot && r->says_none && r->tally->plots[r->tally->plot_count - 1].count) {
        struct tally_plot *p = &r->tally->plots[r->tally->plot_count - 1];
        fault_set(&f, "tally-plot", SPAN_NONE, "plot %u says none, but has trees",
                  (unsigned)p->number);
        tally_tell(r, &f, p->at.at - r->from.at, p->at.at - r->from.at + p->at.length);
    }
    r->in_plot = r->says_none = false;
}

static bool plot_put(struct tally_reader *r, uint32_t number, size_t from, size_t to)
{
    struct fault f = { .id = NULL };
    struct tally *t = r->tally;
    for (size_t i = 0; i < t->plot_count; i++) {
        if (t->plots[i].number != number)
            continue;
        fault_set(&f, "tally-twice", SPAN_NONE, "plot %u is there twice",
                  (unsigned)number);
        f.other = t->plots[i].at;
        tally_tell(r, &f, from, to);
        fault_clear(&f);
        break;
    }
    if (!r->method_known && !r->method_missed) {
        fault_set(&f, "tally-method", SPAN_NONE, "how plot %u was taken is not said",
                  (unsigned)number);
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
    if (t->plot_count == r->plot_room) {
        size_t room = r->plot_room ? r->plot_room * 2 : 16;
        struct tally_plot *more = realloc(t->plots, room * sizeof *more);
        if (!more)
            return fault_no_memory(&f) || tally_tell(r, &f, from, to);
        t->plots = more;
        r->plot_room = room;
    }
    r->method_used = true;
    struct span at = { r->from.source, r->from.at + (uint32_t)from,
                       (uint32_t)(to - from) };
    t->plots[t->plot_count++] =
        (struct tally_plot){ number, r->kind, r->size, t->tree_count, 0, at };
    r->in_plot = true;
    return true;
}

/* "plot 1: ..."; `word` is where "plot" starts. */
static bool read_plot(struct tally_reader *r, size_t word, size_t word_to)
{
    struct fault f = { .id = NULL };
    double number = 0;
    r->at = word_to;
    skip_blanks(r);
    size_t from = r->at;
    if (!tally_number(r, &number) || number < 1 || number > 99999 ||
        number != floor(number)) {
        size_t to = from;
        while (to < r->end && r->text[to] != ':' && !tally_is_blank(r->text[to]))
            to++;
        fault_set(&f, "tally-plot", SPAN_NONE, "a plot has a whole number, 1 to 99999");
        fault_hint(&f, "plot 1: red oak 14");
        return tally_tell(r, &f, to > from ? from : word, to > from ? to : word_to);
    }
    size_t number_to = r->at;
    skip_blanks(r);
    if (r->at >= r->end || r->text[r->at] != ':') {
        size_t colon = r->at;
        while (colon < r->end && r->text[colon] != ':')
            colon++;
        if (colon < r->end)
            fault_set(&f, "tally-plot", SPAN_NONE,
                      "`%s` between the plot's number and its colon is not read here",
                      tally_typed(r, r->at, colon).text);
        else
            fault_set(&f, "tally-plot", SPAN_NONE, "a colon is missing after plot %u",
                      (unsigned)number);
        fault_hint(&f, "plot %u: red oak 14", (unsigned)number);
        if (colon < r->end)
            tally_tell(r, &f, r->at, colon);
        else
            tally_tell(r, &f, word, number_to);
        r->at = colon;
    }
    if (r->at < r->end)
        r->at++;
    if (!plot_put(r, (uint32_t)number, word, number_to))
        return false;
    tally_entries(r);
    return true;
}

static bool read_other(struct tally_reader *r, size_t word, size_t word_to)
{
    struct fault f = { .id = NULL };
    bool colon = memchr(r->text + r->at, ':', r->end - r->at) != NULL;
    if (r->in_plot && !colon) {
        tally_entries(r);
        return true;
    }
    size_t to = word_to > word ? word_to : word + 1;
    fault_set(&f, "tally-plot", SPAN_NONE, "`%s` does not start a plot",
              tally_typed(r, word, to).text);
    struct suggest s = suggest_for(r->text + word, to - word);
    static const char *const words[] = { "baf", "radius", "size", "plot" };
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        suggest_offer(&s, words[i]);
    if (s.best)
        fault_hint(&f, "did you mean `%s`?", s.best);
    else
        fault_hint(&f, "lines read here: baf 10, radius 24 ft, size 1/10 ac, "
                       "plot 1: red oak 14");
    return tally_tell(r, &f, word, to);
}

static void read_line(struct tally_reader *r)
{
    skip_blanks(r);
    if (r->at >= r->end)
        return;
    size_t word = r->at, word_to = word_end(r);
    bool method = tally_same_word(r, word, word_to, "baf") ||
                  tally_same_word(r, word, word_to, "size") ||
                  tally_same_word(r, word, word_to, "radius");
    bool plot = tally_same_word(r, word, word_to, "plot");
    if (method || plot)
        plot_end(r);
    if (method)
        (void)read_method(r, word, word_to);
    else if (plot)
        (void)read_plot(r, word, word_to);
    else
        (void)read_other(r, word, word_to);
}

static void read_lines(struct tally_reader *r, size_t length)
{
    for (size_t start = 0; start < length && r->told < FAULTS_MOST;) {
        size_t end = start;
        while (end < length && r->text[end] != '\n' && r->text[end] != '\r')
            end++;
        r->at = start;
        r->end = start;
        while (
            r->end < end && r->text[r->end] != '#' &&
            !(r->text[r->end] == '-' && r->end + 1 < end && r->text[r->end + 1] == '-'))
            r->end++;
        while (r->end > start && tally_is_blank(r->text[r->end - 1]))
            r->end--;
        read_line(r);
        start = end + 1;
    }
    if (r->told < FAULTS_MOST)
        plot_end(r);
}

struct tally *tally_read(const char *text, size_t length, struct span at,
                         const struct species_table *species, struct faults *all)
{
    struct fault f = { .id = NULL };
    struct tally_reader r = { .text = text, .from = at, .species = species, .all = all };
    r.tally = calloc(1, sizeof *r.tally);
    if (!r.tally) {
        fault_no_memory(&f);
        (void)tally_tell(&r, &f, 0, 0);
        return NULL;
    }
    if (length > TALLY_TEXT_MOST) {
        fault_set(&f, "tally-size", SPAN_NONE, "these cruise notes are longer than 1 MB");
        (void)tally_tell(&r, &f, 0, 0);
    } else {
        read_lines(&r, length);
        if (r.told == 0 && r.tally->plot_count == 0) {
            fault_set(&f, "tally-empty", SPAN_NONE, "no plot in these cruise notes");
            fault_hint(&f, "baf 10, then a line for each plot: plot 1: red oak 14");
            (void)tally_tell(&r, &f, 0, length);
        }
    }
    if (r.told == 0)
        return r.tally;
    tally_free(r.tally);
    return NULL;
}

void tally_free(struct tally *t)
{
    if (!t)
        return;
    free(t->plots);
    free(t->trees);
    free(t);
}

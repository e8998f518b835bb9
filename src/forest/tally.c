#include "forest/tally_line.h"

#include <stdlib.h>
#include <string.h>

#include "base/num.h"
#include "base/suggest.h"

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

size_t tally_word_end(const struct tally_reader *r)
{
    size_t to = r->at;
    while (to < r->end && tally_is_letter(r->text[to]))
        to++;
    return to;
}

bool tally_take_word(struct tally_reader *r, const char *word)
{
    tally_skip_blanks(r);
    size_t to = tally_word_end(r);
    bool same = tally_same_word(r, r->at, to, word);
    if (same)
        r->at = to;
    return same;
}

bool tally_take_one(struct tally_reader *r, const char *const *words)
{
    while (*words && !tally_take_word(r, *words))
        words++;
    return *words != NULL;
}

bool tally_take_mark(struct tally_reader *r, char mark)
{
    tally_skip_blanks(r);
    bool there = r->at < r->end && r->text[r->at] == mark;
    r->at += there;
    return there;
}

bool tally_number(struct tally_reader *r, double *out)
{
    size_t took = num_read(r->text + r->at, r->end - r->at, out);
    r->at += took;
    return took > 0;
}

bool tally_room(struct tally_reader *r, void **array, size_t count, size_t *room,
                size_t size, size_t from, size_t to)
{
    struct fault f = { .id = NULL };
    if (count < *room)
        return true;
    size_t more = *room ? *room * 2 : 16;
    void *wider = realloc(*array, more * size);
    if (!wider)
        return fault_no_memory(&f) || tally_tell(r, &f, from, to);
    *array = wider;
    *room = more;
    return true;
}

/* --- lines --- */

/* Does the line go on with a part of the plot, "snags: 12 14"? What stands between the
 * last mark or number and the first colon says so. */
static bool part_starts(const struct tally_reader *r, size_t colon)
{
    size_t from = r->at;
    for (size_t i = r->at; i < colon; i++)
        if (tally_is_mark(r->text[i]) || tally_is_digit(r->text[i]))
            from = i + 1;
    return tally_part_of(r, from, colon) != PART_NONE;
}

static bool read_other(struct tally_reader *r, size_t word, size_t word_to)
{
    struct fault f = { .id = NULL };
    const char *colon = memchr(r->text + r->at, ':', r->end - r->at);
    if (r->in_plot && (!colon || part_starts(r, (size_t)(colon - r->text)))) {
        tally_entries(r);
        return true;
    }
    size_t to = word_to > word ? word_to : word + 1;
    fault_set(&f, "tally-plot", SPAN_NONE, "`%s` does not start a plot",
              tally_typed(r, word, to).text);
    struct suggest s = suggest_for(r->text + word, to - word);
    static const char *const words[] = { "baf",   "radius",   "size",         "plot",
                                         "slope", "saplings", "regeneration", "stand" };
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
    tally_skip_blanks(r);
    if (r->at >= r->end)
        return;
    size_t word = r->at, word_to = tally_word_end(r);
    if (tally_same_word(r, word, word_to, "plot")) {
        tally_plot_end(r);
        r->at = word_to;
        tally_plot_line(r, word, word_to);
    } else if (tally_same_word(r, word, word_to, "stand")) {
        tally_plot_end(r);
        r->at = word_to;
        tally_stand_line(r, word);
    } else if (!tally_method(r, word, word_to)) {
        (void)read_other(r, word, word_to);
    }
}

static void read_lines(struct tally_reader *r, size_t length)
{
    /* A file may start with a byte order mark. */
    bool marked = length >= 3 && memcmp(r->text, "\xEF\xBB\xBF", 3) == 0;
    for (size_t start = marked ? 3 : 0; start < length && r->told < FAULTS_MOST;) {
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
        tally_plot_end(r);
    tally_stand_end(r);
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
    for (size_t i = 0; i < t->stand_count; i++)
        free(t->stands[i].name);
    free(t->stands);
    free(t->plots);
    free(t->trees);
    free(t->stems);
    free(t);
}

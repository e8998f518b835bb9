/* Regeneration in cruise notes: so many stems of a species in a class of heights. */
#include <math.h>

#include "forest/tally_line.h"

/* "under 1 ft", "1-3 ft", "1 to 3 ft", "over 5 ft", or nothing at all. */
static bool read_class(struct tally_reader *r, struct tally_stems *s)
{
    static const char *const under[] = { "under", "below", NULL };
    static const char *const over[] = { "over", "above", NULL };
    static const char *const feet[] = { "ft", "feet", "foot", NULL };
    s->from_ft = 0;
    s->below_ft = HUGE_VAL;
    tally_skip_blanks(r);
    if (r->at >= r->end || tally_is_mark(r->text[r->at]))
        return true;
    bool below = tally_take_one(r, under), above = !below && tally_take_one(r, over);
    tally_skip_blanks(r);
    if (below || above)
        return tally_number(r, below ? &s->below_ft : &s->from_ft) &&
               tally_take_one(r, feet);
    if (!tally_number(r, &s->from_ft) ||
        !(tally_take_mark(r, '-') || tally_take_word(r, "to")))
        return false;
    tally_skip_blanks(r);
    return tally_number(r, &s->below_ft) && tally_take_one(r, feet);
}

static bool class_makes_sense(const struct tally_stems *s)
{
    return s->from_ft < s->below_ft && s->from_ft <= TALLY_HEIGHT_MOST &&
           (isinf(s->below_ft) || s->below_ft <= TALLY_HEIGHT_MOST);
}

static bool stems_fit(struct tally_reader *r, const struct tally_stems *s, double count,
                      size_t from, size_t to)
{
    struct fault f = { .id = NULL };
    if (!r->species_named) {
        fault_set(&f, "tally-species", SPAN_NONE, "no species before the count %s",
                  tally_typed(r, from, to).text);
        fault_hint(&f, "regeneration: red oak 3 under 1 ft");
        r->species_named = true; /* told once for all that follow */
    } else if (count < 1 || count > TALLY_STEMS_MOST || count != floor(count)) {
        fault_set(&f, "tally-count", SPAN_NONE,
                  "`%s`: stems are counted whole, 1 to %d in one class",
                  tally_typed(r, from, to).text, TALLY_STEMS_MOST);
    } else if (!class_makes_sense(s)) {
        fault_set(&f, "tally-height", SPAN_NONE,
                  "`%s`: a height class goes up, and not above 30 ft",
                  tally_typed(r, from, to).text);
        fault_hint(&f, "under 1 ft, 1-3 ft, 3-5 ft, over 5 ft");
    } else {
        return true;
    }
    return tally_tell(r, &f, from, to);
}

static bool stems_put(struct tally_reader *r, struct tally_stems s, size_t from,
                      size_t to)
{
    struct tally *t = r->tally;
    struct fault f = { .id = NULL };
    if (t->stem_count == TALLY_TREES_MOST) {
        fault_set(&f, "tally-size", SPAN_NONE,
                  "more than %d counts of regeneration in one tally", TALLY_TREES_MOST);
        r->told = FAULTS_MOST;
        return tally_tell(r, &f, from, to);
    }
    if (!tally_room(r, (void **)&t->stems, t->stem_count, &r->stem_room, sizeof *t->stems,
                    from, to))
        return false;
    t->stems[t->stem_count++] = s;
    return true;
}

/* Takes one count with its class; false when it reads as nothing of the kind, and then
 * the entry is taken to its end. */
static bool read_stems(struct tally_reader *r, double *count, struct tally_stems *s,
                       size_t *to)
{
    bool good = tally_number(r, count) && read_class(r, s);
    *to = r->at;
    tally_skip_blanks(r);
    if (good && (r->at >= r->end || tally_is_mark(r->text[r->at]) ||
                 tally_is_letter(r->text[r->at])))
        return true;
    while (r->at < r->end && !tally_is_mark(r->text[r->at]))
        r->at++;
    *to = r->at;
    return false;
}

void tally_stem_entry(struct tally_reader *r)
{
    struct fault f = { .id = NULL };
    struct tally_stems s = { .plot = (uint32_t)(r->tally->plot_count - 1) };
    size_t from = r->at, to;
    double count = 0;
    bool good = read_stems(r, &count, &s, &to);
    r->species_trees++;
    while (to > from && tally_is_blank(r->text[to - 1]))
        to--;
    if (!good) {
        fault_set(&f, "tally-height", SPAN_NONE, "`%s` is not a count in a height class",
                  tally_typed(r, from, to).text);
        fault_hint(&f, "12 under 1 ft, 5 1-3 ft, 2 3-5 ft, 1 over 5 ft");
        (void)tally_tell(r, &f, from, to);
        return;
    }
    if (!stems_fit(r, &s, count, from, to) || !r->species_known)
        return;
    s.species = (uint16_t)r->species_last;
    s.count = (uint16_t)count;
    (void)stems_put(r, s, from, to);
}

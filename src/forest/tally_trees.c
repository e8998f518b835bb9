#include "forest/tally_line.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "base/num.h"
#include "forest/species.h"

/* The end of the run that starts at `from` and holds no blank and no mark. */
static size_t token_end(const struct tally_reader *r, size_t from)
{
    while (from < r->end && !tally_is_blank(r->text[from]) &&
           !tally_is_mark(r->text[from]))
        from++;
    return from;
}

/* What the species read last, or the bare diameter, is a part of. */
static enum tally_part part_now(const struct tally_reader *r)
{
    return r->once != PART_NONE ? r->once : r->part;
}

static bool tree_put(struct tally_reader *r, struct tally_tree tree, size_t from,
                     size_t to)
{
    struct fault f = { .id = NULL };
    struct tally *t = r->tally;
    enum tally_part part = part_now(r);
    if (t->tree_count == TALLY_TREES_MOST) {
        fault_set(&f, "tally-size", SPAN_NONE, "more than %d diameters in one tally",
                  TALLY_TREES_MOST);
        fault_hint(&f, "write 7x3 for three sevens, or make two stands of it");
        r->told = FAULTS_MOST;
        return tally_tell(r, &f, from, to);
    }
    if (!tally_room(r, (void **)&t->trees, t->tree_count, &r->tree_room, sizeof *t->trees,
                    from, to))
        return false;
    tree.plot = (uint32_t)(t->plot_count - 1);
    tree.species = r->species_known ? (uint16_t)r->species_last : TALLY_NO_SPECIES;
    tree.state = part == PART_SNAGS  ? TREE_SNAG
                 : part == PART_DENS ? TREE_DEN
                                     : TREE_LIVING;
    tree.sapling = part == PART_SAPLINGS;
    t->trees[t->tree_count++] = tree;
    t->plots[t->plot_count - 1].count++;
    r->plot_trees += part == PART_TREES || part == PART_DENS;
    return true;
}

/* Is there a comma with a digit at either side? */
static bool comma_in_number(const struct tally_reader *r, size_t at)
{
    return at > 0 && at + 1 < r->end && r->text[at] == ',' &&
           tally_is_digit(r->text[at - 1]) && tally_is_digit(r->text[at + 1]);
}

/* "12,5" may be twelve and a half or two trees: neither is guessed. `comma` is the first
 * one of what starts at `from`. */
static bool tell_comma(struct tally_reader *r, size_t from, size_t comma)
{
    struct fault f = { .id = NULL };
    size_t to = comma, commas = 0;
    for (; comma_in_number(r, to); commas++)
        to = token_end(r, to + 1);
    struct tally_typed typed = tally_typed(r, from, to), point = typed;
    r->at = to;
    r->species_trees++;
    fault_set(&f, "tally-comma", SPAN_NONE,
              "`%s` may be one diameter or several: the comma stands between digits",
              typed.text);
    char *mark = strchr(point.text, ',');
    if (mark)
        *mark = '.';
    if (commas == 1 && mark)
        fault_hint(&f, "write %s, or put a blank after the comma", point.text);
    else
        fault_hint(&f, "put a blank after each comma; parts of an inch have a point");
    return tally_tell(r, &f, from, to);
}

/* Does the diameter lie where its plot, the large or the small one, takes trees? */
static bool on_its_plot(struct tally_reader *r, double diameter, size_t from, size_t to)
{
    struct fault f = { .id = NULL };
    const struct tally_plot *p = &r->tally->plots[r->tally->plot_count - 1];
    enum tally_part part = part_now(r);
    bool sapling = part == PART_SAPLINGS;
    if (part == PART_SNAGS || p->saplings_ac <= 0 ||
        sapling == (diameter < p->saplings_below_in))
        return true;
    struct buf bound;
    buf_init(&bound);
    num_trade(&bound, p->saplings_below_in);
    fault_set(&f, "tally-part", SPAN_NONE,
              sapling ? "saplings are below %s in here; %s is a tree"
                      : "trees below %s in are counted with the saplings here: %s",
              bound.data ? bound.data : "", tally_typed(r, from, to).text);
    buf_clear(&bound);
    fault_hint(&f, "where saplings end is said with their plots: "
                   "saplings on 1/100 ac, below 4 in");
    return tally_tell(r, &f, from, to);
}

/* Is the diameter one that can be counted? Told when not. */
static bool diameter_fits(struct tally_reader *r, double diameter, double count,
                          size_t from, size_t to)
{
    struct fault f = { .id = NULL };
    if (!r->species_named && part_now(r) != PART_SNAGS) {
        fault_set(&f, "tally-species", SPAN_NONE, "no species before the diameter %s",
                  tally_typed(r, from, to).text);
        fault_hint(&f, "plot 1: red oak %s", tally_typed(r, from, to).text);
        r->species_named = true; /* told once for all that follow */
    } else if (diameter < TALLY_LEAST_IN || diameter > TALLY_MOST_IN) {
        fault_set(&f, "tally-diameter", SPAN_NONE,
                  "a diameter of %s in is outside 0.5 to 60 in",
                  tally_typed(r, from, to).text);
        fault_hint(&f, "is a blank or a point missing?");
    } else if (count < 1 || count > TALLY_COUNT_MOST || count != floor(count)) {
        fault_set(&f, "tally-count", SPAN_NONE,
                  "`%s`: the number after x is how many trees, 1 to %d",
                  tally_typed(r, from, to).text, TALLY_COUNT_MOST);
    } else {
        return on_its_plot(r, diameter, from, to);
    }
    return tally_tell(r, &f, from, to);
}

/* "half" or "double" behind a diameter. */
static double read_times(struct tally_reader *r)
{
    return tally_take_word(r, "half") ? 0.5 : tally_take_word(r, "double") ? 2 : 1;
}

/* "7", "6.5", "7x3", "7 half". */
static bool read_diameter(struct tally_reader *r)
{
    struct fault f = { .id = NULL };
    size_t from = r->at, to = token_end(r, from);
    double diameter = 0, count = 1;
    if (comma_in_number(r, to))
        return tell_comma(r, from, to);
    bool good = tally_number(r, &diameter);
    if (good && r->at < to && (r->text[r->at] == 'x' || r->text[r->at] == 'X')) {
        r->at++;
        good = r->at < to && tally_is_digit(r->text[r->at]) && tally_number(r, &count);
    }
    good = good && r->at == to;
    r->at = to;
    r->species_trees++;
    double times = read_times(r);
    if (good)
        return diameter_fits(r, diameter, count, from, to) &&
               (!r->species_named || r->species_known) &&
               tree_put(r,
                        (struct tally_tree){ .count = (uint16_t)count,
                                             .diameter_in = diameter,
                                             .times = times },
                        from, to);
    fault_set(&f, "tally-diameter", SPAN_NONE, "`%s` is not a diameter",
              tally_typed(r, from, to).text);
    if (r->text[to - 1] == '?')
        fault_hint(&f, "a borderline tree that counts half: %s half",
                   tally_typed(r, from, to - 1).text);
    else
        fault_hint(&f, "inches as a bare number: 7, 6.5, or 7x3 for three sevens");
    return tally_tell(r, &f, from, to);
}

void tally_species_end(struct tally_reader *r)
{
    struct fault f = { .id = NULL };
    if (r->species_known && r->species_trees == 0) {
        bool stems = part_now(r) == PART_STEMS;
        fault_set(&f, stems ? "tally-count" : "tally-diameter", SPAN_NONE,
                  stems ? "no count after %s" : "no diameters after %s",
                  tally_typed(r, r->species_from, r->species_to).text);
        fault_hint(&f, "leave the species out when there was none of it");
        tally_tell(r, &f, r->species_from, r->species_to);
    }
    r->species_named = r->species_known = false;
    r->once = PART_NONE;
}

/* "7", ".5", and "-7" too, which is told as a diameter, not as a part of the name. */
static bool number_starts(const struct tally_reader *r)
{
    size_t i = r->at;
    bool apart = i > 0 && tally_is_blank(r->text[i - 1]);
    if (apart && (r->text[i] == '-' || r->text[i] == '+') && i + 1 < r->end)
        i++;
    if (r->text[i] == '.' && i + 1 < r->end)
        i++;
    return tally_is_digit(r->text[i]);
}

/* A part of the plot starts: "snags:". */
static bool read_part(struct tally_reader *r, size_t from, size_t to)
{
    struct fault f = { .id = NULL };
    enum tally_part part = tally_part_of(r, from, to);
    struct tally_plot *p = &r->tally->plots[r->tally->plot_count - 1];
    r->at++; /* the colon */
    if (part == PART_NONE) {
        r->species_named = true; /* no second fault at what follows */
        size_t species;
        struct fault no = { .id = NULL };
        bool known = species_find(r->species, r->text + from, to - from, &species, &no);
        fault_set(&f, "tally-part", SPAN_NONE, "`%s:` does not start a part of a plot",
                  tally_typed(r, from, to).text);
        if (known)
            fault_hint(&f, "without the colon: %s 14", tally_typed(r, from, to).text);
        else
            fault_hint(&f, "parts are trees, saplings, regeneration, snags, den trees");
        return tally_tell(r, &f, from, to);
    }
    r->part = part;
    p->snags_told = p->snags_told || part == PART_SNAGS;
    p->dens_told = p->dens_told || part == PART_DENS;
    bool stems = part == PART_STEMS, small = stems || part == PART_SAPLINGS;
    if (!small || r->small_missed[stems] || (stems ? p->stems_ac : p->saplings_ac) > 0)
        return true;
    fault_set(&f, "tally-method", SPAN_NONE, "how large the plots for %s are is not said",
              stems ? "regeneration" : "saplings");
    fault_hint(&f, "a line above the plot: %s",
               stems ? "regeneration on 1/1000 ac" : "saplings on 1/100 ac");
    r->small_missed[stems] = true;
    return tally_tell(r, &f, from, to);
}

/* "snag red oak": the word before the species says what it is; the rest is returned. */
static size_t read_once(struct tally_reader *r, size_t from, size_t to)
{
    size_t word = from;
    while (word < to && tally_is_letter(r->text[word]))
        word++;
    enum tally_part part = tally_part_of(r, from, word);
    if (part != PART_SNAGS && part != PART_DENS)
        return from;
    struct tally_plot *p = &r->tally->plots[r->tally->plot_count - 1];
    p->snags_told = p->snags_told || part == PART_SNAGS;
    p->dens_told = p->dens_told || part == PART_DENS;
    r->once = part;
    while (word < to && tally_is_blank(r->text[word]))
        word++;
    return word;
}

/* The words up to a number, a mark, a colon or the end of the line. */
static bool read_words(struct tally_reader *r)
{
    struct fault f = { .id = NULL };
    size_t from = r->at, to = from;
    while (r->at < r->end && !tally_is_mark(r->text[r->at]) && r->text[r->at] != ':' &&
           !number_starts(r)) {
        if (!tally_is_blank(r->text[r->at]))
            to = r->at + 1;
        r->at++;
    }
    tally_species_end(r);
    if (r->at < r->end && r->text[r->at] == ':')
        return read_part(r, from, to);
    if (tally_same_word(r, from, to, "none") || tally_same_word(r, from, to, "empty")) {
        r->says_none = r->says_none || r->part == PART_TREES;
        return true;
    }
    from = read_once(r, from, to);
    if (from == to) /* "snag 12": of a species that was not told */
        return true;
    r->species_named = true;
    r->species_from = from;
    r->species_to = to;
    r->species_trees = 0;
    r->species_known =
        species_find(r->species, r->text + from, to - from, &r->species_last, &f);
    return r->species_known || tally_tell(r, &f, from, to);
}

void tally_entries(struct tally_reader *r)
{
    while (r->told < FAULTS_MOST) {
        while (r->at < r->end &&
               (tally_is_blank(r->text[r->at]) || tally_is_mark(r->text[r->at])))
            r->at++;
        if (r->at >= r->end)
            return;
        if (tally_is_letter(r->text[r->at]))
            (void)read_words(r);
        else if (part_now(r) == PART_STEMS)
            tally_stem_entry(r);
        else
            (void)read_diameter(r);
    }
}

#include "forest/tally_line.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "forest/species.h"

/* The end of the run that starts at `from` and holds no blank and no mark. */
static size_t token_end(const struct tally_reader *r, size_t from)
{
    while (from < r->end && !tally_is_blank(r->text[from]) &&
           !tally_is_mark(r->text[from]))
        from++;
    return from;
}

static bool tree_put(struct tally_reader *r, uint16_t count, double diameter_in,
                     size_t from, size_t to)
{
    struct fault f = { .id = NULL };
    struct tally *t = r->tally;
    if (t->tree_count == TALLY_TREES_MOST) {
        fault_set(&f, "tally-size", SPAN_NONE, "more than %d diameters in one tally",
                  TALLY_TREES_MOST);
        fault_hint(&f, "write 7x3 for three sevens, or make two stands of it");
        r->told = FAULTS_MOST;
        return tally_tell(r, &f, from, to);
    }
    if (t->tree_count == r->tree_room) {
        size_t room = r->tree_room ? r->tree_room * 2 : 64;
        struct tally_tree *more = realloc(t->trees, room * sizeof *more);
        if (!more) {
            fault_no_memory(&f);
            return tally_tell(r, &f, from, to);
        }
        t->trees = more;
        r->tree_room = room;
    }
    t->trees[t->tree_count++] =
        (struct tally_tree){ .plot = (uint32_t)(t->plot_count - 1),
                             .species = (uint16_t)r->species_last,
                             .count = count,
                             .diameter_in = diameter_in };
    t->plots[t->plot_count - 1].count++;
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

/* "7", "6.5", "7x3". */
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
    if (!good) {
        fault_set(&f, "tally-diameter", SPAN_NONE, "`%s` is not a diameter",
                  tally_typed(r, from, to).text);
        fault_hint(&f, "inches as a bare number: 7, 6.5, or 7x3 for three sevens");
    } else if (!r->species_named) {
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
        return !r->species_known || tree_put(r, (uint16_t)count, diameter, from, to);
    }
    return tally_tell(r, &f, from, to);
}

void tally_species_end(struct tally_reader *r)
{
    struct fault f = { .id = NULL };
    if (r->species_known && r->species_trees == 0) {
        fault_set(&f, "tally-diameter", SPAN_NONE, "no diameters after %s",
                  tally_typed(r, r->species_from, r->species_to).text);
        fault_hint(&f, "leave the species out when there was none of it");
        tally_tell(r, &f, r->species_from, r->species_to);
    }
    r->species_named = r->species_known = false;
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

/* The words up to a number, a mark or the end of the line. */
static bool read_species(struct tally_reader *r)
{
    struct fault f = { .id = NULL };
    size_t from = r->at, to = from;
    while (r->at < r->end && !tally_is_mark(r->text[r->at]) && !number_starts(r)) {
        if (!tally_is_blank(r->text[r->at]))
            to = r->at + 1;
        r->at++;
    }
    tally_species_end(r);
    if (tally_same_word(r, from, to, "none") || tally_same_word(r, from, to, "empty")) {
        r->says_none = true;
        return true;
    }
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
            (void)read_species(r);
        else
            (void)read_diameter(r);
    }
}

/* tally_line.h: the reader of cruise notes from the inside, shared by tally.c (lines),
 * tally_stands.c (whose plots they are), tally_method.c (how plots were taken),
 * tally_plot.c (plots), tally_trees.c (species and diameters) and tally_stems.c
 * (regeneration). No other module includes it.
 *
 *     struct tally_reader r = { ... };
 *     tally_entries(&r);              // what is left of the line: "red oak 14 9x2; ..."
 *     tally_species_end(&r);          // at the end of the plot
 */
#ifndef SPINNEY_FOREST_TALLY_LINE_H
#define SPINNEY_FOREST_TALLY_LINE_H

#include "base/fault.h"
#include "forest/tally.h"

/* What a plot's notes are speaking of. */
enum tally_part {
    PART_TREES,
    PART_SAPLINGS,
    PART_SNAGS,
    PART_DENS,
    PART_STEMS,
    PART_NONE /* no such word */
};

struct tally_reader {
    const char *text;
    size_t at, end; /* what is left of the line, without its comment */
    struct span from;
    const struct species_table *species;
    struct faults *all;
    size_t told;
    bool method_used, method_known, method_missed, stand_missed;
    struct tally_plot now; /* how plots are taken: number, first, count, at unused */
    struct tally *tally;
    size_t plot_room, tree_room, stem_room, stand_room;
    bool in_plot, says_none;
    size_t plot_trees;          /* living ones of the plot that is read */
    enum tally_part part, once; /* once: of one species only, "snag red oak 12" */
    bool small_missed[2];       /* the size for saplings, regeneration: once a plot */
    bool species_named, species_known; /* the last species of the plot */
    size_t species_last, species_from, species_to, species_trees;
};

/* Places the fault at bytes [from, to) and adds it to the list; always false. Reading
 * ends when FAULTS_MOST are told. */
bool tally_tell(struct tally_reader *r, struct fault *f, size_t from, size_t to);

/* What was typed, fit to stand in a message: short, and without control characters. */
struct tally_typed {
    char text[48];
};
struct tally_typed tally_typed(const struct tally_reader *r, size_t from, size_t to);

static inline bool tally_is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\f' || c == '\v';
}
static inline bool tally_is_digit(char c)
{
    return c >= '0' && c <= '9';
}
static inline bool tally_is_mark(char c)
{
    return c == ';' || c == ',';
}
/* Letters of any language: bytes past ASCII are parts of letters here. */
static inline bool tally_is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (unsigned char)c >= 0x80;
}
static inline void tally_skip_blanks(struct tally_reader *r)
{
    while (r->at < r->end && tally_is_blank(r->text[r->at]))
        r->at++;
}
/* The letters at the start of what is left, as [at, end); nothing is taken. */
size_t tally_word_end(const struct tally_reader *r);
/* Takes the word when it is what comes next, after blanks. */
bool tally_take_word(struct tally_reader *r, const char *word);
/* One of a list that ends in NULL. */
bool tally_take_one(struct tally_reader *r, const char *const *words);
/* Takes `mark` when it comes next, after blanks. */
bool tally_take_mark(struct tally_reader *r, char mark);
/* Is [from, to) this word, in letters of any size? */
bool tally_same_word(const struct tally_reader *r, size_t from, size_t to,
                     const char *word);
/* Takes a number; false when there is none. */
bool tally_number(struct tally_reader *r, double *out);

/* Makes room for one more in an array of the tally; false and told when there is none. */
bool tally_room(struct tally_reader *r, void **array, size_t count, size_t *room,
                size_t size, size_t from, size_t to);

/* Is it a line that says how plots are taken ("baf 10", "slope 30%", "no saplings")? Then
 * it is read. `word` is where its first word starts. */
bool tally_method(struct tally_reader *r, size_t word, size_t word_to);
/* "30%", "30 percent" behind the word slope, which lies at `word`; false when told. */
bool tally_slope(struct tally_reader *r, size_t word, double *percent);
/* A plot's line, behind the word "plot" at [word, word_to). */
void tally_plot_line(struct tally_reader *r, size_t word, size_t word_to);
/* "stand Bench aspen", whose plots follow, behind the word stand, which lies at `word`.
 * */
void tally_stand_line(struct tally_reader *r, size_t word);
/* At the end of a stand's notes, and of all of them. */
void tally_stand_end(struct tally_reader *r);
/* At the end of a plot: what is only known then. */
void tally_plot_end(struct tally_reader *r);
/* Which part of a plot's notes the words [from, to) before a colon start. */
enum tally_part tally_part_of(const struct tally_reader *r, size_t from, size_t to);
/* "12 under 1 ft" */
void tally_stem_entry(struct tally_reader *r);

/* Species and diameters to the end of the line. */
void tally_entries(struct tally_reader *r);
/* A species without diameters is a slip, found when the next one starts or the plot
 * ends. */
void tally_species_end(struct tally_reader *r);

#endif

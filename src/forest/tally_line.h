/* tally_line.h: the reader of cruise notes from the inside, shared by tally.c (lines,
 * methods, plots) and tally_trees.c (species and diameters). No other module includes it.
 *
 *     struct tally_reader r = { ... };
 *     tally_entries(&r);              // what is left of the line: "red oak 14 9x2; ..."
 *     tally_species_end(&r);          // at the end of the plot
 */
#ifndef SPINNEY_FOREST_TALLY_LINE_H
#define SPINNEY_FOREST_TALLY_LINE_H

#include "base/fault.h"
#include "forest/tally.h"

struct tally_reader {
    const char *text;
    size_t at, end; /* what is left of the line, without its comment */
    struct span from;
    const struct species_table *species;
    struct faults *all;
    size_t told;
    bool method_used, method_known, method_missed;
    enum plot_kind kind;
    double size;
    struct tally *tally;
    size_t plot_room, tree_room;
    bool in_plot, says_none;
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
/* Is [from, to) this word, in letters of any size? */
bool tally_same_word(const struct tally_reader *r, size_t from, size_t to,
                     const char *word);
/* Takes a number; false when there is none. */
bool tally_number(struct tally_reader *r, double *out);

/* Species and diameters to the end of the line. */
void tally_entries(struct tally_reader *r);
/* A species without diameters is a slip, found when the next one starts or the plot
 * ends. */
void tally_species_end(struct tally_reader *r);

#endif

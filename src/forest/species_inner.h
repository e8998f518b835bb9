/* species_inner.h: how the table of species is stored, for its files: species.c (rows),
 * species_words.c (the words that name them), species_find.c (questions).
 *
 *     char folded[WORD_LONGEST + 1];
 *     const struct word *w = species_fold(text, length, folded)
 *                                ? species_word(t, folded) : NULL;
 */
#ifndef SPINNEY_FOREST_SPECIES_INNER_H
#define SPINNEY_FOREST_SPECIES_INNER_H

#include "forest/species.h"

enum {
    WORD_LONGEST = 60,
    GROUPS_MOST = 128,
    WORDS_MOST = 4096, /* slots of the word index; kept at most half full */
};

enum { FLAG_COUNT = 7 };
extern const char *const species_flag_words[FLAG_COUNT];

struct group {
    const char *name;
    struct species_set members;
};

enum word_kind { WORD_FREE, WORD_SPECIES, WORD_GROUP, WORD_DROPPED };

struct word {
    const char *folded, *shown;
    enum word_kind kind;
    size_t index;
};

struct piece {
    struct piece *next;
    char text[];
};

struct species_table {
    struct species rows[SPECIES_MOST];
    size_t count;
    struct group groups[GROUPS_MOST];
    size_t group_count;
    struct word words[WORDS_MOST];
    size_t word_count;
    struct piece *pieces; /* all text, freed at the end */
};

/* A copy that lives as long as the table, "" of NULL; NULL when out of memory. */
const char *species_keep(struct species_table *t, const char *text);

/* Small letters, one blank for any run of blanks, hyphens and underscores, none at the
 * ends. False when nothing is left or it is too long to be a name. */
bool species_fold(const char *word, size_t length, char out[WORD_LONGEST + 1]);
/* A word's slot, NULL when nothing is called so. */
const struct word *species_word(const struct species_table *t, const char *folded);
/* With `only_ask` nothing changes: a row is asked about as a whole before it is put in,
 * so that a refused row leaves the table as it was. */
bool species_word_put(struct species_table *t, const char *shown, enum word_kind kind,
                      size_t index, bool only_ask, struct fault *f);
/* birch birches, cherry cherries, oak oaks: enough for trees; others say their plural. */
bool species_plural(const char *name, char out[WORD_LONGEST + 3]);
/* The words of group g itself. */
bool species_group_words(struct species_table *t, size_t g, struct fault *f);
/* Puts a species into a group, which is made when it is new. */
bool species_group_join(struct species_table *t, const char *name, size_t index,
                        bool only_ask, struct fault *f);

#endif

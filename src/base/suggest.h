/* suggest.h: "did you mean": the nearest of a list of names.
 *
 *     struct suggest s = suggest_for("wdith", 5);
 *     for (...) suggest_offer(&s, name[i]);
 *     if (s.best) fault_hint(f, "did you mean `%s`?", s.best);
 *
 * Distance is edits with neighbouring letters swapped counted as one, folded to lower
 * case, `_` `-` and blank alike. At most a third of the length (rounded up); nothing for
 * words of one or two letters; ties go to the alphabetically first, so order of offers
 * does not matter. `best` borrows the offered text. */
#ifndef SPINNEY_BASE_SUGGEST_H
#define SPINNEY_BASE_SUGGEST_H

#include <stddef.h>

struct suggest {
    const char *word;
    size_t length;
    size_t distance; /* of best */
    const char *best;
};

struct suggest suggest_for(const char *word, size_t length);
void suggest_offer(struct suggest *s, const char *name);

#endif

/* flags.h: the flags that mark a layout on the ground: opening centers, bends of trails,
 * ends of buffers, corners. What order they are walked in is in stakeout.h.
 *
 *     struct flags all = { .list = NULL };
 *     flags_center(&all, "opening 1", &opening, f);
 *     flags_bends(&all, FLAG_TRAIL, "trail 2", &trail, 5, f);
 *     flags_free(&all);
 *
 * A smooth trail bends everywhere: flagged are its ends, and as few points between that
 * whoever walks straight from flag to flag stays within `within_ft` of it (the method of
 * Douglas and Peucker, 1973: the farthest point off the chord is kept, and both sides
 * again). Cost: points times flags at worst, for a trail of some hundred points nothing.
 * False, with the fault and nothing of this call added, when out of memory. */
#ifndef SPINNEY_GROUND_FLAGS_H
#define SPINNEY_GROUND_FLAGS_H

#include <stdbool.h>
#include <stddef.h>

#include "ground/shape.h"

struct fault;

enum flag_kind { FLAG_OPENING, FLAG_TRAIL, FLAG_BUFFER, FLAG_CORNER, FLAG_OTHER };

struct flag {
    char *name;
    enum flag_kind kind;
    struct point at;
    size_t run; /* of flags that are walked one after the other; 0: alone */
};

/* All zero: none. */
struct flags {
    struct flag *list;
    size_t count, room;
};

void flags_free(struct flags *all);
/* "opening", "trail", "buffer", "corner", "flag". */
const char *flag_kind_word(enum flag_kind kind);

bool flags_add(struct flags *all, enum flag_kind kind, const char *name, struct point at,
               struct fault *f);
/* One at the center of the shape; of an area, when that lies outside, well inside. */
bool flags_center(struct flags *all, const char *name, const struct shape *s,
                  struct fault *f);
/* "trail 2, start", "trail 2, bend 1", ... "trail 2, end" of each line; "corner 1", ...
 * of each ring (two at least); of points all. Parts of several are told apart: "trail 2
 * part 1, start". Each line and each ring is a run. */
bool flags_bends(struct flags *all, enum flag_kind kind, const char *name,
                 const struct shape *s, double within_ft, struct fault *f);

#endif

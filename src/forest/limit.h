/* limit.h: is a borderline tree in? What the command `spinney limit` reads and prints,
 * for a cruiser in the field.
 *
 *     struct limit ask;
 *     const char *words[] = { "20", "14.1", "30%" };
 *     if (limit_read(words, 3, &ask, f)) limit_say(&ask, &out);
 *
 * Arguments: basal area factor (1 to 100 ft2/ac), diameter (0.5 to 60 in), slope (0 to
 * 150 percent), with or without their units, as one word or several: `20 14.1 in 30
 * percent`. Without a diameter a table for 4 to 30 in is printed. Fault: line. */
#ifndef SPINNEY_FOREST_LIMIT_H
#define SPINNEY_FOREST_LIMIT_H

#include <stdbool.h>
#include <stddef.h>

struct buf;
struct fault;

struct limit {
    double baf;
    double diameter_in;   /* 0: a table of them */
    double slope_percent; /* 0: level */
};

bool limit_read(const char *const *words, size_t count, struct limit *out,
                struct fault *f);
void limit_say(const struct limit *ask, struct buf *out);

#endif

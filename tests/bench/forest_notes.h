/* forest_notes.h: cruise notes of made-up stands, for measurements: 20 plots of 8 trees,
 * half of them by a prism, half of them fixed and on a slope, of twelve species in random
 * diameters, no two stands alike.
 *
 *     char text[NOTES_ROOM];
 *     size_t length = notes_write(7, text);       // of the stand 7, always the same
 */
#ifndef SPINNEY_BENCH_FOREST_NOTES_H
#define SPINNEY_BENCH_FOREST_NOTES_H

#include <stddef.h>
#include <stdio.h>

enum { NOTES_PLOTS = 20, NOTES_TREES = 8, NOTES_ROOM = NOTES_PLOTS * NOTES_TREES * 32 };

static inline unsigned notes_roll(unsigned *seed, unsigned sides)
{
    *seed = *seed * 1664525u + 1013904223u;
    return (*seed >> 12) % sides;
}

static inline size_t notes_write(unsigned stand, char out[NOTES_ROOM])
{
    static const char *const words[] = {
        "bigtooth aspen", "QA",       "northern red oak", "RM", "white oak", "PB",
        "sugar maple",    "red pine", "balsam fir",       "BO", "ironwood",  "hemlock",
    };
    unsigned seed = 7 + stand * 2654435761u;
    size_t n = 0, room = NOTES_ROOM;
    for (unsigned p = 1; p <= NOTES_PLOTS; p++) {
        if (p == 1)
            n += (size_t)snprintf(out + n, room - n, "baf 10\n");
        if (p == NOTES_PLOTS / 2 + 1)
            n += (size_t)snprintf(out + n, room - n, "size 1/20 ac\nslope 20%%\n");
        n += (size_t)snprintf(out + n, room - n, "plot %u:", p);
        for (int k = 0; k < NOTES_TREES; k++) {
            unsigned kind = notes_roll(&seed, 12);
            unsigned inch = 4 + notes_roll(&seed, 7) + notes_roll(&seed, 9);
            n += (size_t)snprintf(out + n, room - n, "%s %s %u", k ? ";" : "",
                                  words[kind], inch);
            if (p > NOTES_PLOTS / 2)
                n += (size_t)snprintf(out + n, room - n, ".%u", notes_roll(&seed, 10));
        }
        n += (size_t)snprintf(out + n, room - n, "\n");
    }
    return n;
}

#endif

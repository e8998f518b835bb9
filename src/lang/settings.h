/* settings.h: what the command line decides of a run; nothing else does.
 *
 *     struct settings s = settings_plain();
 *     s.packs[s.pack_count++] = "our-county";
 */
#ifndef SPINNEY_LANG_SETTINGS_H
#define SPINNEY_LANG_SETTINGS_H

#include <stdbool.h>
#include <stddef.h>

enum { SETTINGS_PACKS = 16, SETTINGS_INPUTS = 64 };

struct settings {
    const char *packs[SETTINGS_PACKS]; /* folders laid over the built-in book, later wins */
    size_t pack_count;
    const char *inputs[SETTINGS_INPUTS]; /* "name=value", as typed after --set */
    size_t input_count;
    bool trace;    /* show Lua's own traceback beside a fault */
    bool ids;      /* show the ids of faults and warnings */
    bool colour;
    int width;     /* columns of the terminal's papers */
    double steps;  /* most Lua instructions, in millions; 0 for the default */
    double memory; /* most megabytes; 0 for the default */
};

struct settings settings_plain(void);

#endif

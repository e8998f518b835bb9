/* ways_told.h: what the check of a stand's openings and trails found, as the plan keeps
 * it for data: figures of the whole, and rows for its openings, its dead ends and the
 * candidates of its layout.
 *
 *     struct ways_row *row = ways_add_row(plan, stand, WAYS_OPENINGS, act, "Town road");
 *     if (row) ways_set_number(plan, row, "ways_out", 2);
 *     plan_set_figure(plan, &row->figures, "area", "area", qty);
 *
 * Keys and words are Lua's (stdlib/report/ways_out.lua). Out of memory sets the plan's
 * `failed`, as everywhere in it. */
#ifndef SPINNEY_PLAN_WAYS_TOLD_H
#define SPINNEY_PLAN_WAYS_TOLD_H

#include "plan/plan.h"

enum ways_list { WAYS_OPENINGS, WAYS_DEAD_ENDS, WAYS_CANDIDATES, WAYS_LISTS };

struct ways_number {
    char *key;
    double value; /* a count, a degree: no quantity */
};

struct ways_row {
    uint32_t act;
    char *words; /* the shunned edge that is nearest; where a dead end is; "" for none */
    struct ways_number *numbers; /* in the order they were set */
    size_t number_count, number_room;
    struct figures figures;
};

struct ways_told {
    struct ways_row *rows[WAYS_LISTS];
    size_t count[WAYS_LISTS], room[WAYS_LISTS];
    struct figures figures;
};

/* That of a stand, which has one from then on; NULL when out of memory. */
struct ways_told *ways_of_stand(struct plan *plan, uint32_t stand);
/* Borrowed until the next is added; NULL when out of memory. */
struct ways_row *ways_add_row(struct plan *plan, uint32_t stand, enum ways_list list,
                              uint32_t act, const char *words);
void ways_set_number(struct plan *plan, struct ways_row *row, const char *key,
                     double value);
void ways_clear(struct plan *plan, struct plan_stand *stand);
/* "openings", "dead_ends", "candidates"; and what a row's words are: "shunned", "where",
 * NULL for none. */
const char *ways_list_word(enum ways_list list);
const char *ways_words_key(enum ways_list list);

#endif

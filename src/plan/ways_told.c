#include "plan/ways_told.h"

#include <stdlib.h>

#include "plan/plan_inner.h"

struct ways_told *ways_of_stand(struct plan *plan, uint32_t stand)
{
    struct plan_stand *owner = &plan->stands[stand];
    if (!owner->ways)
        owner->ways = calloc(1, sizeof *owner->ways);
    if (!owner->ways)
        plan->failed = true;
    return owner->ways;
}

struct ways_row *ways_add_row(struct plan *plan, uint32_t stand, enum ways_list list,
                              uint32_t act, const char *words)
{
    struct ways_told *told = ways_of_stand(plan, stand);
    if (!told)
        return NULL;
    struct ways_row *rows = plan_grow(plan, told->rows[list], &told->room[list],
                                      told->count[list], sizeof *rows);
    if (!rows)
        return NULL;
    told->rows[list] = rows;
    struct ways_row *out = &rows[told->count[list]++];
    *out = (struct ways_row){ .act = act };
    plan_set_text(plan, &out->words, words);
    return plan->failed ? NULL : out;
}

void ways_set_number(struct plan *plan, struct ways_row *row, const char *key,
                     double value)
{
    struct ways_number *list =
        plan_grow(plan, row->numbers, &row->number_room, row->number_count, sizeof *list);
    if (!list)
        return;
    row->numbers = list;
    struct ways_number *out = &list[row->number_count++];
    *out = (struct ways_number){ .value = value };
    plan_set_text(plan, &out->key, key);
}

static void row_clear(struct plan *plan, struct ways_row *row)
{
    free(row->words);
    for (size_t i = 0; i < row->number_count; i++)
        free(row->numbers[i].key);
    free(row->numbers);
    plan_clear_figures(plan, &row->figures);
}

void ways_clear(struct plan *plan, struct plan_stand *stand)
{
    struct ways_told *told = stand->ways;
    if (!told)
        return;
    for (int list = 0; list < WAYS_LISTS; list++) {
        for (size_t i = 0; i < told->count[list]; i++)
            row_clear(plan, &told->rows[list][i]);
        free(told->rows[list]);
    }
    plan_clear_figures(plan, &told->figures);
    free(told);
    stand->ways = NULL;
}

const char *ways_list_word(enum ways_list list)
{
    static const char *const words[] = { [WAYS_OPENINGS] = "openings",
                                         [WAYS_DEAD_ENDS] = "dead_ends",
                                         [WAYS_CANDIDATES] = "candidates" };
    return words[list];
}

const char *ways_words_key(enum ways_list list)
{
    static const char *const words[WAYS_LISTS] = {
        [WAYS_OPENINGS] = "shunned", [WAYS_DEAD_ENDS] = "where"
    };
    return words[list];
}

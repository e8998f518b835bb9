#include <stdlib.h>

#include "base/fault.h"
#include "work/schedule_search.h"

/* ---- crews ---- */

/* Those that may do it, cheapest first, of equals in the order of the plan. */
static size_t crews_by_rate(const struct solver *s, size_t g, size_t *crews)
{
    size_t count = 0;
    for (size_t c = 0; c < s->task->crew_count && c < 64; c++) {
        if (!(s->bounds[g].crews >> c & 1))
            continue;
        size_t at = count++;
        for (; at > 0 && s->task->crews[crews[at - 1]].rate > s->task->crews[c].rate;
             at--)
            crews[at] = crews[at - 1];
        crews[at] = c;
    }
    return count;
}

bool keys_choices(struct plan_search *a, struct fault *f)
{
    const struct solver *s = a->s;
    size_t room = s->task->crew_count + 1;
    a->choices = malloc((s->group_count + 1) * sizeof *a->choices);
    a->crew_at = malloc((s->group_count + 1) * sizeof *a->crew_at);
    a->crews = malloc((s->group_count + 1) * room * sizeof *a->crews);
    if (!a->choices || !a->crew_at || !a->crews)
        return fault_no_memory(f);
    for (size_t g = 0; g < s->group_count; g++) {
        size_t *crews = a->crews + g * room;
        size_t count = crews_by_rate(s, g, crews + 1);
        crews[0] = SCHEDULE_NONE;
        if (count < 2)
            count = 0;
        else if (s->groups[g].hours > 0 &&
                 s->task->crews[crews[1]].rate < s->task->crews[crews[count]].rate) {
            crews[0] = crews[1];
            crews[1] = SCHEDULE_NONE;
        }
        a->choices[g] = (uint32_t)count + 1;
        a->crew_at[g] = g * room;
    }
    return true;
}

bool keys_crews(const struct plan_search *a, enum thrift thrift, uint32_t *choice)
{
    const struct solver *s = a->s;
    bool any = false;
    for (size_t g = 0; g < s->group_count; g++)
        a->marked[g] = group_is_first(s, &s->groups[g]);
    for (size_t k = s->group_count; k-- > 0;) {
        size_t g = s->order[k];
        for (size_t i = s->before_at[g]; i < s->before_at[g + 1]; i++)
            a->marked[s->before[i]] |= a->marked[g];
    }
    for (size_t g = 0; g < s->group_count; g++) {
        bool cheapest = a->crews[a->crew_at[g]] != SCHEDULE_NONE;
        bool open = thrift == THRIFT_NONE || (thrift == THRIFT_BUT_FIRST && a->marked[g]);
        choice[g] = cheapest && open;
        any |= cheapest && !open;
    }
    return any || thrift == THRIFT_NONE;
}

/* ---- rules of thumb ---- */

static double key_by(const struct solver *s, enum rule rule, size_t g)
{
    const struct group *group = &s->groups[g];
    const struct dayset *open = group_open(s, group);
    int deadline = s->days;
    switch (rule) {
    case RULE_DEADLINE:
        for (size_t job = group->first; job != SCHEDULE_NONE; job = s->next[job]) {
            const struct schedule_job *j = &s->task->jobs[job];
            if (j->latest.given && solver_day(s, j->latest.date) < deadline)
                deadline = solver_day(s, j->latest.date);
        }
        if (s->bounds[g].possible) {
            int end = season_end(open, s->bounds[g].start);
            deadline = end < deadline ? end : deadline;
        }
        return deadline;
    case RULE_SCARCE: return dayset_count(open, 0, s->days - 1);
    case RULE_LONGEST: return -group->hours;
    case RULE_PLAN:
    case RULES: break;
    }
    return (double)group->first;
}

static int by_key(const void *a, const void *b)
{
    const double *const *x = a, *const *y = b;
    if (**x != **y)
        return **x < **y ? -1 : 1;
    return *x < *y ? -1 : *x > *y;
}

bool keys_values(struct plan_search *a, enum rule rule, int *value, struct fault *f)
{
    const struct solver *s = a->s;
    size_t n = s->group_count;
    const double **row = malloc((n + 1) * sizeof *row);
    if (!row)
        return fault_no_memory(f);
    for (size_t g = 0; g < n; g++) {
        a->key[g] = key_by(s, rule, g);
        row[g] = &a->key[g];
    }
    qsort(row, n, sizeof *row, by_key);
    for (size_t i = 0; i < n; i++) {
        size_t g = (size_t)(row[i] - a->key);
        value[g] = (int)i - (group_is_first(s, &s->groups[g]) ? (int)n : 0);
    }
    free(row);
    for (size_t k = n; k-- > 0;) {
        size_t g = s->order[k];
        for (size_t i = s->before_at[g]; i < s->before_at[g + 1]; i++)
            if (value[g] < value[s->before[i]])
                value[s->before[i]] = value[g];
    }
    return true;
}

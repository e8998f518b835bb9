#include <stdlib.h>

#include "base/fault.h"
#include "base/grow.h"
#include "work/schedule_parts.h"

bool ties_add(struct solver *s, size_t before, size_t after, struct fault *f)
{
    struct tie *ties = grow(s->ties, &s->tie_room, s->tie_count, sizeof *ties);
    if (!ties)
        return fault_no_memory(f);
    s->ties = ties;
    s->ties[s->tie_count++] = (struct tie){ before, after };
    return true;
}

/* A count of each, then each to its place. */
bool ties_sort(struct solver *s, struct fault *f)
{
    s->before = malloc((s->tie_count + 1) * sizeof *s->before);
    s->before_at = calloc(s->group_count + 2, sizeof *s->before_at);
    if (!s->before || !s->before_at)
        return fault_no_memory(f);
    for (size_t i = 0; i < s->tie_count; i++)
        s->before_at[s->ties[i].after + 2]++;
    for (size_t g = 2; g < s->group_count + 2; g++)
        s->before_at[g] += s->before_at[g - 1];
    for (size_t i = 0; i < s->tie_count; i++)
        s->before[s->before_at[s->ties[i].after + 1]++] = s->ties[i].before;
    return true;
}

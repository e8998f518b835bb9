#include "work/search_inner.h"

#include <string.h>

/* Goes on to the next choices, as a counter does; false when they are at 0 again. */
static bool next_choices(const struct search *s, uint32_t *choice)
{
    for (size_t i = 0; s->p->choices && i < s->p->lists->count; i++) {
        if (choice[i] + 1 < s->p->choices[i]) {
            choice[i]++;
            return true;
        }
        choice[i] = 0;
    }
    return false;
}

/* How many lists and choices there are, as far as they are no more than `most`. */
static size_t ways(struct search *s, size_t most)
{
    size_t ways = 1;
    for (size_t i = 0; s->p->choices && i < s->p->lists->count && ways <= most; i++)
        ways *= s->p->choices[i];
    if (ways <= most)
        ways *= lists_number(s->p->lists, most / ways + 1, s->child.list);
    return ways;
}

bool search_try_all(struct search *s, size_t each)
{
    size_t most = s->left / each;
    struct search_pick *at = &s->parents[0]; /* what is made may change the child */
    if (search_is_done(s) || ways(s, most) > most)
        return true;
    lists_by_value(s->p->lists, NULL, at->list);
    if (s->p->choices)
        memset(at->choice, 0, s->p->lists->count * sizeof *at->choice);
    do {
        do {
            bool better;
            if (search_is_done(s))
                return true;
            search_copy(s, &s->child, at);
            if (!search_make(s, &better))
                return false;
        } while (next_choices(s, at->choice));
    } while (lists_next(s->p->lists, at->list));
    s->all = true;
    return true;
}

#include "work/search_inner.h"

#include <string.h>

#include "base/chance.h"

/* Found by trial: of lists that are crossed, on drawn projects of 30 to 120
 * activities; of those that are changed, on drawn plans of 20 to 60 acts. */
enum {
    SWAPS = 10,   /* of a thousand neighbours in a crossed list */
    CHANGES = 3,  /* of a list, at most */
    CHOICES = 40, /* of a hundred changes, where there is something to choose */
    PLACES = 30   /* of a hundred moves: the two change places */
};

/* ---- crossing ---- */

/* Appends those of `from` not yet taken, until the list is `until` long. */
static size_t append(struct search *s, const struct search_pick *from, size_t at,
                     size_t until)
{
    for (size_t k = 0; at < until; k++) {
        uint32_t i = from->list[k];
        if (s->taken[i])
            continue;
        s->taken[i] = true;
        s->child.list[at++] = i;
        if (s->p->choices)
            s->child.choice[i] = from->choice[i];
    }
    return at;
}

static void swap_some(struct search *s)
{
    uint32_t *list = s->child.list;
    for (size_t k = 0; k + 1 < s->p->lists->count; k++) {
        uint32_t a = list[k], b = list[k + 1];
        if (chance_below(&s->chance, 1000) >= SWAPS || lists_waits(s->p->lists, a, b))
            continue;
        list[k] = b;
        list[k + 1] = a;
    }
    /* One choice in the mean. */
    for (size_t i = 0; s->p->choices && i < s->p->lists->count; i++)
        if (chance_below(&s->chance, s->p->lists->count) == 0)
            s->child.choice[i] = (uint32_t)chance_below(&s->chance, s->p->choices[i]);
}

void search_child_cross(struct search *s, const struct search_pick *a,
                        const struct search_pick *b)
{
    size_t count = s->p->lists->count;
    /* The stretch is a quarter to three quarters long. */
    size_t length = count / 4 + chance_below(&s->chance, count / 2 + 1);
    size_t from = chance_below(&s->chance, count - length + 1);
    memset(s->taken, 0, count * sizeof *s->taken);
    size_t at = append(s, a, 0, from);
    at = append(s, b, at, from + length);
    append(s, a, at, count);
    swap_some(s);
}

/* ---- changes ---- */

/* Something to choose is not hard to find, or there is little of it. */
static bool change_choice(struct search *s)
{
    for (int tries = 0; tries < 5; tries++) {
        size_t i = chance_below(&s->chance, s->p->lists->count);
        if (s->p->choices[i] < 2)
            continue;
        s->child.choice[i] = (uint32_t)chance_below(&s->chance, s->p->choices[i]);
        return true;
    }
    return false;
}

static size_t place_of(const uint32_t *list, uint32_t i, size_t at)
{
    while (list[at] != i)
        at++;
    return at;
}

static void change_places(struct search *s)
{
    size_t count = s->p->lists->count;
    size_t a = chance_below(&s->chance, count), b = chance_below(&s->chance, count);
    bool both = chance_below(&s->chance, 100) < PLACES;
    size_t from = both && a < b ? b : a, to = both && a < b ? a : b;
    uint32_t other = s->child.list[to];
    lists_move(s->p->lists, s->child.list, from, to);
    if (both) {
        size_t at = place_of(s->child.list, other, to);
        if (at < from) /* nothing it waits for was taken along */
            lists_move(s->p->lists, s->child.list, at, from);
    }
}

void search_child_change(struct search *s)
{
    for (size_t k = 1 + chance_below(&s->chance, CHANGES); k > 0; k--) {
        bool choose = s->p->choices && chance_below(&s->chance, 100) < CHOICES;
        if (!choose || !change_choice(s))
            change_places(s);
    }
}

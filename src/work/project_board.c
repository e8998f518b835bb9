#include "work/project_inner.h"

#include <stdlib.h>
#include <string.h>

#include "base/fault.h"

struct project_board *project_board_new(const struct project_net *n, struct fault *f)
{
    struct project_board *b = calloc(1, sizeof *b);
    if (b)
        b->room = malloc((size_t)n->horizon * n->words * sizeof *b->room);
    if (!b || !b->room) {
        project_board_free(b);
        fault_no_memory(f);
        return NULL;
    }
    b->net = n;
    b->dirty = n->horizon;
    board_wipe(b);
    return b;
}

void project_board_free(struct project_board *b)
{
    if (!b)
        return;
    free(b->room);
    free(b);
}

void board_wipe(struct project_board *b)
{
    const struct project_net *n = b->net;
    memcpy(b->room, n->room, (size_t)b->dirty * n->words * sizeof *b->room);
    b->dirty = 0;
}

static inline bool fits_unit(const uint64_t *room, const uint64_t *demand, size_t words)
{
    uint64_t left = PROJECT_GUARDS;
    for (size_t w = 0; w < words; w++)
        left &= room[w] - demand[w];
    return (left & PROJECT_GUARDS) == PROJECT_GUARDS;
}

bool board_fits_span(const struct project_board *b, size_t i, int from, int to)
{
    const struct project_net *n = b->net;
    const uint64_t *demand = n->demand + i * n->words;
    for (int t = from; t < to; t++)
        if (!fits_unit(b->room + (size_t)t * n->words, demand, n->words))
            return false;
    return true;
}

bool board_fits(const struct project_board *b, size_t i, int start)
{
    const struct project_net *n = b->net;
    return start >= 0 && start <= n->horizon - n->duration[i] &&
           board_fits_span(b, i, start, start + n->duration[i]);
}

int board_first(const struct project_board *b, size_t i, int from)
{
    const struct project_net *n = b->net;
    const uint64_t *demand = n->demand + i * n->words;
    int duration = n->duration[i], end = n->horizon, run = 0;
    if (from > end - duration)
        return PROJECT_NOWHERE;
    if (duration == 0)
        return from;
    if (n->words == 1) {
        uint64_t need = *demand;
        for (int t = from; t < end; t++)
            if (((b->room[t] - need) & PROJECT_GUARDS) != PROJECT_GUARDS)
                run = 0;
            else if (++run == duration)
                return t - duration + 1;
        return PROJECT_NOWHERE;
    }
    for (int t = from; t < end; t++)
        if (!fits_unit(b->room + (size_t)t * n->words, demand, n->words))
            run = 0;
        else if (++run == duration)
            return t - duration + 1;
    return PROJECT_NOWHERE;
}

int board_last(const struct project_board *b, size_t i, int from)
{
    const struct project_net *n = b->net;
    const uint64_t *demand = n->demand + i * n->words;
    int duration = n->duration[i], run = 0;
    if (from > n->horizon - duration)
        from = n->horizon - duration;
    if (duration == 0)
        return from < 0 ? PROJECT_NOWHERE : from;
    for (int t = from + duration - 1; t >= 0; t--)
        if (!fits_unit(b->room + (size_t)t * n->words, demand, n->words))
            run = 0;
        else if (++run == duration)
            return t;
    return PROJECT_NOWHERE;
}

void board_put_span(struct project_board *b, size_t i, int from, int to)
{
    const struct project_net *n = b->net;
    const uint64_t *demand = n->demand + i * n->words;
    uint64_t *room = b->room + (size_t)from * n->words;
    for (int t = from; t < to; t++)
        for (size_t w = 0; w < n->words; w++)
            *room++ -= demand[w];
    if (to > b->dirty)
        b->dirty = to;
}

void board_take_span(struct project_board *b, size_t i, int from, int to)
{
    const struct project_net *n = b->net;
    const uint64_t *demand = n->demand + i * n->words;
    uint64_t *room = b->room + (size_t)from * n->words;
    for (int t = from; t < to; t++)
        for (size_t w = 0; w < n->words; w++)
            *room++ += demand[w];
}

void board_put(struct project_board *b, size_t i, int start)
{
    board_put_span(b, i, start, start + b->net->duration[i]);
}

void board_take(struct project_board *b, size_t i, int start)
{
    board_take_span(b, i, start, start + b->net->duration[i]);
}

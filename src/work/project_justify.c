#include "work/project_sgs_inner.h"

#include <assert.h>
#include <string.h>

/* By start or finish; ties in the order of arcs or, when falling, against it. */
static void sort_by(struct project_sgs *s, const int *starts, bool finish, bool falling,
                    uint32_t *list)
{
    const struct project_net *n = s->net;
    int most = 0;
    for (size_t i = 0; i < n->count; i++) {
        int key = starts[i] + (finish ? n->duration[i] : 0);
        most = key > most ? key : most;
    }
    memset(s->bucket, 0, ((size_t)most + 2) * sizeof *s->bucket);
    for (size_t i = 0; i < n->count; i++)
        s->bucket[starts[i] + (finish ? n->duration[i] : 0) + 1]++;
    for (int t = 1; t <= most; t++)
        s->bucket[t] += s->bucket[t - 1];
    for (size_t k = 0; k < n->count; k++) {
        uint32_t i = n->topo[k];
        size_t at = s->bucket[starts[i] + (finish ? n->duration[i] : 0)]++;
        list[falling ? n->count - 1 - at : at] = i;
    }
}

static void shift_right(struct project_sgs *s, struct project_schedule *a)
{
    const struct project_net *n = s->net;
    sort_by(s, a->starts, true, true, s->list);
    board_wipe(s->board);
    for (size_t k = 0; k < n->count; k++) {
        size_t i = s->list[k];
        int to = a->finish - n->duration[i];
        if (n->has_latest && n->latest[i] < to)
            to = n->latest[i];
        for (uint32_t o = n->out.first[i]; o < n->out.first[i + 1]; o++) {
            const struct project_arc *arc = &n->out.arcs[o];
            if (a->starts[arc->to] - arc->lag < to)
                to = a->starts[arc->to] - arc->lag;
        }
        int start = board_last(s->board, i, to);
        assert(start >= a->starts[i]);
        a->starts[i] = start;
        board_put(s->board, i, start);
    }
    s->left--;
}

static void shift_left(struct project_sgs *s, struct project_schedule *a)
{
    const struct project_net *n = s->net;
    sort_by(s, a->starts, false, false, s->list);
    board_wipe(s->board);
    a->finish = 0;
    for (size_t k = 0; k < n->count; k++) {
        size_t i = s->list[k];
        int from = n->head[i];
        for (uint32_t o = n->in.first[i]; o < n->in.first[i + 1]; o++) {
            const struct project_arc *arc = &n->in.arcs[o];
            if (a->starts[arc->to] + arc->lag > from)
                from = a->starts[arc->to] + arc->lag;
        }
        int start = board_first(s->board, i, from);
        assert(start != PROJECT_NOWHERE && start <= a->starts[i]);
        a->starts[i] = start;
        board_put(s->board, i, start);
        if (start + n->duration[i] > a->finish)
            a->finish = start + n->duration[i];
    }
    s->left--;
}

bool sgs_justify(struct project_sgs *s, struct project_schedule *a)
{
    if (s->left < 2 || a->late > 0)
        return false;
    shift_right(s, a);
    sgs_look(s->net, a);
    shift_left(s, a);
    sgs_look(s->net, a);
    return true;
}

void sgs_list(struct project_sgs *s, const struct project_schedule *a, uint32_t *list)
{
    const struct project_net *n = s->net;
    /* What is placed nowhere keeps the order of arcs: after what it waits for, and before
     * what waits for it. */
    for (size_t k = 0; k < n->count; k++) {
        size_t i = n->topo[k];
        s->from[i] = a->starts[i] == PROJECT_NOWHERE ? 0 : a->starts[i];
        for (uint32_t o = n->in.first[i]; o < n->in.first[i + 1]; o++) {
            const struct project_arc *arc = &n->in.arcs[o];
            if (arc->forward && s->from[arc->to] > s->from[i])
                s->from[i] = s->from[arc->to];
        }
    }
    sort_by(s, s->from, false, false, list);
}

#include "work/project_sgs_inner.h"

#include <string.h>

/* Those looked at in pairs for the worst case. */
enum { WORST_MOST = 40 };

/* The next time at which something may start that could not before. */
static int next_time(const struct project_sgs *s, const struct project_schedule *a, int t)
{
    const struct project_net *n = s->net;
    int next = n->horizon;
    if (n->by_time)
        return t + 1;
    for (size_t i = 0; i < n->count; i++) {
        int at = a->starts[i] == PROJECT_NOWHERE ? s->from[i]
                                                 : a->starts[i] + n->duration[i];
        if (at > t && at < next)
            next = at;
    }
    return next;
}

static bool is_ready(const struct project_net *n, const int *starts, size_t i)
{
    for (uint32_t k = n->in.first[i]; k < n->in.first[i + 1]; k++)
        if (n->in.arcs[k].forward && starts[n->in.arcs[k].to] == PROJECT_NOWHERE)
            return false;
    return true;
}

/* Starts what can start at `t`; how many. Those of no duration may let others start. */
static size_t start_now(struct project_sgs *s, const uint32_t *order, int t,
                        struct project_schedule *out)
{
    const struct project_net *n = s->net;
    size_t placed = 0, before;
    do {
        before = placed;
        for (size_t k = 0; k < n->count; k++) {
            size_t i = order[k];
            if (out->starts[i] != PROJECT_NOWHERE || s->from[i] > t ||
                !is_ready(n, out->starts, i) || !board_fits(s->board, i, t))
                continue;
            sgs_place(s, i, t, sgs_latest(n, out->starts, i), out);
            placed++;
        }
    } while (placed > before);
    return placed;
}

/* Those that can start at `t`, put in s->list; how many. */
static size_t list_ready(struct project_sgs *s, int t, const int *starts)
{
    const struct project_net *n = s->net;
    size_t count = 0;
    for (size_t i = 0; i < n->count; i++)
        if (starts[i] == PROJECT_NOWHERE && s->from[i] <= t && is_ready(n, starts, i) &&
            board_fits(s->board, i, t))
            s->list[count++] = (uint32_t)i;
    return count;
}

/* The slack of j if the worst of the others goes first: latest start, as far as tails
 * say, less the last first start of j beside one of them. */
static int worst_slack(struct project_sgs *s, size_t count, uint32_t j, int t)
{
    const struct project_net *n = s->net;
    int last = t;
    for (size_t k = 0; k < count; k++) {
        uint32_t i = s->list[k];
        if (i == j)
            continue;
        board_put(s->board, i, t);
        int first = board_first(s->board, j, t);
        board_take(s->board, i, t);
        if (first == PROJECT_NOWHERE)
            first = n->horizon;
        last = first > last ? first : last;
    }
    return (n->has_latest ? n->latest[j] : -n->tail[j]) - last;
}

static size_t start_worst(struct project_sgs *s, int t, struct project_schedule *out)
{
    const struct project_net *n = s->net;
    for (size_t placed = 0;; placed++) {
        size_t count = list_ready(s, t, out->starts), best = 0;
        int least = INT_MAX;
        if (count == 0)
            return placed;
        if (count > WORST_MOST) /* the first of them: pairs would be too many */
            count = WORST_MOST;
        for (size_t k = 0; k < count; k++) {
            int slack = worst_slack(s, count, s->list[k], t);
            if (slack < least) {
                least = slack;
                best = s->list[k];
            }
        }
        sgs_place(s, best, t, sgs_latest(n, out->starts, best), out);
    }
}

/* In the given order or, without one, by the worst case. */
static bool build(struct project_sgs *s, const uint32_t *order,
                  struct project_schedule *out)
{
    const struct project_net *n = s->net;
    if (s->left == 0)
        return false;
    if (n->has_most)
        memcpy(s->floor, n->head, n->count * sizeof *s->floor);
    sgs_begin(s, out);
    size_t left = n->count;
    for (int t = 0; left > 0; t = next_time(s, out, t)) {
        left -= order ? start_now(s, order, t, out) : start_worst(s, t, out);
        if (t >= n->horizon)
            break;
    }
    out->late += (long long)left * n->horizon;
    sgs_look(n, out);
    return true;
}

bool sgs_parallel(struct project_sgs *s, const uint32_t *order,
                  struct project_schedule *out)
{
    return build(s, order, out);
}

bool sgs_worst_case(struct project_sgs *s, struct project_schedule *out)
{
    return build(s, NULL, out);
}

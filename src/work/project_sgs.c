#include "work/project_sgs.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"

/* Times a schedule is built anew for a most lag. */
enum { ANEW = 40 };

struct project_sgs *project_sgs_new(const struct project_net *n, size_t budget,
                                    struct fault *f)
{
    struct project_sgs *s = calloc(1, sizeof *s);
    if (!s) {
        fault_no_memory(f);
        return NULL;
    }
    s->net = n;
    s->budget = budget;
    s->board = project_board_new(n, f);
    s->from = malloc((n->count + 1) * sizeof *s->from);
    s->floor = malloc((n->count + 1) * sizeof *s->floor);
    s->list = malloc((n->count + 1) * sizeof *s->list);
    s->bucket = malloc(((size_t)n->horizon + 2) * sizeof *s->bucket);
    if (s->board && s->from && s->floor && s->list && s->bucket)
        return s;
    if (s->board)
        fault_no_memory(f);
    project_sgs_free(s);
    return NULL;
}

void project_sgs_free(struct project_sgs *s)
{
    if (!s)
        return;
    project_board_free(s->board);
    free(s->from);
    free(s->floor);
    free(s->list);
    free(s->bucket);
    free(s);
}

int project_compare(const struct project_schedule *a, const struct project_schedule *b)
{
    if (a->late != b->late)
        return a->late < b->late ? -1 : 1;
    return a->finish < b->finish ? -1 : a->finish > b->finish;
}

/* Debug builds look at every schedule that claims to keep all limits. */
static void look(const struct project_net *n, const struct project_schedule *a)
{
#if defined(__SANITIZE_ADDRESS__)
    assert(a->late > 0 || project_check(n->project, a->starts, NULL));
#else
    (void)n, (void)a;
#endif
}

/* The latest start that those placed allow. */
static int latest_of(const struct project_net *n, const int *starts, size_t i)
{
    int latest = n->latest[i];
    for (uint32_t k = n->out.first[i]; n->has_most && k < n->out.first[i + 1]; k++) {
        const struct project_arc *a = &n->out.arcs[k];
        if (starts[a->to] != PROJECT_NOWHERE && starts[a->to] - a->lag < latest)
            latest = starts[a->to] - a->lag;
    }
    return latest;
}

static void place(struct project_sgs *s, size_t i, int start, int latest,
                  struct project_schedule *out)
{
    const struct project_net *n = s->net;
    if (start == PROJECT_NOWHERE) {
        out->late += n->horizon;
        return;
    }
    out->late += start > latest ? start - latest : 0;
    out->starts[i] = start;
    if (start + n->duration[i] > out->finish)
        out->finish = start + n->duration[i];
    board_put(s->board, i, start);
    for (uint32_t k = n->out.first[i]; k < n->out.first[i + 1]; k++) {
        const struct project_arc *a = &n->out.arcs[k];
        if (start + a->lag > s->from[a->to])
            s->from[a->to] = start + a->lag;
    }
}

static void begin(struct project_sgs *s, struct project_schedule *out)
{
    const struct project_net *n = s->net;
    board_wipe(s->board);
    memcpy(s->from, n->has_most ? s->floor : n->head, n->count * sizeof *s->from);
    for (size_t i = 0; i < n->count; i++)
        out->starts[i] = PROJECT_NOWHERE;
    out->finish = 0;
    out->late = 0;
    s->used++;
}

/* Raises the floor of what holds `i` before `start`; false when that leads nowhere. */
static bool raise_floors(struct project_sgs *s, size_t i, int start, const int *starts)
{
    const struct project_net *n = s->net;
    bool raised = false;
    for (uint32_t k = n->out.first[i]; k < n->out.first[i + 1]; k++) {
        const struct project_arc *a = &n->out.arcs[k];
        if (starts[a->to] == PROJECT_NOWHERE || starts[a->to] >= start + a->lag)
            continue;
        s->floor[a->to] = start + a->lag;
        raised = true;
    }
    return raised && start <= n->latest[i] && project_net_raise(n, s->floor, n->horizon);
}

/* False: it is worth building anew. */
static bool serial_once(struct project_sgs *s, const uint32_t *list, bool last,
                        struct project_schedule *out)
{
    const struct project_net *n = s->net;
    begin(s, out);
    for (size_t k = 0; k < n->count; k++) {
        size_t i = list[k];
        int start = board_first(s->board, i, s->from[i]);
        int latest = latest_of(n, out->starts, i);
        if (start > latest && !last && raise_floors(s, i, start, out->starts))
            return false;
        place(s, i, start, latest, out);
    }
    return true;
}

bool sgs_serial(struct project_sgs *s, const uint32_t *list, struct project_schedule *out)
{
    const struct project_net *n = s->net;
    if (s->used >= s->budget)
        return false;
    if (n->has_most)
        memcpy(s->floor, n->head, n->count * sizeof *s->floor);
    for (int anew = n->has_most ? ANEW : 0;; anew--)
        if (serial_once(s, list, anew <= 0 || s->used + 1 >= s->budget, out))
            break;
    look(n, out);
    return true;
}

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
            place(s, i, t, latest_of(n, out->starts, i), out);
            placed++;
        }
    } while (placed > before);
    return placed;
}

bool sgs_parallel(struct project_sgs *s, const uint32_t *order,
                  struct project_schedule *out)
{
    const struct project_net *n = s->net;
    if (s->used >= s->budget)
        return false;
    if (n->has_most)
        memcpy(s->floor, n->head, n->count * sizeof *s->floor);
    begin(s, out);
    size_t left = n->count;
    for (int t = 0; left > 0 && t <= n->horizon; t = next_time(s, out, t)) {
        left -= start_now(s, order, t, out);
        if (t == n->horizon)
            break;
    }
    out->late += (long long)left * n->horizon;
    look(n, out);
    return true;
}

/* s->list: by key (0 to horizon), ties by `order` or, falling, against it. */
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
    s->used++;
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
    s->used++;
}

bool sgs_justify(struct project_sgs *s, struct project_schedule *a)
{
    if (s->used + 2 > s->budget || a->late > 0)
        return false;
    shift_right(s, a);
    look(s->net, a);
    shift_left(s, a);
    look(s->net, a);
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

#include "work/project_exact.h"

#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "work/project_bound.h"
#include "work/project_seen.h"

/* Sums of windows at a node, in activities looked at. */
enum { NODE_WORK = 20000 };

struct exact {
    const struct project_net *net;
    struct project_pools *pools;
    struct project_windows *windows;
    struct project_board *board;
    struct project_seen *seen; /* NULL with most lags */
    struct project_schedule *best;
    int *starts, *from, *put_off; /* the time at which each was put off last */
    int *last;                    /* latest starts: of each level, count */
    int (*undo)[2];               /* of `from`: activity, value before */
    size_t undo_count, levels, placed;
    size_t steps, budget;
    int bound;
    bool stopped, failed;
};

static void advance(struct exact *x, size_t level, int t);

/* The finish to beat, less one. */
static int target(const struct exact *x)
{
    const struct project_net *n = x->net;
    return x->best->late > 0 || x->best->finish > n->horizon ? n->horizon
                                                             : x->best->finish - 1;
}

static bool is_over(struct exact *x)
{
    if (x->steps >= x->budget)
        x->stopped = true;
    return x->stopped || target(x) < x->bound;
}

static void place(struct exact *x, size_t i, int t)
{
    const struct project_net *n = x->net;
    x->starts[i] = t;
    x->placed++;
    board_put(x->board, i, t);
    for (uint32_t o = n->out.first[i]; o < n->out.first[i + 1]; o++) {
        const struct project_arc *a = &n->out.arcs[o];
        if (t + a->lag <= x->from[a->to])
            continue;
        x->undo[x->undo_count][0] = (int)a->to;
        x->undo[x->undo_count++][1] = x->from[a->to];
        x->from[a->to] = t + a->lag;
    }
}

static void take_back(struct exact *x, size_t i, size_t undo_count)
{
    board_take(x->board, i, x->starts[i]);
    x->starts[i] = PROJECT_NOWHERE;
    x->placed--;
    while (x->undo_count > undo_count) {
        x->undo_count--;
        x->from[x->undo[x->undo_count][0]] = x->undo[x->undo_count][1];
    }
}

static bool is_ready(const struct exact *x, size_t i)
{
    const struct project_net *n = x->net;
    for (uint32_t k = n->in.first[i]; k < n->in.first[i + 1]; k++)
        if (n->in.arcs[k].forward && x->starts[n->in.arcs[k].to] == PROJECT_NOWHERE)
            return false;
    return true;
}

/* Whether it could as well start a unit earlier. */
static bool is_idle(const struct exact *x, size_t i, int t)
{
    const struct project_net *n = x->net;
    return !n->has_most && x->from[i] < t &&
           (n->duration[i] == 0 || board_fits_span(x->board, i, t - 1, t));
}

static bool keeps_most(const struct exact *x, size_t i, int t)
{
    const struct project_net *n = x->net;
    for (uint32_t k = n->out.first[i]; n->has_most && k < n->out.first[i + 1]; k++) {
        const struct project_arc *a = &n->out.arcs[k];
        if (x->starts[a->to] != PROJECT_NOWHERE && x->starts[a->to] < t + a->lag)
            return false;
    }
    return true;
}

/* The next to be started or put off at `t`; count when there is none. */
static size_t choose(const struct exact *x, const int *last, int t)
{
    const struct project_net *n = x->net;
    size_t best = n->count;
    for (size_t i = 0; i < n->count; i++) {
        if (x->starts[i] != PROJECT_NOWHERE || x->from[i] > t || x->put_off[i] == t ||
            last[i] < t || (best < n->count && n->tail[i] <= n->tail[best]))
            continue;
        if (is_ready(x, i) && board_fits(x->board, i, t) && !is_idle(x, i, t) &&
            keeps_most(x, i, t))
            best = i;
    }
    return best;
}

static void decide(struct exact *x, size_t level, int t)
{
    const struct project_net *n = x->net;
    const int *last = x->last + level * n->count;
    size_t i = choose(x, last, t);
    if (i == n->count) {
        advance(x, level, t);
        return;
    }
    if (is_over(x))
        return;
    x->steps++;
    size_t undo_count = x->undo_count;
    place(x, i, t);
    decide(x, level, t);
    take_back(x, i, undo_count);
    last = x->last + level * n->count; /* levels may have moved */
    if (last[i] <= t || (n->duration[i] == 0 && !n->has_most) || is_over(x))
        return;
    int before = x->put_off[i];
    x->put_off[i] = t;
    decide(x, level, t);
    x->put_off[i] = before;
}

/* Windows of the node at `t`: those not placed start no earlier. */
static bool narrow(struct exact *x, size_t level, int t)
{
    const struct project_net *n = x->net;
    struct project_windows *w = x->windows;
    w->work = NODE_WORK;
    if (!windows_open(w, target(x)))
        return false;
    for (size_t i = 0; i < n->count; i++) {
        if (x->starts[i] != PROJECT_NOWHERE) {
            w->first[i] = w->last[i] = x->starts[i];
            continue;
        }
        w->first[i] = x->from[i] > t ? x->from[i] : t;
        if (w->first[i] > w->last[i])
            return false;
    }
    if (!windows_hold(w))
        return false;
    memcpy(x->last + level * n->count, w->last, n->count * sizeof *x->last);
    return true;
}

static bool level_room(struct exact *x, size_t level)
{
    if (level < x->levels)
        return true;
    size_t levels = 2 * x->levels + 16;
    int *more = realloc(x->last, levels * (x->net->count + 1) * sizeof *more);
    if (!more) {
        x->failed = x->stopped = true;
        return false;
    }
    x->last = more;
    x->levels = levels;
    return true;
}

static void node(struct exact *x, size_t level, int t)
{
    if (is_over(x) || !level_room(x, level))
        return;
    x->steps++;
    if (x->seen && seen_better(x->seen, x->starts, t))
        return;
    if (narrow(x, level, t) && !is_over(x))
        decide(x, level, t);
    if (x->seen && !x->stopped)
        seen_add(x->seen, x->starts, t);
}

static int next_time(const struct exact *x, int t)
{
    const struct project_net *n = x->net;
    int next = n->horizon;
    if (n->by_time || n->has_most)
        return t + 1;
    for (size_t i = 0; i < n->count; i++) {
        int at = x->starts[i] == PROJECT_NOWHERE ? x->from[i]
                                                 : x->starts[i] + n->duration[i];
        if (at > t && at < next)
            next = at;
    }
    return next;
}

static void take_best(struct exact *x)
{
    const struct project_net *n = x->net;
    int finish = 0;
    for (size_t i = 0; i < n->count; i++)
        if (x->starts[i] + n->duration[i] > finish)
            finish = x->starts[i] + n->duration[i];
    if (finish > target(x))
        return;
    memcpy(x->best->starts, x->starts, n->count * sizeof *x->starts);
    x->best->finish = finish;
    x->best->late = 0;
}

/* To the next time at which something may start. */
static void advance(struct exact *x, size_t level, int t)
{
    int next = next_time(x, t);
    if (x->placed == x->net->count)
        take_best(x);
    else if (next > t && next <= target(x))
        node(x, level + 1, next);
}

static bool exact_init(struct exact *x, struct fault *f)
{
    const struct project_net *n = x->net;
    size_t room = n->count + 1, arcs = n->out.first[n->count] + (size_t)1;
    x->starts = malloc(room * sizeof *x->starts);
    x->from = malloc(room * sizeof *x->from);
    x->put_off = malloc(room * sizeof *x->put_off);
    x->undo = malloc(arcs * sizeof *x->undo);
    if (!x->starts || !x->from || !x->put_off || !x->undo)
        return fault_no_memory(f);
    for (size_t i = 0; i < n->count; i++)
        x->starts[i] = x->put_off[i] = PROJECT_NOWHERE;
    memcpy(x->from, n->head, n->count * sizeof *x->from);
    x->pools = project_pools_new(n, f);
    x->board = x->pools ? project_board_new(n, f) : NULL;
    x->windows = x->board ? project_windows_new(n, x->pools, NODE_WORK, f) : NULL;
    if (x->windows && !n->has_most)
        x->seen = project_seen_new(n, f);
    return x->windows && (n->has_most || x->seen);
}

static void exact_clear(struct exact *x)
{
    free(x->starts);
    free(x->from);
    free(x->put_off);
    free(x->undo);
    free(x->last);
    project_seen_free(x->seen);
    project_windows_free(x->windows);
    project_board_free(x->board);
    project_pools_free(x->pools);
}

bool project_exact(const struct project_net *n, size_t steps, int bound,
                   struct project_schedule *best, struct project_exact_result *out,
                   struct fault *f)
{
    struct exact x = { .net = n, .best = best, .budget = steps, .bound = bound };
    *out = (struct project_exact_result){ .complete = n->impossible };
    if (n->impossible || n->count > PROJECT_EXACT_COUNT)
        return true;
    if (target(&x) > PROJECT_EXACT_TIME)
        return true;
    bool good = exact_init(&x, f);
    if (good && target(&x) >= bound)
        node(&x, 0, 0);
    good = good && (!x.failed || fault_no_memory(f));
    out->steps = x.steps;
    out->complete = good && !x.stopped;
    exact_clear(&x);
    return good;
}

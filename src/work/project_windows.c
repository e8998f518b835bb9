#include "work/project_bound.h"

#include <stdlib.h>

#include "base/fault.h"

struct project_windows *project_windows_new(const struct project_net *n,
                                            const struct project_pools *p, long long work,
                                            struct fault *f)
{
    struct project_windows *w = calloc(1, sizeof *w);
    if (w) {
        w->net = n;
        w->pools = p;
        w->work = work;
        w->first = malloc((n->count + 1) * sizeof *w->first);
        w->last = malloc((n->count + 1) * sizeof *w->last);
        w->board = project_board_new(n, f);
    }
    if (!w || !w->first || !w->last || !w->board) {
        project_windows_free(w);
        fault_no_memory(f);
        return NULL;
    }
    return w;
}

void project_windows_free(struct project_windows *w)
{
    if (!w)
        return;
    project_board_free(w->board);
    free(w->first);
    free(w->last);
    free(w);
}

bool windows_open(struct project_windows *w, int finish)
{
    const struct project_net *n = w->net;
    w->finish = finish;
    for (size_t i = 0; i < n->count; i++) {
        int last = finish - n->tail[i];
        w->first[i] = n->head[i];
        w->last[i] = last < n->latest[i] ? last : n->latest[i];
        if (w->first[i] > w->last[i])
            return false;
    }
    return true;
}

static bool not_before(struct project_windows *w, size_t i, int start)
{
    if (start <= w->first[i])
        return true;
    w->first[i] = start;
    w->moved = true;
    return start <= w->last[i];
}

static bool not_after(struct project_windows *w, size_t i, int start)
{
    if (start >= w->last[i])
        return true;
    w->last[i] = start;
    w->moved = true;
    return start >= w->first[i];
}

static bool by_arcs(struct project_windows *w)
{
    const struct project_net *n = w->net;
    for (size_t k = 0; k < n->count; k++) {
        size_t i = n->topo[k];
        for (uint32_t o = n->out.first[i]; o < n->out.first[i + 1]; o++)
            if (!not_before(w, n->out.arcs[o].to, w->first[i] + n->out.arcs[o].lag))
                return false;
    }
    for (size_t k = n->count; k-- > 0;) {
        size_t i = n->topo[k];
        for (uint32_t o = n->out.first[i]; o < n->out.first[i + 1]; o++)
            if (!not_after(w, i, w->last[n->out.arcs[o].to] - n->out.arcs[o].lag))
                return false;
    }
    w->work -= (long long)n->count;
    return true;
}

/* i comes before j. */
static bool in_turn(struct project_windows *w, size_t i, size_t j)
{
    int duration = w->net->duration[i];
    return not_before(w, j, w->first[i] + duration) &&
           not_after(w, i, w->last[j] - duration);
}

static bool by_pair(struct project_windows *w, size_t i, size_t j)
{
    bool can = w->first[i] + w->net->duration[i] <= w->last[j];
    bool back = w->first[j] + w->net->duration[j] <= w->last[i];
    if (can && back)
        return true;
    return (can || back) && in_turn(w, can ? i : j, can ? j : i);
}

static bool by_pairs(struct project_windows *w)
{
    const struct project_pools *p = w->pools;
    size_t count = p->clash ? w->net->count : 0;
    for (size_t i = 0; i < count; i++)
        for (size_t word = 0; word <= i / 64; word++) {
            uint64_t bits = p->clash[i * p->words + word];
            for (; bits; bits &= bits - 1) {
                size_t j = word * 64 + (size_t)__builtin_ctzll(bits);
                if (j < i && !by_pair(w, i, j))
                    return false;
            }
        }
    w->work -= (long long)(count * count / 8);
    return true;
}

/* Puts on the board what runs whatever happens. */
static bool put_cores(struct project_windows *w)
{
    const struct project_net *n = w->net;
    board_wipe(w->board);
    for (size_t i = 0; i < n->count; i++) {
        int from = w->last[i], to = w->first[i] + n->duration[i];
        if (from >= to)
            continue;
        if (!board_fits_span(w->board, i, from, to))
            return false;
        board_put_span(w->board, i, from, to);
    }
    return true;
}

static bool by_timetable(struct project_windows *w)
{
    const struct project_net *n = w->net;
    if (!put_cores(w))
        return false;
    for (size_t i = 0; i < n->count; i++) {
        int from = w->last[i], to = w->first[i] + n->duration[i];
        if (from < to)
            board_take_span(w->board, i, from, to);
        int first = board_first(w->board, i, w->first[i]);
        int last = board_last(w->board, i, w->last[i]);
        if (first == PROJECT_NOWHERE || last == PROJECT_NOWHERE ||
            !not_before(w, i, first) || !not_after(w, i, last))
            return false;
        from = w->last[i];
        to = w->first[i] + n->duration[i];
        if (from < to)
            board_put_span(w->board, i, from, to);
    }
    w->work -= 4 * (long long)n->count;
    return true;
}

static int least(int a, int b) { return a < b ? a : b; }

/* Units that must fall in from .. to - 1 when started first, and when last. */
static int early_units(const struct project_windows *w, size_t i, int from, int to)
{
    int units = w->first[i] + w->net->duration[i] - from;
    units = least(units, least(w->net->duration[i], to - from));
    return w->first[i] < to && units > 0 ? units : 0;
}

static int late_units(const struct project_windows *w, size_t i, int from, int to)
{
    int units = to - w->last[i];
    units = least(units, least(w->net->duration[i], to - from));
    return w->last[i] + w->net->duration[i] > from && units > 0 ? units : 0;
}

/* Started first, or last, it would take more than is left: it cannot be. */
static bool push_out(struct project_windows *w, const struct project_member *m,
                     long long spare, int from, int to)
{
    size_t i = m->i;
    int early = early_units(w, i, from, to), late = late_units(w, i, from, to);
    long long units = (spare + (long long)m->demand * least(early, late)) / m->demand;
    if (early > units && !not_before(w, i, to - (int)units))
        return false;
    return late <= units ||
           not_after(w, i, from + (int)units - w->net->duration[i]);
}

static bool by_span(struct project_windows *w, const struct project_pool *p, int from,
                    int to)
{
    long long use = 0, area = pool_area(p, from, to);
    int most = 0;
    for (size_t k = 0; k < p->count; k++) {
        size_t i = p->list[k].i;
        int early = early_units(w, i, from, to), late = late_units(w, i, from, to);
        use += (long long)p->list[k].demand * least(early, late);
        int more = p->list[k].demand * abs(early - late);
        most = more > most ? more : most;
    }
    if (use > area)
        return false;
    if (use + most <= area)
        return true;
    for (size_t k = 0; k < p->count; k++)
        if (!push_out(w, &p->list[k], area - use, from, to))
            return false;
    return true;
}

/* Between all first starts and all last finishes of its members. */
static bool by_energy(struct project_windows *w, const struct project_pool *p)
{
    long long cost = (long long)p->count * (long long)p->count * (long long)p->count;
    if (cost > w->work)
        return true;
    for (size_t a = 0; a < p->count; a++)
        for (size_t b = 0; b < p->count; b++) {
            int from = w->first[p->list[a].i];
            int to = w->last[p->list[b].i] + w->net->duration[p->list[b].i];
            if (from < to && !by_span(w, p, from, to))
                return false;
        }
    w->work -= cost;
    return true;
}

bool windows_hold(struct project_windows *w)
{
    do {
        do {
            w->moved = false;
            if (!by_arcs(w) || !by_pairs(w) || !by_timetable(w))
                return false;
        } while (w->moved && w->work > 0);
        for (size_t k = 0; k < w->pools->count; k++)
            if (!by_energy(w, &w->pools->list[k]))
                return false;
    } while (w->moved && w->work > 0);
    return true;
}

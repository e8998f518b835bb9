#include "work/project_inner.h"

#include <stdlib.h>

#include "base/fault.h"

enum { LANES = 4, LANE_BITS = 16 };

/* Long enough for one after another, each after the longest lag that can hold it. */
static int horizon_of(const struct project *p, struct fault *f)
{
    if (p->horizon > 0)
        return p->horizon;
    long long sum = 1, latest = 0;
    for (size_t i = 0; i < p->count; i++) {
        sum += p->activities[i].duration;
        if (p->activities[i].earliest > latest)
            latest = p->activities[i].earliest;
    }
    for (size_t i = 0; i < p->order_count; i++) {
        const struct project_order *o = &p->orders[i];
        sum += o->least > 0 ? o->least : 0;
        sum += o->most < 0 ? -(long long)o->most : 0;
    }
    if (sum + latest > PROJECT_MOST_TIME) {
        fault_set(f, "project-number", SPAN_NONE, "the lags and durations are too long");
        return 0;
    }
    return (int)(sum + latest);
}

/* The k-th arc: of an order its least lag, then its most; false when it has none. Those
 * with a lag above 0, and least lags that come to 0, go forward. */
static bool arc_of(const struct project *p, size_t k, size_t *from,
                   struct project_arc *arc)
{
    const struct project_order *o = &p->orders[k / 2];
    int duration = p->activities[o->before].duration;
    bool most = k % 2 == 1;
    if (most && o->most == PROJECT_NO_END)
        return false;
    *from = most ? o->after : o->before;
    arc->to = (uint32_t)(most ? o->before : o->after);
    arc->lag = most ? -duration - o->most : duration + o->least;
    arc->forward = arc->lag > 0 || (arc->lag == 0 && !most);
    return true;
}

static bool make_arcs(const struct project *p, bool in, struct project_arcs *a)
{
    size_t from;
    struct project_arc arc;
    a->first = calloc(p->count + 2, sizeof *a->first);
    a->arcs = malloc((2 * p->order_count + 1) * sizeof *a->arcs);
    if (!a->first || !a->arcs)
        return false;
    for (size_t k = 0; k < 2 * p->order_count; k++)
        if (arc_of(p, k, &from, &arc))
            a->first[(in ? arc.to : from) + 2]++;
    for (size_t i = 2; i < p->count + 2; i++)
        a->first[i] += a->first[i - 1];
    for (size_t k = 0; k < 2 * p->order_count; k++)
        if (arc_of(p, k, &from, &arc)) {
            size_t of = in ? arc.to : from;
            if (in)
                arc.to = (uint32_t)from;
            a->arcs[a->first[of + 1]++] = arc;
        }
    return true;
}

static bool sort_out(struct project_net *n, struct fault *f)
{
    size_t tail = 0;
    uint32_t *waits = calloc(n->count + 1, sizeof *waits);
    if (!waits)
        return fault_no_memory(f);
    for (size_t i = 0; i < n->count; i++)
        for (uint32_t k = n->in.first[i]; k < n->in.first[i + 1]; k++) {
            waits[i] += n->in.arcs[k].forward;
            n->has_most = n->has_most || !n->in.arcs[k].forward;
        }
    for (size_t i = 0; i < n->count; i++)
        if (waits[i] == 0)
            n->topo[tail++] = (uint32_t)i;
    for (size_t head = 0; head < tail; head++) {
        size_t at = n->topo[head];
        n->place[at] = (uint32_t)head;
        for (uint32_t k = n->out.first[at]; k < n->out.first[at + 1]; k++)
            if (n->out.arcs[k].forward && --waits[n->out.arcs[k].to] == 0)
                n->topo[tail++] = n->out.arcs[k].to;
    }
    free(waits);
    return tail == n->count || fault_set(f, "project-cycle", SPAN_NONE,
                                         "activities wait for each other in a circle");
}

bool project_net_raise(const struct project_net *n, int *starts, int most)
{
    for (size_t round = 0; round <= n->count; round++) {
        bool moved = false;
        for (size_t p = 0; p < n->count; p++) {
            size_t i = n->topo[p];
            for (uint32_t k = n->out.first[i]; k < n->out.first[i + 1]; k++) {
                const struct project_arc *a = &n->out.arcs[k];
                if (starts[i] + a->lag <= starts[a->to])
                    continue;
                starts[a->to] = starts[i] + a->lag;
                moved = true;
                if (starts[a->to] > most)
                    return false;
            }
        }
        if (!moved)
            return true;
    }
    return false;
}

/* Lowers latest starts and raises tails, against the arcs. */
static bool pull_back(const struct project_net *n)
{
    for (size_t round = 0; round <= n->count; round++) {
        bool moved = false;
        for (size_t p = n->count; p-- > 0;) {
            size_t i = n->topo[p];
            for (uint32_t k = n->out.first[i]; k < n->out.first[i + 1]; k++) {
                const struct project_arc *a = &n->out.arcs[k];
                if (n->latest[a->to] - a->lag < n->latest[i]) {
                    n->latest[i] = n->latest[a->to] - a->lag;
                    moved = true;
                }
                if (n->tail[a->to] + a->lag > n->tail[i]) {
                    n->tail[i] = n->tail[a->to] + a->lag;
                    moved = true;
                }
                if (n->tail[i] > INT_MAX / 2)
                    return false;
            }
        }
        if (!moved)
            return true;
    }
    return false;
}

static bool set_times(struct project_net *n, struct fault *f)
{
    const struct project *p = n->project;
    for (size_t i = 0; i < n->count; i++) {
        const struct project_activity *a = &p->activities[i];
        int end = a->latest < n->horizon ? a->latest : n->horizon;
        n->duration[i] = n->tail[i] = a->duration;
        n->head[i] = a->earliest;
        n->latest[i] = end - a->duration;
        n->has_latest = n->has_latest || a->latest != PROJECT_NO_END;
    }
    /* Lags that contradict each other raise starts past any sum of lags. */
    if (!project_net_raise(n, n->head, INT_MAX / 2) || !pull_back(n))
        return fault_set(f, "project-cycle", SPAN_NONE,
                         "lags between activities contradict each other");
    for (size_t i = 0; i < n->count; i++)
        n->impossible = n->impossible || n->head[i] > n->latest[i];
    return true;
}

static void set_lane(uint64_t *words, size_t r, int value)
{
    words[r / LANES] += (uint64_t)value << (LANE_BITS * (r % LANES));
}

static void set_rooms(struct project_net *n)
{
    const struct project *p = n->project;
    for (int t = 0; t < n->horizon; t++) {
        uint64_t *room = n->room + (size_t)t * n->words;
        for (size_t w = 0; w < n->words; w++)
            room[w] = PROJECT_GUARDS;
        for (size_t r = 0; r < p->resource_count; r++) {
            const struct project_resource *s = &p->resources[r];
            set_lane(room, r, s->by_time ? s->by_time[t] : s->capacity);
        }
    }
    for (size_t i = 0; i < n->count; i++)
        for (size_t r = 0; p->activities[i].demands && r < p->resource_count; r++)
            set_lane(n->demand + i * n->words, r, p->activities[i].demands[r]);
    for (size_t r = 0; r < p->resource_count; r++)
        n->by_time = n->by_time || p->resources[r].by_time;
}

static bool net_rooms(struct project_net *n)
{
    const struct project *p = n->project;
    n->words = p->resource_count == 0 ? 1 : (p->resource_count + LANES - 1) / LANES;
    n->duration = malloc((n->count + 1) * sizeof *n->duration);
    n->head = malloc((n->count + 1) * sizeof *n->head);
    n->latest = malloc((n->count + 1) * sizeof *n->latest);
    n->tail = malloc((n->count + 1) * sizeof *n->tail);
    n->topo = malloc((n->count + 1) * sizeof *n->topo);
    n->place = malloc((n->count + 1) * sizeof *n->place);
    n->demand = calloc((n->count + 1) * n->words, sizeof *n->demand);
    n->room = malloc((size_t)n->horizon * n->words * sizeof *n->room);
    return make_arcs(p, false, &n->out) && make_arcs(p, true, &n->in) && n->duration &&
           n->head && n->latest && n->tail && n->topo && n->place && n->demand && n->room;
}

struct project_net *project_net_new(const struct project *p, struct fault *f)
{
    if (!project_is_sound(p, f))
        return NULL;
    int horizon = horizon_of(p, f);
    if (horizon == 0)
        return NULL;
    struct project_net *n = calloc(1, sizeof *n);
    if (!n) {
        fault_no_memory(f);
        return NULL;
    }
    n->project = p;
    n->count = p->count;
    n->horizon = horizon;
    bool good = net_rooms(n) || fault_no_memory(f);
    good = good && sort_out(n, f) && set_times(n, f);
    if (!good) {
        project_net_free(n);
        return NULL;
    }
    set_rooms(n);
    return n;
}

void project_net_free(struct project_net *n)
{
    if (!n)
        return;
    free(n->duration);
    free(n->head);
    free(n->latest);
    free(n->tail);
    free(n->topo);
    free(n->place);
    free(n->demand);
    free(n->room);
    free(n->out.first);
    free(n->out.arcs);
    free(n->in.first);
    free(n->in.arcs);
    free(n);
}

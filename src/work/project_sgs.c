#include "work/project_sgs_inner.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"

/* Times a schedule is built anew for a most lag. */
enum { ANEW = 40 };

struct project_sgs *project_sgs_new(const struct project_net *n, size_t left,
                                    struct fault *f)
{
    struct project_sgs *s = calloc(1, sizeof *s);
    if (!s) {
        fault_no_memory(f);
        return NULL;
    }
    s->net = n;
    s->left = left;
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

void sgs_look(const struct project_net *n, const struct project_schedule *a)
{
#if defined(__SANITIZE_ADDRESS__)
    assert(a->late > 0 || project_check(n->project, a->starts, NULL));
#else
    (void)n, (void)a;
#endif
}

int sgs_latest(const struct project_net *n, const int *starts, size_t i)
{
    int latest = n->latest[i];
    for (uint32_t k = n->out.first[i]; n->has_most && k < n->out.first[i + 1]; k++) {
        const struct project_arc *a = &n->out.arcs[k];
        if (starts[a->to] != PROJECT_NOWHERE && starts[a->to] - a->lag < latest)
            latest = starts[a->to] - a->lag;
    }
    return latest;
}

void sgs_place(struct project_sgs *s, size_t i, int start, int latest,
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

void sgs_begin(struct project_sgs *s, struct project_schedule *out)
{
    const struct project_net *n = s->net;
    board_wipe(s->board);
    memcpy(s->from, n->has_most ? s->floor : n->head, n->count * sizeof *s->from);
    for (size_t i = 0; i < n->count; i++)
        out->starts[i] = PROJECT_NOWHERE;
    out->finish = 0;
    out->late = 0;
    s->left--;
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
    sgs_begin(s, out);
    for (size_t k = 0; k < n->count; k++) {
        size_t i = list[k];
        int start = board_first(s->board, i, s->from[i]);
        int latest = sgs_latest(n, out->starts, i);
        if (start > latest && !last && raise_floors(s, i, start, out->starts))
            return false;
        sgs_place(s, i, start, latest, out);
    }
    return true;
}

bool sgs_serial(struct project_sgs *s, const uint32_t *list, struct project_schedule *out)
{
    const struct project_net *n = s->net;
    if (s->left == 0)
        return false;
    if (n->has_most)
        memcpy(s->floor, n->head, n->count * sizeof *s->floor);
    for (int anew = n->has_most ? ANEW : 0;; anew--)
        if (serial_once(s, list, anew <= 0 || s->left <= 1, out))
            break;
    sgs_look(n, out);
    return true;
}

#include "work/project_seen.h"

#include <stdlib.h>
#include <string.h>

#include "base/chance.h"
#include "base/fault.h"

enum { BYTES_MOST = 16 << 20, ENTRIES_MOST = 1 << 17 };

struct project_seen {
    const struct project_net *net;
    size_t size;   /* entries, a power of two */
    int *reach;    /* from the start of each to when it matters no more */
    uint64_t *key; /* of each activity */
    int *times;    /* of each entry: NOWHERE when empty */
    int *starts;   /* size x count */
};

struct project_seen *project_seen_new(const struct project_net *n, struct fault *f)
{
    struct project_seen *m = calloc(1, sizeof *m);
    uint64_t chance = 1;
    if (m) {
        m->net = n;
        m->size = 1;
        while (m->size < ENTRIES_MOST &&
               2 * m->size * (n->count + 1) * sizeof(int) <= BYTES_MOST)
            m->size *= 2;
        m->reach = malloc((n->count + 1) * sizeof *m->reach);
        m->key = malloc((n->count + 1) * sizeof *m->key);
        m->times = malloc(m->size * sizeof *m->times);
        m->starts = malloc(m->size * (n->count + 1) * sizeof *m->starts);
    }
    if (!m || !m->reach || !m->key || !m->times || !m->starts) {
        project_seen_free(m);
        fault_no_memory(f);
        return NULL;
    }
    for (size_t k = 0; k < m->size; k++)
        m->times[k] = PROJECT_NOWHERE;
    for (size_t i = 0; i < n->count; i++) {
        m->key[i] = chance_next(&chance);
        m->reach[i] = n->duration[i];
        for (uint32_t o = n->out.first[i]; o < n->out.first[i + 1]; o++)
            if (n->out.arcs[o].lag > m->reach[i])
                m->reach[i] = n->out.arcs[o].lag;
    }
    return m;
}

void project_seen_free(struct project_seen *m)
{
    if (!m)
        return;
    free(m->reach);
    free(m->key);
    free(m->times);
    free(m->starts);
    free(m);
}

static size_t entry_of(const struct project_seen *m, const int *starts)
{
    uint64_t key = 0;
    for (size_t i = 0; i < m->net->count; i++)
        if (starts[i] != PROJECT_NOWHERE)
            key ^= m->key[i];
    return (size_t)key & (m->size - 1);
}

bool seen_better(const struct project_seen *m, const int *starts, int t)
{
    size_t at = entry_of(m, starts);
    const int *then = m->starts + at * m->net->count;
    if (m->times[at] == PROJECT_NOWHERE || m->times[at] > t)
        return false;
    for (size_t i = 0; i < m->net->count; i++) {
        if ((then[i] == PROJECT_NOWHERE) != (starts[i] == PROJECT_NOWHERE))
            return false;
        if (then[i] > starts[i] && then[i] + m->reach[i] > t)
            return false;
    }
    return true;
}

void seen_add(struct project_seen *m, const int *starts, int t)
{
    size_t at = entry_of(m, starts);
    m->times[at] = t;
    memcpy(m->starts + at * m->net->count, starts, m->net->count * sizeof *starts);
}

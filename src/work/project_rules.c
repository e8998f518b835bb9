#include "work/project_rules.h"

#include <stdlib.h>
#include <string.h>

#include "base/fault.h"

/* How many others wait for each, at any remove. */
static bool total_successors(const struct project_net *n, int *value, struct fault *f)
{
    size_t words = (n->count + 63) / 64;
    uint64_t *after = calloc(n->count * words + 1, sizeof *after);
    if (!after)
        return fault_no_memory(f);
    for (size_t k = n->count; k-- > 0;) {
        size_t i = n->topo[k];
        uint64_t *row = after + i * words;
        for (uint32_t o = n->out.first[i]; o < n->out.first[i + 1]; o++) {
            size_t to = n->out.arcs[o].to;
            if (!n->out.arcs[o].forward)
                continue;
            row[to / 64] |= (uint64_t)1 << (to % 64);
            for (size_t w = 0; w < words; w++)
                row[w] |= after[to * words + w];
        }
        value[i] = 0;
        for (size_t w = 0; w < words; w++)
            value[i] -= __builtin_popcountll(row[w]);
    }
    free(after);
    return true;
}

static int rank_weight(const struct project_net *n, size_t i)
{
    int weight = n->duration[i];
    for (uint32_t o = n->out.first[i]; o < n->out.first[i + 1]; o++)
        if (n->out.arcs[o].forward)
            weight += n->duration[n->out.arcs[o].to];
    return -weight;
}

bool rules_values(const struct project_net *n, enum project_rule rule, int *value,
                  struct fault *f)
{
    if (rule == RULE_MTS)
        return total_successors(n, value, f);
    for (size_t i = 0; i < n->count; i++) {
        /* By tails: a horizon far off would say the same of all. */
        int latest = n->has_latest ? n->latest[i] : -n->tail[i];
        switch (rule) {
        case RULE_LFT: value[i] = latest + n->duration[i]; break;
        case RULE_LST: value[i] = latest; break;
        case RULE_SLACK: value[i] = latest - n->head[i]; break;
        case RULE_GRPW: value[i] = rank_weight(n, i); break;
        case RULE_SHORTEST: value[i] = n->duration[i]; break;
        case RULE_MTS:
        case RULE_COUNT: break;
        }
    }
    return true;
}

struct project_lists *project_lists_new(const struct project_net *n, struct fault *f)
{
    struct project_lists *l = calloc(1, sizeof *l);
    if (l) {
        l->net = n;
        l->waits = malloc((n->count + 1) * sizeof *l->waits);
        l->ready = malloc((n->count + 1) * sizeof *l->ready);
    }
    if (!l || !l->waits || !l->ready) {
        project_lists_free(l);
        fault_no_memory(f);
        return NULL;
    }
    return l;
}

void project_lists_free(struct project_lists *l)
{
    if (!l)
        return;
    free(l->waits);
    free(l->ready);
    free(l);
}

/* Those that wait for nothing; how many. */
static size_t first_ready(struct project_lists *l)
{
    const struct project_net *n = l->net;
    size_t count = 0;
    for (size_t i = 0; i < n->count; i++) {
        l->waits[i] = 0;
        for (uint32_t k = n->in.first[i]; k < n->in.first[i + 1]; k++)
            l->waits[i] += n->in.arcs[k].forward;
        if (l->waits[i] == 0)
            l->ready[count++] = (uint32_t)i;
    }
    return count;
}

/* Takes the k-th of those ready; how many are ready then. */
static size_t take(struct project_lists *l, size_t k, size_t count)
{
    const struct project_net *n = l->net;
    size_t i = l->ready[k];
    l->ready[k] = l->ready[--count];
    for (uint32_t o = n->out.first[i]; o < n->out.first[i + 1]; o++)
        if (n->out.arcs[o].forward && --l->waits[n->out.arcs[o].to] == 0)
            l->ready[count++] = n->out.arcs[o].to;
    return count;
}

void lists_by_value(struct project_lists *l, const int *value, uint32_t *list)
{
    size_t count = first_ready(l);
    for (size_t at = 0; count > 0; at++) {
        size_t best = 0;
        for (size_t k = 1; k < count; k++) {
            uint32_t a = l->ready[k], b = l->ready[best];
            if (value[a] < value[b] || (value[a] == value[b] && a < b))
                best = k;
        }
        list[at] = l->ready[best];
        count = take(l, best, count);
    }
}

void lists_by_chance(struct project_lists *l, const int *value, uint64_t *chance,
                     uint32_t *list)
{
    size_t count = first_ready(l);
    for (size_t at = 0; count > 0; at++) {
        int most = value[l->ready[0]];
        for (size_t k = 1; k < count; k++)
            most = value[l->ready[k]] > most ? value[l->ready[k]] : most;
        uint64_t sum = 0;
        for (size_t k = 0; k < count; k++)
            sum += (uint64_t)(most - value[l->ready[k]]) + 1;
        uint64_t left = project_chance(chance) % sum;
        size_t k = 0;
        for (; k + 1 < count; k++) {
            uint64_t part = (uint64_t)(most - value[l->ready[k]]) + 1;
            if (left < part)
                break;
            left -= part;
        }
        list[at] = l->ready[k];
        count = take(l, k, count);
    }
}

/* Merges two sorted halves of `order` by way of l->ready. */
static void merge(struct project_lists *l, const int *value, uint32_t *order, size_t from,
                  size_t middle, size_t to)
{
    size_t a = from, b = middle;
    for (size_t k = from; k < to; k++) {
        bool first = b == to || (a < middle && value[order[a]] <= value[order[b]]);
        l->ready[k] = order[first ? a++ : b++];
    }
    memcpy(order + from, l->ready + from, (to - from) * sizeof *order);
}

void lists_sorted(struct project_lists *l, const int *value, uint32_t *order)
{
    size_t count = l->net->count;
    for (size_t i = 0; i < count; i++)
        order[i] = (uint32_t)i;
    for (size_t width = 1; width < count; width *= 2)
        for (size_t from = 0; from + width < count; from += 2 * width) {
            size_t to = from + 2 * width < count ? from + 2 * width : count;
            merge(l, value, order, from, from + width, to);
        }
}

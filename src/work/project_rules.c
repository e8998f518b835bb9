#include "work/project_rules.h"

#include <stdlib.h>

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

struct lists *project_lists(const struct project_net *n, struct fault *f)
{
    size_t count = 0;
    struct lists_pair *pairs = malloc((n->out.first[n->count] + 1) * sizeof *pairs);
    if (!pairs) {
        fault_no_memory(f);
        return NULL;
    }
    for (uint32_t i = 0; i < n->count; i++)
        for (uint32_t k = n->out.first[i]; k < n->out.first[i + 1]; k++)
            if (n->out.arcs[k].forward)
                pairs[count++] = (struct lists_pair){ i, n->out.arcs[k].to };
    struct lists *l = lists_new(n->count, pairs, count, f);
    free(pairs);
    return l;
}

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/chance.h"
#include "base/fault.h"
#include "ground/joins.h"

enum { BALL = 36, EFFORT = 12000000 };

struct weighed {
    double weight;
    int link;
};

struct choice {
    struct joins *net;
    int *need;
    bool alike; /* all openings need as many */
    uint8_t *used, *best, *saved;
    struct weighed *order; /* all links */
    double length, least;
    uint64_t chance;
};

static int by_weight(const void *a, const void *b)
{
    const struct weighed *x = a, *y = b;
    if (x->weight != y->weight)
        return x->weight > y->weight ? -1 : 1;
    return x->link - y->link;
}

static bool is_served(struct choice *c, int opening)
{
    return joins_count(c->net, c->used, opening, c->need[opening]) >= c->need[opening];
}

/* Can the link be missed? */
static bool misses(struct choice *c, int link)
{
    const struct joins_link *l = &c->net->links[link];
    c->used[link] = 0;
    bool good = is_served(c, l->a) && (l->b >= c->net->openings || is_served(c, l->b));
    for (int i = 0; good && !c->alike && i < c->net->openings; i++)
        good = is_served(c, i);
    if (!good)
        c->used[link] = 1;
    return good;
}

static void thin(struct choice *c, struct weighed *order, size_t count)
{
    qsort(order, count, sizeof *order, by_weight);
    for (size_t i = 0; i < count; i++)
        if (c->used[order[i].link] && misses(c, order[i].link))
            c->length -= c->net->links[order[i].link].length;
}

/* The links around one: those of its ends, of their neighbours, and so on. */
static size_t ball(struct choice *c, int link, struct weighed *out, size_t most)
{
    const struct joins *net = c->net;
    size_t count = 0;
    out[count++].link = link;
    for (size_t i = 0; i < count && count < most; i++) {
        const struct joins_link *l = &net->links[out[i].link];
        int ends[2] = { l->a, l->b };
        for (int k = 0; k < 2; k++) {
            if (ends[k] >= net->openings)
                continue; /* an exit may be long: what is near it need not be near */
            for (int h = net->start[ends[k]]; h < net->start[ends[k] + 1]; h++) {
                bool has = false;
                for (size_t j = 0; j < count; j++)
                    has = has || out[j].link == net->half[h];
                if (!has && count < most)
                    out[count++].link = net->half[h];
            }
        }
    }
    return count;
}

/* Fills a ball up, or adds a few, and thins it. */
static void change(struct choice *c, double heat)
{
    struct weighed near[BALL];
    struct joins *net = c->net;
    size_t most = 8 + chance_below(&c->chance, BALL - 7);
    size_t count = ball(c, (int)chance_below(&c->chance, net->link_count), near, most);
    double before = c->length, share = chance_unit(&c->chance);
    for (size_t i = 0; i < count; i++) {
        int e = near[i].link;
        c->saved[i] = c->used[e];
        near[i].weight = net->links[e].length * (0.4 + 1.2 * chance_unit(&c->chance));
        if (!c->used[e] && (i == 0 || chance_unit(&c->chance) < share)) {
            c->used[e] = 1;
            c->length += net->links[e].length;
        }
    }
    int at[BALL];
    for (size_t i = 0; i < count; i++)
        at[i] = near[i].link;
    thin(c, near, count);
    if (c->length > before + 1e-9 &&
        chance_unit(&c->chance) >= exp((before - c->length) / heat)) {
        for (size_t i = 0; i < count; i++)
            c->used[at[i]] = c->saved[i];
        c->length = before;
    }
    if (c->length < c->least - 1e-9) {
        c->least = c->length;
        memcpy(c->best, c->used, net->link_count);
    }
}

static void choose(struct choice *c, int wanted)
{
    struct joins *net = c->net;
    c->alike = true;
    memset(c->used, 1, net->link_count);
    for (int i = 0; i < net->openings; i++) {
        c->need[i] = joins_count(net, c->used, i, wanted);
        c->alike = c->alike && c->need[i] == c->need[0];
    }
    for (size_t e = 0; e < net->link_count; e++) {
        c->order[e] = (struct weighed){ net->links[e].length, (int)e };
        c->length += net->links[e].length;
    }
    thin(c, c->order, net->link_count);
    c->least = c->length;
    memcpy(c->best, c->used, net->link_count);
    double mean = c->length / (net->openings > 0 ? net->openings : 1);
    uint64_t effort = net->effort > 0 ? net->effort : EFFORT, spent = 0;
    size_t tries = 60 + 20 * net->link_count;
    for (size_t i = 0; i < tries && spent < effort; i++) {
        uint64_t before = net->looked;
        change(c, 1e-6 + 0.15 * mean * (1 - (double)i / (double)tries));
        spent += net->looked - before + BALL;
    }
}

double joins_choose(struct joins *net, int wanted, uint64_t seed, uint8_t *used,
                   struct fault *f)
{
    struct choice c = { .net = net, .chance = seed, .best = used };
    c.need = calloc((size_t)net->openings + 1, sizeof *c.need);
    c.used = calloc(net->link_count + 1, 1);
    c.saved = calloc(BALL, 1);
    c.order = calloc(net->link_count + 1, sizeof *c.order);
    bool good = c.need && c.used && c.saved && c.order;
    if (!good)
        fault_no_memory(f);
    else if (net->link_count > 0)
        choose(&c, wanted);
    free(c.need);
    free(c.used);
    free(c.saved);
    free(c.order);
    return good ? c.least : -1;
}

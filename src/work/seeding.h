/* seeding.h: seed: from pure live seed to what the bag must weigh, and seeds on a foot.
 *
 *     double live = seeding_live_share(85, 75);          // 0.6375
 *     double bulk = seeding_bulk(20, seeding_live_share(48, 80));   // 52.1 lb
 *     if (!seeding_plan(g, &wish, &seed, f)) return false;
 *
 * Pure live seed is purity times germination, both from the tag on the bag. */
#ifndef SPINNEY_WORK_SEEDING_H
#define SPINNEY_WORK_SEEDING_H

#include <stdbool.h>

#include "quantity/graph.h"

double seeding_live_share(double purity_percent, double germination_percent);
/* In the mass that the pure live seed is told in. */
double seeding_bulk(double pure_live, double live_share);
double seeding_seeds_per_ft2(double lb_per_ac, double seeds_per_lb);

struct seeding_wish { /* borrowed */
    struct qty area;
    struct qty rate;                /* pure live seed on an area (lb/ac) */
    struct qty purity, germination; /* shares of one */
};

struct seeding_parts { /* the caller's to release */
    struct qty pure_live, live_share, bulk;
};

/* Faults: those of the graph, and seed-share. */
bool seeding_plan(struct graph *g, const struct seeding_wish *wish,
                  struct seeding_parts *out, struct fault *f);

#endif

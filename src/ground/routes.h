/* routes.h: is a layout of openings and trails good? One check for what was walked and
 * mapped and for what was designed.
 *
 *     struct routes_ask ask = { .net = { ..., .snap = NET_SNAP }, .cover = &stand,
 *                               .shuns = shuns, .shun_count = 1, .ways_out = 2,
 *                               .reach = 150, .sight = 75 };
 *     struct routes found;
 *     if (!routes_check(&ask, &found, f)) ...
 *     found.ways.openings[0].routes                   // against ask.ways_out
 *     routes_free(&found);
 *
 * What is looked at, each with its place: ways out of every opening (ways.h), dead ends
 * (dead_ends.h; one that lies outside the cover by more than `snap` is somebody else's),
 * the farthest point of the cover that is to be reached (reach.h) and its share beyond
 * `reach`, sight lines
 * (sight.h), what lies nearer to a shunned edge than asked, trails through keep-outs, and
 * the share of the cover that is opened (covered.h).
 * Trails are measured from their middle line, but for what they open and for sight, which
 * go by their width. An ask of 0 asks for nothing; the figures are told all the same.
 * Costs: see each; 100 acres, 60 openings and 30,000 ft of trail take under 0.1 s.
 * The same input gives the same report. Faults: memory. */
#ifndef SPINNEY_GROUND_ROUTES_H
#define SPINNEY_GROUND_ROUTES_H

#include "ground/along.h"
#include "ground/dead_ends.h"
#include "ground/reach.h"
#include "ground/sight.h"
#include "ground/trail_net.h"
#include "ground/ways.h"

struct routes_shun {
    const struct shape *edge; /* points, lines or areas */
    double trail, opening;    /* least distances of trails and of openings, ft */
};

struct routes_ask {
    struct net_ask net;        /* trails, openings, exits, snapping distance */
    const struct shape *cover; /* the stand, less what is no cover */
    const struct routes_shun *shuns;
    const struct shape *const *keep_outs; /* areas: water, wetland, keeps */
    size_t shun_count, keep_out_count;
    size_t ways_out;
    const struct shape
        *reached;        /* areas: the cover that `reach` is asked of; NULL: all */
    bool apart;          /* routes may not meet in a junction or an opening either */
    double reach, sight; /* ft */
};

/* A stretch of a trail's part, or of an opening's rim. */
struct routes_place {
    bool opening;
    size_t index, part; /* which trail or opening, and its part (its ring) */
    size_t of;          /* which shunned edge or keep-out */
    double least;       /* ft that was asked */
    struct along where;
};

struct routes_places {
    struct routes_place *list;
    size_t count, room;
};

struct routes {
    struct trail_net net;
    struct ways ways;       /* that share no stretch */
    struct ways ways_apart; /* that share no junction either */
    size_t short_of_ways;   /* openings with fewer than asked, of the kind asked */
    struct dead_end_list dead_ends;
    struct reach farthest;
    double beyond; /* share of that cover farther than `reach`, 0 to 1 */
    struct sight_list sights;
    struct routes_places near;    /* a shunned edge */
    struct routes_places through; /* keep-outs */
    double trail_length;          /* ft, as mapped */
    double cover, opened;         /* ft2; opened / cover is the share */
};

bool routes_check(const struct routes_ask *ask, struct routes *out, struct fault *f);
void routes_free(struct routes *r);

#endif

/* layout.h: where the openings and trails of a cover go, worked out from what is asked.
 *
 *     struct layout_ask ask = { .cover = &stand, .exits = exits, .exit_count = 3,
 *         .shuns = shuns, .shun_count = 1, .width = 40, .count = 8, .ways_out = 2,
 *         .reach = 150, .sight = 75, .trail_width = 6, .seed = 1 };
 *     struct layout out;
 *     if (!layout_design(&ask, &out, f)) ...   // out of memory, or an ask without sense
 *     for (i < out.trouble_count) puts(out.troubles[i].words);  // asks that are not met
 *     layout_free(&out);
 *
 * Feet, in the property's frame. The steps, for each of a few candidates:
 * 1. Room: cells of 4 to 10 ft know how far it is to the nearest thing to keep off
 *    (field.h).
 * 2. Openings: spread evenly where there is room (spots.h), cut with natural outlines
 *    (outline.h).
 * 3. Links: the ground nearest to each opening and exit; two that touch may be linked
 *    (links.h), along the shortest way over the cells (router.h).
 * 4. Choice: the least length that leaves every opening its ways out (joins.h).
 * 5. Trails: each link routed again, off the trails that are there already; a link that
 *    finds no ground of its own counts as longer and the choice is made again.
 * 6. Reach: while some of the cover is too far from all, the trail that has the least
 *    detour goes by there, or a new trail does.
 * 7. Bends: trails swing so that nobody sees farther along one than asked (bend.h).
 * 8. Check: reach, sights, and ways out are taken from the trails as cut; of trails that
 *    share ground (in a narrow neck) the ways of an opening may take one only.
 * The candidate that fails the fewest asks at the least cost is kept: cost is the feet of
 * trail, times 2 less how evenly the openings lie (0 to 1).
 *
 * Cover is the stand less its keep-outs: so far goes `reach`, setbacks included. Time
 * grows with the cells, and with openings x links in step 4 up to a fixed effort; asks
 * that are not met take several times as long, since what would meet them is tried.
 * tests/bench/bench_layout prints the time. The same asks and seed give the same
 * layout. */
#ifndef SPINNEY_GROUND_LAYOUT_H
#define SPINNEY_GROUND_LAYOUT_H

#include <stdint.h>

#include "ground/shape.h"

struct layout_exit {
    const struct shape *line; /* where animals leave; along the cover's rim */
    double within; /* ft: the cover may end so far from it (a buffer between) */
    double apart;  /* 0: all of it is one exit. Else places so far apart are exits too */
};

struct layout_shun {
    const struct shape *line;
    double least; /* ft that openings and trails stay off it, their edges counted */
};

struct layout_tree {
    struct point at;
    double radius; /* ft */
};

struct layout_ask {
    const struct shape *cover;      /* the stand: areas, with holes */
    const struct shape *const *keep_outs; /* areas: buffers, keeps */
    size_t keep_out_count;
    const struct layout_tree *trees; /* kept trees */
    size_t tree_count;
    const struct layout_exit *exits;
    size_t exit_count;
    const struct layout_shun *shuns;
    size_t shun_count;
    const struct shape
        *openings;  /* NULL, or openings that are there: nothing is placed */
    double width;   /* of an opening, on the mean */
    double area;    /* ft2 of one; 0: as the width gives */
    size_t count;   /* of openings; or */
    double share;   /* of the cover less keep-outs, 0 to 1; or */
    double spacing; /* least ft from centre to centre, as many as fit */
    double gap;     /* least ft of cover between openings; 0: half a width */
    size_t ways_out;    /* 0: no trails at all */
    const struct shape *reached; /* areas: the cover that `reach` is asked of; NULL: all */
    double reach;       /* ft; 0: not asked */
    double sight;       /* ft; 0: not asked */
    double trail_width; /* ft */
    uint64_t seed;
    size_t candidates;  /* 0: three */
};

enum layout_what { LAYOUT_COUNT, LAYOUT_WAYS_OUT, LAYOUT_REACH, LAYOUT_SIGHT };

struct layout_trouble {
    enum layout_what ask;
    double asked, got;  /* openings; ways out; ft */
    struct point where; /* the worst place; of LAYOUT_COUNT nothing */
    size_t opening;     /* of LAYOUT_WAYS_OUT: the first that lacks them */
    size_t how_many;    /* openings, trails that fail */
    char words[240];    /* what fails, by how much */
    char remedy[240];   /* what would meet it: was tried, unless it says "perhaps" */
};

struct layout_trail {
    long from, to;    /* openings; an exit is -1 - its number in the ask */
    size_t gate;      /* which of the places along the exit, from its start */
    double length;    /* ft */
    double sight;     /* longest straight sight along it, ft */
};

struct layout_score {
    uint64_t seed;
    size_t openings, trails;
    double length;   /* of trails, ft */
    double evenness; /* least distance of two centres, as part of the most it could be */
    double reach;    /* from the farthest cover to a trail or opening, ft */
    double sight;    /* the longest, ft */
    size_t short_of_ways; /* openings */
    size_t failed;   /* asks */
    double cost;
};

struct layout {
    struct shape openings; /* a part each */
    struct shape trails;   /* a part each, as `trail` */
    struct point *centers;
    struct layout_trail *trail;
    struct layout_score *scores; /* of all candidates */
    size_t score_count, best;
    struct layout_trouble troubles[4];
    size_t trouble_count;
};

bool layout_design(const struct layout_ask *ask, struct layout *out, struct fault *f);
void layout_free(struct layout *a);

#endif

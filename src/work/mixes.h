/* mixes.h: spray mixes: calibration, percent by volume, active ingredient, tank loads.
 *
 *     double gpa = mixes_gal_per_ac(25);              // 25 fl oz caught: 25 gal/ac
 *     double oz = mixes_product_fl_oz(4, 2);          // 2 percent in 4 gal: 10.24 fl oz
 *     struct mixes_wish wish = { .area = area, .rate = rate, .share = share, ... };
 *     if (!mixes_plan(g, &wish, &mix, f)) return false;
 *
 * Plain numbers first, their units in the names; then the same through the expression
 * graph, each part named for `why`. The label of the product stands above all of it. */
#ifndef SPINNEY_WORK_MIXES_H
#define SPINNEY_WORK_MIXES_H

#include <stdbool.h>

#include "quantity/graph.h"

/* The 1/128 acre, ft2: a gallon is 128 fl oz, so the fl oz caught while spraying it are
 * the gallons on an acre. */
#define MIXES_PLOT_FT2 (43560.0 / 128)

double mixes_gal_per_ac(double caught_fl_oz);
/* Length of a course of that area for a swath. */
double mixes_course_ft(double swath_ft);
/* Product in each gallon of mix. */
double mixes_fl_oz_per_gal(double product_fl_oz_per_ac, double gal_per_ac);
/* One nozzle and the distance between nozzles; or the whole boom and the whole swath. */
double mixes_boom_gal_per_min(double gal_per_ac, double mph, double width_in);
double mixes_boom_gal_per_ac(double gal_per_min, double mph, double width_in);
double mixes_ac_per_tank(double tank_gal, double gal_per_ac);
/* In the volume that the rate is told in. */
double mixes_product_per_tank(double tank_gal, double gal_per_ac, double product_per_ac);
/* Percent by volume of the finished mix. */
double mixes_product_fl_oz(double mix_gal, double percent);
double mixes_lb_per_ac(double gal_per_ac, double percent, double lb_per_gal);

struct mixes_loads {
    double whole;     /* full tanks */
    double last_gal;  /* what the last, partly filled tank takes; 0 when none is needed */
    double spare_gal; /* left over when the last tank is filled all the same */
};
struct mixes_loads mixes_tank_loads(double mix_gal, double tank_gal);

/* What is known of a mix; QTY_NONE where it is not. Borrowed. */
struct mixes_wish {
    struct qty area; /* sprayed; QTY_NONE for stumps and basal work */
    struct qty rate; /* finished mix on an area (gal/ac) or for each stem (fl oz/stem) */
    struct qty amount; /* of what the rate is for, when there is no area: stems, trees */
    struct qty share;  /* product in the finished mix (20 percent); or QTY_NONE and */
    struct qty product_rate; /* product on an area (qt/ac) */
    struct qty strength;     /* active ingredient in the product (4 lb/gal) */
    struct qty tank;         /* what the sprayer holds */
    const char *carrier;     /* "water", "basal oil" */
};

/* QTY_NONE for what the wish leaves unknown. The caller's to release. */
struct mixes_parts {
    struct qty finished, product, carrier;
    struct qty loads, spare;        /* tanks, the last one filled too; what is left */
    struct qty ingredient;          /* active, in all */
    struct qty ingredient_per_area; /* to hold against the label's yearly maximum */
};

/* Faults: those of the graph, and mix-rate, mix-share, mix-tank. */
bool mixes_plan(struct graph *g, const struct mixes_wish *wish, struct mixes_parts *out,
                struct fault *f);

#endif

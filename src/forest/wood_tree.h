/* wood_tree.h: the wood of one tree by product: wood.h reckons a stand from it.
 *
 *     struct stem s = wood_stem(oak, 14, 16, 66);    // 14 in, where the stoutest have 16
 *     struct wood_cuts c = wood_cuts(&s, &ask, &ask.hardwood);
 *     double cords = wood_tree(oak, &s, &ask, &ask.hardwood);
 *
 * wood.h says what goes as what, and by which equation. */
#ifndef SPINNEY_FOREST_WOOD_TREE_H
#define SPINNEY_FOREST_WOOD_TREE_H

#include "forest/stem.h"
#include "forest/wood.h"

struct species;

/* A stem of that diameter: its height from the stand's, its bark from its species. */
struct stem wood_stem(const struct species *kind, double diameter_in, double stout_in,
                      double tree_length_ft);

/* From the stump: 16-ft logs, their length, and the length that goes as wood of any kind. */
struct wood_cuts {
    double logs, saw_ft, all_ft;
};
struct wood_cuts wood_cuts(const struct stem *s, const struct wood_ask *ask,
                           const struct wood_form *form);
/* What the tree has of what is asked, in its unit. */
double wood_tree(const struct species *kind, const struct stem *s,
                 const struct wood_ask *ask, const struct wood_form *form);
/* The part of its stem (of that below 4 in inside bark) that goes as wood. */
double wood_stem_taken(const struct stem *s, const struct wood_ask *ask,
                       const struct wood_form *form);
/* Green tons of a cord of that species. */
double wood_tons_per_cord(const struct species *kind);

#endif

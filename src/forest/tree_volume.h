/* tree_volume.h: board feet in a standing tree.
 *
 *     tree_girard(LOG_DOYLE, 24, 2.5, 82);          // 480.4: form class, 16-ft logs
 *     tree_bucked(LOG_SCRIBNER_C, &stem, 9);        // cut into logs and scaled
 *
 * tree_girard: Mesavage and Girard 1946, Tables for estimating board-foot volume of timber,
 * by the equations Wiant fitted to them (1986, North. J. Appl. For. 3:124): form class 78,
 * 3 percent more or less for each class. Good for 10 to 40 in and 1 to 6 logs (the extent
 * of the tables, from memory), and used from a half log up. NAN for rules that have no such
 * equation. */
#ifndef SPINNEY_FOREST_TREE_VOLUME_H
#define SPINNEY_FOREST_TREE_VOLUME_H

#include <stdbool.h>

#include "forest/log_rule.h"
#include "forest/stem.h"

#define TREE_FORM_CLASS 78.0
#define TREE_GIRARD_SOURCE                                                               \
    "Mesavage and Girard 1946 form-class tables, equations of Wiant 1986, North. J. "    \
    "Appl. For. 3:124"

bool tree_girard_has(enum log_rule rule);
/* Never below zero. */
double tree_girard(enum log_rule rule, double diameter_in, double logs,
                   double form_class);
/* The stem cut into 16-ft logs up to that diameter inside bark, a last one of 8 ft or more
 * by the even foot; each scaled on its own. */
double tree_bucked(enum log_rule rule, const struct stem *s, double top_in);

#endif

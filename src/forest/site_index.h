/* site_index.h: how tall the leading trees of a species are at an age on ground of a given
 * site index, and back: age at a height, site index from a measured tree.
 *
 *     struct site_curve c = { .base_ft = 0, .height = { 6.1785, 0.6619, -0.0241, 25.0185,
 *                             -0.7400 } };                       // red oak, NC-128 fig. 48
 *     double h = site_height(&c, 61, 90);                        // ft
 *     double s = site_index_inverted(&c, h, 90);                 // 61 again
 *     struct qty q = site_height_of(g, &c, site, age, "NC-128 fig. 48", f);
 *
 * Site index is the height at 50 years, in ft; ages in yr as the curve counts them, from
 * the seed or from breast height. Two forms are known:
 *     H = base + b1 S^b2 (1 - e^(b3 A))^(b4 S^b5)        Carmean, Hahn and Jacobs 1989,
 *         Gen. Tech. Rep. NC-128; with b2 = 1, b5 = 0 Lundgren and Dolid 1970, Res. Pap.
 *         NC-36
 *     H = S (b1 + b2 e^(b3 A))                           Lundgren and Dolid 1970
 * and for site index, fitted apart from the heights where b2 is not 1 (so that the two do
 * not undo each other quite: about 1 ft from 30 yr on, more below):
 *     S = base + c1 h^c2 (1 - e^(c3 A))^(c4 h^c5),  h = H - base     NC-128 */
#ifndef SPINNEY_FOREST_SITE_INDEX_H
#define SPINNEY_FOREST_SITE_INDEX_H

#include <stdbool.h>

#include "quantity/graph.h"

struct site_curve {
    bool exponential; /* the second form */
    double base_ft;   /* 4.5 where ages and heights are from breast height, else 0 */
    double height[5]; /* b1 to b5 */
    double site[5];   /* c1 to c5; c1 is 0 where none was published */
};

/* Height in ft; `base_ft` at age 0 and before. */
double site_height(const struct site_curve *c, double site_ft, double age_yr);
/* The age at which the curve is that high, to 1e-9 ft of it; NAN where it never is. 0 for
 * heights up to base_ft. */
double site_age(const struct site_curve *c, double site_ft, double height_ft);
/* The height that the curve never quite reaches. */
double site_height_most(const struct site_curve *c, double site_ft);
/* The site index whose curve runs through that height at that age (above 0); NAN where
 * none does. */
double site_index_inverted(const struct site_curve *c, double height_ft, double age_yr);
/* By the equation published for it; NAN where there is none. */
double site_index_published(const struct site_curve *c, double height_ft, double age_yr);
/* Are the two equations of the curve fitted apart? */
bool site_is_fitted_apart(const struct site_curve *c);

/* The same of quantities. `words` names the publication. QTY_NONE with the fault set when
 * refused (value-not-finite where the curve does not reach). */
struct qty site_height_of(struct graph *g, const struct site_curve *c, struct qty site,
                          struct qty age, const char *words, struct fault *f);
struct qty site_age_of(struct graph *g, const struct site_curve *c, struct qty site,
                       struct qty height, const char *words, struct fault *f);
/* By the published equation where there is one, else by inverting the height curve. */
struct qty site_index_of(struct graph *g, const struct site_curve *c, struct qty height,
                         struct qty age, const char *words, struct fault *f);

#endif

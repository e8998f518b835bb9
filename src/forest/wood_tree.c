#include "forest/wood_tree.h"

#include <math.h>

#include "forest/species.h"
#include "forest/tree_volume.h"
#include "forest/volume.h"

/* Where no layer says it; common practice, no source. */
#define INSIDE_BARK_USUAL 0.93
/* Green tons in a cord, likewise; between aspen (2.4) and red oak (2.85) of Woodland
 * Stewardship ch. 2. */
#define TONS_PER_CORD_USUAL 2.5
/* Beers' cords rise with the height up to here. */
#define BEERS_MOST_FT 84.0
/* Where the stem's part of the dry weight ends (biomass.h). */
#define STEM_WEIGHT_TOP_IN 4.0

struct stem wood_stem(const struct species *kind, double diameter_in, double stout_in,
                      double tree_length_ft)
{
    double bark = kind ? kind->traits[SPECIES_INSIDE_BARK] : NAN;
    return (struct stem){ diameter_in, stem_height(diameter_in, stout_in, tree_length_ft),
                          isnan(bark) ? INSIDE_BARK_USUAL : bark };
}

double wood_tons_per_cord(const struct species *kind)
{
    return kind->tons_per_cord > 0 ? kind->tons_per_cord : TONS_PER_CORD_USUAL;
}

struct wood_cuts wood_cuts(const struct stem *s, const struct wood_ask *ask,
                           const struct wood_form *form)
{
    struct wood_cuts c = { 0 };
    if (s->diameter_in < ask->pulp_from_in)
        return c;
    if (s->diameter_in >= form->from_in)
        c.logs = stem_logs(s, form->top_in);
    c.saw_ft = c.logs * STEM_LOG_FT;
    double top = fmax(ask->pulp_top_in, ask->pulp_top_part * s->diameter_in);
    double rest = stem_height_to(s, top) - c.saw_ft;
    c.all_ft = c.saw_ft + (rest >= ask->bolt_ft - 1e-9 ? rest : 0);
    return c;
}

/* Of its stem from the stump up. */
static double cubic_feet_to(const struct stem *s, double length_ft)
{
    return stem_cubic_feet(s, STEM_STUMP_FT, STEM_STUMP_FT + length_ft);
}

/* The part of a tree's cords that goes as the product. */
static double part_of(const struct stem *s, const struct wood_cuts *c,
                      enum wood_product product)
{
    double all = cubic_feet_to(s, c->all_ft);
    double saw = all > 0 ? cubic_feet_to(s, c->saw_ft) / all : 0;
    switch (product) {
    case WOOD_SAWLOGS: return saw;
    case WOOD_PULPWOOD: return 1 - saw;
    default: return 1;
    }
}

/* Solid wood of the product. */
static double tree_cubic_feet(const struct stem *s, const struct wood_cuts *c,
                              const struct wood_ask *ask)
{
    if (s->diameter_in < ask->pulp_from_in)
        return 0;
    double all = ask->heights_told
                     ? volume_beers_cubic_feet(s->diameter_in,
                                               fmin(c->all_ft, BEERS_MOST_FT), false)
                     : ask->solid_ft3 * volume_cords_by_diameter(s->diameter_in);
    return all * part_of(s, c, ask->product);
}

static double tree_board_feet(const struct stem *s, const struct wood_cuts *c,
                              const struct wood_ask *ask, const struct wood_form *form)
{
    if (c->logs <= 0 || ask->product == WOOD_PULPWOOD)
        return 0;
    return tree_girard_has(ask->rule)
               ? tree_girard(ask->rule, s->diameter_in, c->logs, ask->form_class)
               : tree_bucked(ask->rule, s, form->top_in);
}

double wood_tree(const struct species *kind, const struct stem *s,
                 const struct wood_ask *ask, const struct wood_form *form)
{
    struct wood_cuts c = wood_cuts(s, ask, form);
    if (ask->as == WOOD_BOARD_FEET)
        return tree_board_feet(s, &c, ask, form);
    double feet = tree_cubic_feet(s, &c, ask);
    switch (ask->as) {
    case WOOD_TONS: return feet / ask->solid_ft3 * wood_tons_per_cord(kind);
    case WOOD_CUBIC_FEET: return ask->bark ? feet * VOLUME_BEERS_BARK : feet;
    default: return feet / ask->solid_ft3;
    }
}

double wood_stem_taken(const struct stem *s, const struct wood_ask *ask,
                       const struct wood_form *form)
{
    struct wood_cuts c = wood_cuts(s, ask, form);
    double whole = cubic_feet_to(s, stem_height_to(s, STEM_WEIGHT_TOP_IN));
    return whole > 0 ? fmin(1, cubic_feet_to(s, c.all_ft) / whole) : 0;
}

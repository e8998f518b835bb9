/* layout_inner.h: what the files of layout.h share. */
#ifndef SPINNEY_GROUND_LAYOUT_INNER_H
#define SPINNEY_GROUND_LAYOUT_INNER_H

#include "ground/layout.h"
#include "ground/outline.h"
#include "ground/router.h"
#include "ground/joins.h"

/* What is the same for all candidates. */
struct layout_ground {
    const struct layout_ask *ask;
    uint8_t *cover;       /* of each cell: in the cover, and in no keep-out */
    uint8_t *reached;     /* of each cell of cover: is it to be reached? */
    uint8_t *free;        /* of each cell: there is room for a trail */
    struct field room;    /* to all that trails and openings keep off */
    struct field gates;   /* stretches of exits */
    int *gate_of;         /* of each of those stretches */
    size_t *exit_of;      /* of each gate: its exit, and which along it */
    size_t *number_of;
    size_t gate_count;
    double area;          /* of the cells of cover, ft2 */
    double clear;         /* trails keep so far off each other where they can, ft */
};

enum { LAYOUT_VIAS = 6 };

struct layout_route {
    int a, b; /* places: openings, then gates */
    struct point vias[LAYOUT_VIAS];
    int via_count;
    struct trace way;   /* as routed, from centre to centre or to the gate's cell */
    struct trace trail; /* as cut */
    double sight;
    struct point sight_at;
};

/* One candidate. */
struct layout_plot {
    const struct layout_ground *ground;
    struct router router;
    uint64_t seed;
    struct point *centers;
    struct point *rims;
    size_t *rim_first; /* count + 1 of them */
    size_t openings, wanted;
    struct joins_link *links;
    size_t link_count;
    struct layout_route *routes;
    size_t route_count, route_space;
    int *ways; /* of each opening, at most as many as asked */
    struct field near; /* to trails and openings */
    bool near_is_new;  /* no trail was led elsewhere since */
    int32_t *piece;    /* of each cell: the ground that hangs together; 0: none that a
                        * trail from an opening can come to */
    struct point farthest;
    struct layout_score score;
};

bool layout_survey(struct layout_ground *g, const struct layout_ask *ask,
                   struct fault *f);
void layout_survey_free(struct layout_ground *g);

/* Openings: placed, or as given. */
bool layout_open(struct layout_plot *p, struct fault *f);
/* The largest circle that the outlines of this ask may need, as a radius. */
double layout_radius(const struct layout_ask *ask);
double layout_opening_area(const struct layout_ask *ask);
size_t layout_wanted(const struct layout_ground *g);
/* Links with their lengths, and what every opening can have. */
bool layout_link(struct layout_plot *p, struct fault *f);
/* The links that are cut, as routes. */
bool layout_join(struct layout_plot *p, struct fault *f);
int layout_find_route(struct layout_plot *p, struct layout_route *r, struct fault *f);
/* The way between the rims (and out at the gate). */
bool layout_cut_way(const struct layout_plot *p, const struct layout_route *r,
                    struct trace *out, struct fault *f);
/* The longest stretch of the way in the ground of another trail, outside openings, ft. */
double layout_crowded(const struct layout_plot *p, const struct layout_route *r);
/* Leads a trail by a place within reach of the far one: 1 done, 0 no way, -1 no memory.
 * */
int layout_detour(struct layout_plot *p, struct point far, double reach, struct fault *f);
bool layout_fill_reach(struct layout_plot *p, struct fault *f);
/* From the farthest cover to a trail or opening, ft. */
bool layout_measure_reach(struct layout_plot *p, struct fault *f);
/* Cuts the routes that have no trail yet. */
bool layout_bend(struct layout_plot *p, struct fault *f);
/* The ways out of the trails as cut: of trails that share ground, the ways of an opening
 * may take one only. Sets p->ways. */
bool layout_check_ways(struct layout_plot *p, struct fault *f);
bool layout_plot_make(struct layout_plot *p, struct fault *f);
void layout_plot_free(struct layout_plot *p);

/* What fails, and what would meet it. */
bool layout_tell(const struct layout_plot *p, struct layout *out, bool remedies,
                 struct fault *f);
bool layout_design_told(const struct layout_ask *ask, struct layout *out, bool remedies,
                        struct fault *f);

#endif

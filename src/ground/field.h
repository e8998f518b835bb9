/* field.h: how much room there is everywhere in a stand, to whatever must be kept off.
 *
 *     struct field room = { 0 };
 *     field_wall(&room, a, b, 100, f);         // stay 100 ft off this line
 *     if (!field_make(&room, at, f)) ...
 *     double feet = field_room(&room, p);  // to the nearest wall, less its `off`
 *     field_clear(&room);
 *
 * Walls are stretches (or points), each with the distance to stay off it. Each cell keeps
 * the wall nearest to it, passed on from neighbour to neighbour in two sweeps (vector
 * distance maps: Danielsson 1980, "Euclidean distance mapping", Computer Graphics and
 * Image Processing 14; the eight-neighbour form from memory); the distance itself is
 * worked out from the wall, so it is that of the ground and not of cells. Where walls
 * cross, one that is nearest only to a sliver between cells can be lost, and is then
 * missing beyond, far from the walls. With `twice` each cell also passes on the second
 * nearest, and that is very rare; what must be sure asks field_sure. O(cells + wall
 * length). */
#ifndef SPINNEY_GROUND_FIELD_H
#define SPINNEY_GROUND_FIELD_H

#include "ground/lattice.h"

struct wall {
    struct point a, b;
    double off;        /* ft to stay off it */
    double per_square; /* 1 / length squared; 0 of a point */
};

struct field {
    struct lattice at;
    struct wall *walls;
    size_t wall_count, wall_space;
    bool twice;       /* set before field_make: keep the second wall of each cell too */
    int32_t *nearest; /* a wall of each cell, -1 when there is none at all */
    int32_t *second;  /* of cells with `twice`, else NULL */
    float *behind;    /* and how far that is */
    float *room;      /* of the centre of each cell, ft */
};

void field_clear(struct field *a); /* leaves it empty */
bool field_wall(struct field *a, struct point from, struct point to, double off,
                struct fault *f);
/* Every stretch of the shape as a wall; rings closed; points as they are. */
bool field_walls(struct field *a, const struct shape *s, double off, struct fault *f);
/* May be called again after walls were added or the lattice changed. */
bool field_make(struct field *a, struct lattice at, struct fault *f);
/* HUGE_VAL when there are no walls. */
double field_room(const struct field *a, struct point p);
/* The same, from all walls: O(walls). */
double field_sure(const struct field *a, struct point p);
/* Which wall is nearest to the point, -1 when there is none. */
long field_wall_at(const struct field *a, struct point p);

static inline struct point wall_nearest(const struct wall *w, struct point p)
{
    double dx = w->b.x - w->a.x, dy = w->b.y - w->a.y;
    double t = ((p.x - w->a.x) * dx + (p.y - w->a.y) * dy) * w->per_square;
    t = t < 0 ? 0 : t > 1 ? 1 : t;
    return (struct point){ w->a.x + t * dx, w->a.y + t * dy };
}

/* Less what to stay off it. */
static inline double wall_distance(const struct wall *w, struct point p)
{
    return point_apart(wall_nearest(w, p), p) - w->off;
}

#endif

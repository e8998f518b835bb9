#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "ground/layout_inner.h"

enum { ROUNDS = 12, DONE = 256 };
/* Where no trail comes by a far cell, none is sought for those so near it, as a part of the
 * reach. */
#define LIKE_IT 0.2
/* Where some cover is out of reach whatever is done, trails are sought for what of it lies
 * no farther than this from ground for a trail, as a part of the reach. */
#define BESIDE 0.7

/* Trails and rims of openings as walls of p->near: what is far from them is far
 * from all. */
static bool find_near(struct layout_plot *p, struct fault *f)
{
    bool good = true;
    field_clear(&p->near);
    for (size_t i = 0; good && i < p->openings; i++) {
        size_t first = p->rim_first[i], count = p->rim_first[i + 1] - first;
        for (size_t k = 0; good && k < count; k++)
            good = field_wall(&p->near, p->rims[first + k],
                              p->rims[first + (k + 1) % count], 0, f);
    }
    for (size_t i = 0; good && i < p->route_count; i++) {
        const struct trace *t = p->routes[i].trail.count > 0 ? &p->routes[i].trail
                                                             : &p->routes[i].way;
        for (size_t k = 1; good && k < t->count; k++)
            good = field_wall(&p->near, t->points[k - 1], t->points[k], 0, f);
    }
    p->near_is_new = good && field_make(&p->near, p->ground->room.at, f);
    return p->near_is_new;
}

static bool is_far(const struct layout_plot *p, long cell, double reach)
{
    return p->ground->reached[cell] && p->router.owner[cell] == 0 &&
           p->near.room[cell] > reach;
}

/* In the cover that is to be reached, and in none of what is kept out of it? */
static bool is_cover(const struct layout_ask *ask, struct point q)
{
    if (!shape_has(ask->cover, q) || (ask->reached && !shape_has(ask->reached, q)))
        return false;
    for (size_t k = 0; k < ask->keep_out_count; k++)
        if (shape_has(ask->keep_outs[k], q))
            return false;
    return true;
}

/* A cell by its parts: its centre may be nearer than its corners, or out of the cover. */
static void look_closer(struct layout_plot *p, long cell)
{
    enum { PARTS = 5 };
    const struct lattice *at = &p->ground->room.at;
    const struct layout_ground *g = p->ground;
    bool inner =
        !g->ask->reached && g->cover[cell] && g->room.room[cell] > 0.75 * at->cell;
    struct point c = lattice_center(at, cell);
    for (int k = 0; k < PARTS * PARTS; k++) {
        struct point q = { c.x + at->cell * ((k % PARTS) / (PARTS - 1.0) - 0.5),
                           c.y + at->cell * ((k / PARTS) / (PARTS - 1.0) - 0.5) };
        double d = field_room(&p->near, q);
        if (d > p->score.reach && (inner || is_cover(g->ask, q))) {
            p->score.reach = d;
            p->farthest = q;
        }
    }
}

bool layout_measure_reach(struct layout_plot *p, struct fault *f)
{
    if (!p->near_is_new && !find_near(p, f))
        return false;
    const struct lattice *at = &p->ground->room.at;
    const struct layout_ground *g = p->ground;
    double most = 0, cell = at->cell;
    for (long i = 0; i < (long)lattice_count(at); i++)
        if (is_far(p, i, most))
            most = p->near.room[i];
    p->score.reach = 0;
    for (long row = 1; row + 1 < at->rows; row++) {
        for (long x = 1; x + 1 < at->columns; x++) {
            long i = row * at->columns + x;
            bool beside = g->reached[i - 1] || g->reached[i] || g->reached[i + 1] ||
                          g->reached[i - at->columns] || g->reached[i + at->columns];
            if (beside && p->router.owner[i] == 0 &&
                p->near.room[i] >= most - 1.5 * cell &&
                p->near.room[i] + 0.71 * cell > p->score.reach)
                look_closer(p, i);
        }
    }
    return true;
}

struct far_cell {
    float room;
    int32_t cell;
};

static int by_room(const void *x, const void *y)
{
    const struct far_cell *a = x, *b = y;
    if (a->room != b->room)
        return a->room > b->room ? -1 : 1;
    return a->cell - b->cell;
}

/* Marks the ground that hangs together with a cell. `cells` has room for all. */
static void mark_piece(struct layout_plot *p, long start, int32_t piece, int32_t *cells)
{
    const struct lattice *at = &p->ground->room.at;
    size_t done = 0, found = 0;
    p->piece[start] = piece;
    cells[found++] = (int32_t)start;
    while (done < found) {
        long cell = cells[done++], x = cell % at->columns, row = cell / at->columns;
        for (long dy = -1; dy <= 1; dy++) {
            for (long dx = -1; dx <= 1; dx++) {
                if (x + dx < 0 || x + dx >= at->columns || row + dy < 0 ||
                    row + dy >= at->rows)
                    continue;
                long next = cell + dy * at->columns + dx;
                if (p->piece[next] != 0 || (p->router.owner[next] == 0 &&
                                            !router_is_free(&p->router, next)))
                    continue;
                p->piece[next] = piece;
                cells[found++] = (int32_t)next;
            }
        }
    }
}

/* The ground that trails from the openings can come to: across a water or beyond a neck
 * there may be cover that has none, or other openings. */
static bool find_pieces(struct layout_plot *p, struct fault *f)
{
    size_t count = lattice_count(&p->ground->room.at);
    int32_t *cells = malloc(count * sizeof *cells), pieces = 0;
    p->piece = calloc(count, sizeof *p->piece);
    if (!p->piece || !cells) {
        free(cells);
        return fault_no_memory(f);
    }
    for (size_t i = 0; i < count; i++)
        if (p->router.owner[i] > 0 && p->piece[i] == 0)
            mark_piece(p, (long)i, ++pieces, cells);
    free(cells);
    return true;
}

/* The distance to the nearest ground that a trail can come to. False too when there is
 * none, without a fault. */
static bool find_ground(const struct layout_plot *p, struct field *ground, struct fault *f)
{
    const struct lattice *at = &p->ground->room.at;
    for (long row = 1; row + 1 < at->rows; row++) {
        for (long x = 1; x + 1 < at->columns; x++) {
            long i = row * at->columns + x;
            bool rim = p->piece[i - 1] == 0 || p->piece[i + 1] == 0 ||
                       p->piece[i - at->columns] == 0 || p->piece[i + at->columns] == 0;
            struct point c = lattice_center(at, i);
            if (p->piece[i] != 0 && rim && !field_wall(ground, c, c, 0, f))
                return false;
        }
    }
    return ground->wall_count > 0 && field_make(ground, *at, f);
}

/* Behind a wide setback there may be cover that no trail can come near to. Then what lies
 * before it is not worth trails that go to and fro along the setback: the reach is not met
 * with them either. */
static bool give_up_beyond(const struct layout_plot *p, double reach, uint8_t *given_up,
                           struct fault *f)
{
    struct field ground = { 0 };
    size_t count = lattice_count(&p->ground->room.at);
    bool made = find_ground(p, &ground, f), beyond = false;
    for (size_t i = 0; made && !beyond && i < count; i++)
        beyond = p->ground->reached[i] && p->piece[i] == 0 && ground.room[i] > reach;
    for (size_t i = 0; beyond && i < count; i++)
        given_up[i] = p->piece[i] == 0 && ground.room[i] > BESIDE * reach;
    field_clear(&ground);
    return made || !fault_is_set(f);
}

static void give_up(const struct far_cell *far, size_t found, const struct lattice *at,
                    struct point c, double within, uint8_t *given_up)
{
    for (size_t i = 0; i < found; i++)
        if (point_apart(lattice_center(at, far[i].cell), c) <= within)
            given_up[far[i].cell] = 1;
}

/* Goes by the farthest cells, each well apart from the others of this round. */
static bool one_round(struct layout_plot *p, double reach, struct far_cell *far,
                      uint8_t *given_up, bool *any, struct fault *f)
{
    const struct lattice *at = &p->ground->room.at;
    struct point done[DONE];
    size_t count = 0, found = 0;
    *any = false;
    for (long i = 0; i < (long)lattice_count(at); i++)
        if (!given_up[i] && is_far(p, i, reach))
            far[found++] = (struct far_cell){ p->near.room[i], (int32_t)i };
    qsort(far, found, sizeof *far, by_room);
    for (size_t i = 0; i < found && count < DONE; i++) {
        struct point c = lattice_center(at, far[i].cell);
        bool apart = !given_up[far[i].cell];
        for (size_t k = 0; apart && k < count; k++)
            apart = point_apart(done[k], c) > 2.2 * reach;
        if (!apart)
            continue;
        int did = layout_detour(p, c, reach, f);
        if (did < 0)
            return false;
        if (did == 0)
            give_up(far, found, at, c, LIKE_IT * reach, given_up);
        *any = *any || did > 0;
        if (did > 0)
            done[count++] = c;
        p->near_is_new = p->near_is_new && did <= 0;
    }
    return true;
}

bool layout_fill_reach(struct layout_plot *p, struct fault *f)
{
    const struct layout_ask *ask = p->ground->ask;
    double cell = p->ground->room.at.cell, reach = ask->reach - 0.75 * cell;
    size_t count = lattice_count(&p->ground->room.at);
    uint8_t *given_up = calloc(count, 1);
    struct far_cell *far = malloc(count * sizeof *far);
    bool good = (given_up && far) || fault_no_memory(f), any = true;
    good = good && find_pieces(p, f);
    reach = fmax(reach, ask->reach / 2);
    good = good && give_up_beyond(p, reach, given_up, f);
    for (int round = 0; good && any && round < ROUNDS; round++)
        good = find_near(p, f) && one_round(p, reach, far, given_up, &any, f) &&
               layout_bend(p, f);
    free(given_up);
    free(far);
    return good;
}

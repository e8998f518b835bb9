#include "ground/spots.h"

#include <stdlib.h>

#include "base/chance.h"
#include "base/fault.h"

/* So few centres are each asked how far they are; of more, a field tells which is nearest. */
enum { DARTS = 10, TURNS = 14, COARSE = 3, FEW = 8 };

struct spots {
    const struct spots_ask *ask;
    struct point *centers;
    size_t count;
    long *fits; /* cells with room for a centre */
    size_t fit_count;
    struct lattice coarse;
    uint64_t chance;
};

static bool fits(const struct spots *s, struct point p)
{
    const struct spots_ask *a = s->ask;
    long cell = lattice_cell(&a->room->at, p);
    return cell >= 0 && a->cover[cell] && field_room(a->room, p) >= a->radius;
}

/* To the nearest of the other centres. */
static double apart_of(const struct spots *s, struct point p, size_t but)
{
    double least = HUGE_VAL;
    for (size_t i = 0; i < s->count; i++) {
        double d = i == but ? HUGE_VAL : point_apart(s->centers[i], p);
        least = d < least ? d : least;
    }
    return least;
}

static void throw_darts(struct spots *s)
{
    size_t tries = s->ask->fill ? 1 : DARTS, missed = 0;
    while (s->count < s->ask->count && missed < 400) {
        struct point best = { 0 };
        double far = -1;
        for (size_t k = 0; k < tries; k++) {
            long cell = s->fits[chance_below(&s->chance, s->fit_count)];
            struct point p = lattice_center(&s->ask->room->at, cell);
            double d = apart_of(s, p, SIZE_MAX);
            if (d > far) {
                far = d;
                best = p;
            }
        }
        if (far >= s->ask->apart) {
            s->centers[s->count++] = best;
            missed = 0;
        } else {
            missed++;
        }
    }
}

/* The cell with room that is nearest to the point, by rings of cells around it. */
static struct point settle(const struct spots *s, struct point p)
{
    const struct lattice *at = &s->ask->room->at;
    if (fits(s, p))
        return p;
    long middle = lattice_nearest(at, p), column = middle % at->columns;
    long row = middle / at->columns, most = at->columns + at->rows;
    double least = HUGE_VAL;
    struct point best = p;
    for (long ring = 0; ring < most; ring++) {
        if (least < ((double)ring - 1) * at->cell)
            break;
        for (long y = row - ring; y <= row + ring; y++) {
            long step = y == row - ring || y == row + ring || ring == 0 ? 1 : 2 * ring;
            for (long x = column - ring; x <= column + ring; x += step) {
                if (x < 0 || y < 0 || x >= at->columns || y >= at->rows)
                    continue;
                long i = y * at->columns + x;
                struct point q = lattice_center(at, i);
                if (s->ask->cover[i] && s->ask->room->room[i] >= s->ask->radius &&
                    point_apart(p, q) < least) {
                    least = point_apart(p, q);
                    best = q;
                }
            }
        }
    }
    return best;
}

static bool may_move(const struct spots *s, size_t i, struct point p)
{
    return fits(s, p) && apart_of(s, p, i) >= s->ask->apart;
}

/* Of two that are as near, the later one, as in most fields. */
static size_t nearest_of(const struct spots *s, struct point p)
{
    size_t nearest = 0;
    float least = (float)HUGE_VAL;
    for (size_t i = 0; i < s->count; i++) {
        float d = (float)point_apart(s->centers[i], p);
        nearest = d <= least ? i : nearest;
        least = d < least ? d : least;
    }
    return nearest;
}

/* Each to the middle of the ground nearest to it; as far as it keeps off the others. */
static bool even_out(struct spots *s, struct fault *f)
{
    struct field near = { 0 };
    double (*sum)[3] = calloc(s->count + 1, sizeof *sum);
    bool good = sum != NULL || fault_no_memory(f), few = s->count <= FEW;
    for (size_t i = 0; good && !few && i < s->count; i++)
        good = field_wall(&near, s->centers[i], s->centers[i], 0, f);
    good = good && (few || field_make(&near, s->coarse, f));
    for (long i = 0; good && i < (long)lattice_count(&s->coarse); i++) {
        struct point p = lattice_center(&s->coarse, i);
        long cell = lattice_cell(&s->ask->room->at, p);
        if (cell < 0 || !s->ask->cover[cell])
            continue;
        double *own = sum[few ? nearest_of(s, p) : (size_t)near.nearest[i]];
        own[0] += p.x;
        own[1] += p.y;
        own[2] += 1;
    }
    for (size_t i = 0; good && i < s->count; i++) {
        if (sum[i][2] == 0)
            continue;
        struct point to = { sum[i][0] / sum[i][2], sum[i][1] / sum[i][2] };
        to = settle(s, to);
        for (double part = 1; part > 0.2; part /= 2) {
            struct point p = { s->centers[i].x + part * (to.x - s->centers[i].x),
                               s->centers[i].y + part * (to.y - s->centers[i].y) };
            if (may_move(s, i, p)) {
                s->centers[i] = p;
                break;
            }
        }
    }
    field_clear(&near);
    free(sum);
    return good;
}

static void stir(struct spots *s)
{
    for (size_t i = 0; i < s->count; i++) {
        double step = 0.12 * apart_of(s, s->centers[i], i);
        if (!isfinite(step))
            step = s->ask->apart / 2;
        double east = step * (2 * chance_unit(&s->chance) - 1);
        double north = step * (2 * chance_unit(&s->chance) - 1);
        struct point p = { s->centers[i].x + east, s->centers[i].y + north };
        if (may_move(s, i, p))
            s->centers[i] = p;
    }
}

/* From one side, row by row: each the first cell that is far enough from all. */
static void pack(struct spots *s)
{
    const struct lattice *at = &s->ask->room->at;
    s->count = 0;
    for (size_t k = 0; k < s->fit_count && s->count < s->ask->count; k++) {
        struct point p = lattice_center(at, s->fits[k]);
        bool far = true;
        for (size_t i = s->count; far && i-- > 0;) {
            if (p.y - s->centers[i].y > 2 * s->ask->apart + at->cell)
                continue;
            far = point_apart(s->centers[i], p) >= s->ask->apart;
        }
        if (far)
            s->centers[s->count++] = p;
    }
}

static bool spread(struct spots *s, struct fault *f)
{
    throw_darts(s);
    for (int turn = 0; turn < TURNS; turn++) {
        if (!even_out(s, f))
            return false;
        /* Evened out, there may be room for those that found none. */
        if (s->count < s->ask->count && turn % 4 == 3)
            throw_darts(s);
    }
    if (s->count < s->ask->count && !s->ask->fill) {
        size_t had = s->count;
        struct point *kept = malloc((had + 1) * sizeof *kept);
        if (!kept)
            return fault_no_memory(f);
        for (size_t i = 0; i < had; i++)
            kept[i] = s->centers[i];
        pack(s);
        if (s->count < had) {
            for (size_t i = 0; i < had; i++)
                s->centers[i] = kept[i];
            s->count = had;
        }
        free(kept);
    }
    stir(s);
    return true;
}

long spots_place(const struct spots_ask *ask, struct point *centers, struct fault *f)
{
    const struct lattice *at = &ask->room->at;
    struct spots s = { .ask = ask, .centers = centers, .chance = ask->seed };
    s.coarse = *at;
    s.coarse.cell = at->cell * COARSE;
    s.coarse.columns = (at->columns + COARSE - 1) / COARSE;
    s.coarse.rows = (at->rows + COARSE - 1) / COARSE;
    s.fits = malloc((lattice_count(at) + 1) * sizeof *s.fits);
    bool good = s.fits != NULL || fault_no_memory(f);
    for (long i = 0; good && i < (long)lattice_count(at); i++)
        if (ask->cover[i] && ask->room->room[i] >= ask->radius)
            s.fits[s.fit_count++] = i;
    if (good && s.fit_count > 0)
        good = spread(&s, f);
    free(s.fits);
    return good ? (long)s.count : -1;
}

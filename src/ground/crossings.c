#include "ground/crossings.h"

#include <math.h>
#include <stdlib.h>

#include "base/fault.h"
#include "ground/segment.h"
#include "ground/shape.h"

enum { TESTS_MOST = 50 * 1000 * 1000 };

struct piece {
    struct segment s;
    double west, east;
};

static int by_west(const void *left, const void *right)
{
    const struct piece *a = left, *b = right;
    return (a->west > b->west) - (a->west < b->west);
}

static size_t list_pieces(const struct shape *s, struct piece *list)
{
    size_t count = 0;
    for (size_t i = 0; i < s->part_count; i++) {
        const struct point *ring = s->points + s->parts[i].first;
        size_t corners = s->parts[i].count;
        for (size_t k = 0; k < corners; k++) {
            struct point a = ring[k], b = ring[(k + 1) % corners];
            list[count++] = (struct piece){ { a, b }, fmin(a.x, b.x), fmax(a.x, b.x) };
        }
    }
    qsort(list, count, sizeof *list, by_west);
    return count;
}

static bool crosses(const struct piece *a, const struct piece *b)
{
    double t, u;
    if (fmax(a->s.a.y, a->s.b.y) < fmin(b->s.a.y, b->s.b.y) ||
        fmax(b->s.a.y, b->s.b.y) < fmin(a->s.a.y, a->s.b.y))
        return false;
    return segment_cross(a->s, b->s, &t, &u) && t > 0 && t < 1 && u > 0 && u < 1;
}

bool crossings_exceed(const struct shape *s, size_t most, bool *answer, struct fault *f)
{
    struct piece *list = malloc((s->point_count + 1) * sizeof *list);
    if (!list)
        return fault_no_memory(f);
    size_t count = list_pieces(s, list), found = 0, tests = 0;
    for (size_t i = 0; i < count && found <= most && tests < TESTS_MOST; i++)
        for (size_t k = i + 1; k < count && list[k].west <= list[i].east; k++, tests++)
            found += crosses(&list[i], &list[k]);
    free(list);
    *answer = found > most;
    return true;
}

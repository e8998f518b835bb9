#include "ground/links.h"

#include <stdlib.h>

#include "base/fault.h"
#include "base/grow.h"

static bool add(int (**pairs)[2], size_t *space, size_t *count, int a, int b,
                struct fault *f)
{
    int (*grown)[2] = grow(*pairs, space, *count, sizeof **pairs);
    if (!grown)
        return fault_no_memory(f);
    *pairs = grown;
    grown[*count][0] = a < b ? a : b;
    grown[*count][1] = a < b ? b : a;
    (*count)++;
    return true;
}

static int by_place(const void *x, const void *y)
{
    const int *a = x, *b = y;
    return a[0] != b[0] ? a[0] - b[0] : a[1] - b[1];
}

static void sort_once(int (*pairs)[2], size_t *count)
{
    size_t kept = 0;
    if (*count == 0)
        return;
    qsort(pairs, *count, sizeof *pairs, by_place);
    for (size_t i = 0; i < *count; i++) {
        if (kept > 0 && by_place(pairs[kept - 1], pairs[i]) == 0)
            continue;
        pairs[kept][0] = pairs[i][0];
        pairs[kept][1] = pairs[i][1];
        kept++;
    }
    *count = kept;
}

/* The place that a cell begins with, -1 for none. */
static int begins(const struct router *r, long cell)
{
    if (r->owner[cell] > 0)
        return r->owner[cell] - 1;
    return r->gate[cell] > 0 ? r->openings + r->gate[cell] - 1 : -1;
}

/* Grows all places at once; r->from keeps whose a cell is, -1 for nobody's. */
static bool grow_all(struct router *r, struct fault *f)
{
    const struct lattice *at = &r->room->at;
    struct router_entry e;
    r->heap_count = 0;
    r->flood.is_on = false;
    for (long i = 0; i < (long)lattice_count(at); i++) {
        r->from[i] = begins(r, i);
        r->cost[i] = r->from[i] >= 0 ? 0 : (float)HUGE_VAL;
        if (r->from[i] >= 0 && !router_push(r, 0, i, f))
            return false;
    }
    while (router_pop(r, &e)) {
        if (e.key > r->cost[e.cell])
            continue;
        int32_t columns = (int32_t)at->columns, rows = (int32_t)at->rows;
        int32_t column = e.cell % columns, row = e.cell / columns;
        for (int32_t y = row > 0 ? row - 1 : 0; y <= row + 1 && y < rows; y++) {
            for (int32_t x = column > 0 ? column - 1 : 0; x <= column + 1 && x < columns;
                 x++) {
                long next = (long)y * columns + x;
                if (r->cost[next] <= r->cost[e.cell])
                    continue;
                double price = router_price(r, next, -1, -1, false);
                double step = x != column && y != row ? 1.41421356 : 1;
                float cost = (float)(r->cost[e.cell] + step * at->cell * price);
                if (price <= 0 || cost >= r->cost[next])
                    continue;
                r->cost[next] = cost;
                r->from[next] = r->from[e.cell];
                if (!router_push(r, cost, next, f))
                    return false;
            }
        }
    }
    return true;
}

bool links_find(struct router *r, int (**pairs)[2], size_t *count, struct fault *f)
{
    const struct lattice *at = &r->room->at;
    size_t space = 0;
    *pairs = NULL;
    *count = 0;
    if (!grow_all(r, f))
        return false;
    for (long i = 0; i < (long)lattice_count(at); i++) {
        long next[2] = { i % at->columns + 1 < at->columns ? i + 1 : i,
                         i / at->columns + 1 < at->rows ? i + at->columns : i };
        for (int k = 0; k < 2; k++) {
            int a = r->from[i], b = r->from[next[k]];
            if (a < 0 || b < 0 || a == b || (a >= r->openings && b >= r->openings))
                continue;
            int low = a < b ? a : b, high = a < b ? b : a;
            bool had = *count > 0 && (*pairs)[*count - 1][0] == low &&
                       (*pairs)[*count - 1][1] == high;
            if (!had && !add(pairs, &space, count, a, b, f))
                return false;
        }
    }
    sort_once(*pairs, count);
    return true;
}

bool links_widen(const uint8_t *marked, int openings, int places, int (**pairs)[2],
                 size_t *count, struct fault *f)
{
    size_t had = *count, space = *count;
    int *start = calloc((size_t)places + 2, sizeof *start);
    int *other = calloc(2 * had + 1, sizeof *other);
    bool good = (start && other) || fault_no_memory(f);
    for (size_t i = 0; good && i < had; i++) {
        start[(*pairs)[i][0] + 2]++;
        start[(*pairs)[i][1] + 2]++;
    }
    for (int i = 2; good && i < places + 2; i++)
        start[i] += start[i - 1];
    for (size_t i = 0; good && i < had; i++) {
        other[start[(*pairs)[i][0] + 1]++] = (*pairs)[i][1];
        other[start[(*pairs)[i][1] + 1]++] = (*pairs)[i][0];
    }
    for (int a = 0; good && a < openings; a++) {
        for (int i = start[a]; good && marked[a] && i < start[a + 1]; i++) {
            int middle = other[i];
            if (middle >= openings)
                continue; /* both ends of a long exit are no neighbours */
            for (int k = start[middle]; good && k < start[middle + 1]; k++)
                if (other[k] != a)
                    good = add(pairs, &space, count, a, other[k], f);
        }
    }
    sort_once(*pairs, count);
    free(start);
    free(other);
    return good;
}

#include "quantity/ranks.h"

#include <math.h>

static void merge_draws(const struct ranked *from, int middle, int end, struct ranked *to)
{
    int left = 0, right = middle;
    for (int i = 0; i < end; i++) {
        bool take_left =
            right >= end || (left < middle && from[left].draw <= from[right].draw);
        to[i] = take_left ? from[left++] : from[right++];
    }
}

/* Stable, so that equal draws stay in the order of their places. By hand: qsort would ask
 * a function 45,000 times. `spare` is as long as the list; returns which of the two holds
 * the sorted draws. */
static struct ranked *sort_draws(struct ranked *list, struct ranked *spare, int count)
{
    for (int width = 1; width < count; width *= 2) {
        for (int at = 0; at < count; at += 2 * width) {
            int middle = width < count - at ? width : count - at;
            int end = 2 * width < count - at ? 2 * width : count - at;
            merge_draws(list + at, middle, end, spare + at);
        }
        struct ranked *sorted = spare;
        spare = list;
        list = sorted;
    }
    return list;
}

void ranks_score(const double *row, const double *table, struct ranked *ranked,
                 double *scores)
{
    int count = 0;
    for (int i = 0; i < SPREAD_DRAWS; i++) {
        scores[i] = 0;
        if (!isnan(row[i]))
            ranked[count++] = (struct ranked){ row[i], i };
    }
    ranked = sort_draws(ranked, ranked + SPREAD_DRAWS, count);
    for (int from = 0, to; from < count; from = to) {
        double total = 0;
        for (to = from; to < count && ranked[to].draw == ranked[from].draw; to++)
            total += table[to];
        for (int i = from; i < to; i++)
            scores[ranked[i].place] = total / (to - from);
    }
}

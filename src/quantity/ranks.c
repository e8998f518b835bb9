#include "quantity/ranks.h"

#include <math.h>
#include <string.h>

/* Eleven bits of a key at a time. */
enum { DIGIT_BITS = 11, DIGIT = 1 << DIGIT_BITS, DIGITS = 6 };

/* Bits in the order of the numbers; that of -0 comes before that of 0, though they are
 * equal. */
static uint64_t key_of(double draw)
{
    uint64_t bits, sign = UINT64_C(1) << 63;
    memcpy(&bits, &draw, sizeof bits);
    return bits & sign ? ~bits : bits | sign;
}

static size_t digit_of(uint64_t key, int digit)
{
    return key >> (digit * DIGIT_BITS) & (DIGIT - 1);
}

/* By digits, the last first: a sixth of what comparing takes. `spare` is as long as the
 * list. Stable, so that equal draws stay in the order of their places. An even number of
 * digits: the sorted list is the one given. */
static void sort_draws(struct ranked *list, struct ranked *spare, int count)
{
    for (int digit = 0; digit < DIGITS; digit++) {
        uint16_t before[DIGIT] = { 0 };
        for (int i = 0; i < count; i++)
            before[digit_of(list[i].key, digit)]++;
        uint16_t sum = 0;
        for (int d = 0; d < DIGIT; d++) {
            uint16_t here = before[d];
            before[d] = sum;
            sum = (uint16_t)(sum + here);
        }
        for (int i = 0; i < count; i++)
            spare[before[digit_of(list[i].key, digit)]++] = list[i];
        struct ranked *sorted = spare;
        spare = list;
        list = sorted;
    }
}

void ranks_score(const double *row, const double *table, struct ranked *ranked,
                 double *scores)
{
    int count = 0;
    for (int i = 0; i < SPREAD_DRAWS; i++) {
        scores[i] = 0;
        if (!isnan(row[i]))
            ranked[count++] = (struct ranked){ key_of(row[i]), i };
    }
    sort_draws(ranked, ranked + SPREAD_DRAWS, count);
    for (int from = 0, to; from < count; from = to) {
        double total = 0;
        double draw = row[ranked[from].place];
        for (to = from; to < count && row[ranked[to].place] == draw; to++)
            total += table[to];
        for (int i = from; i < to; i++)
            scores[ranked[i].place] = total / (to - from);
    }
}

#include "forest/sample.h"

#include <math.h>

struct sample sample_of(const double *values, size_t count, double population)
{
    struct sample s = { .count = count };
    if (count == 0)
        return s;
    double sum = 0, squares = 0;
    for (size_t i = 0; i < count; i++)
        sum += values[i];
    s.mean = sum / (double)count;
    if (count == 1)
        return s;
    for (size_t i = 0; i < count; i++) {
        double off = values[i] - s.mean;
        squares += off * off;
    }
    s.variance = squares / (double)(count - 1);
    double seen = population > 0 ? fmin((double)count / population, 1) : 0;
    s.error = sqrt(s.variance / (double)count * (1 - seen));
    return s;
}

/* The chance that |t| is below sqrt(freedom) tan(angle). Abramowitz and Stegun, Handbook
 * of Mathematical Functions, 26.7.3 and 26.7.4: a finite sum, no approximation. */
static double within(double angle, size_t freedom)
{
    double s = sin(angle), c = cos(angle), term = s, sum = 0;
    if (freedom % 2 == 0) {
        for (size_t i = 0; i < freedom; i += 2) {
            sum += term;
            term *= c * c * (double)(i + 1) / (double)(i + 2);
        }
        return sum;
    }
    term *= c;
    for (size_t i = 1; i < freedom; i += 2) {
        sum += term;
        term *= c * c * (double)(i + 1) / (double)(i + 2);
    }
    return 2 / acos(-1.0) * (angle + sum);
}

/* By false position (the Illinois rule: an end that stays twice counts half), which is there
 * in ten steps where halving takes fifty. */
double sample_t(double p, size_t freedom)
{
    double sought = fabs(2 * p - 1), low = 0, high = acos(0.0), angle = low;
    double below = -sought, above = 1 - sought;
    for (int i = 0, side = 0; i < 100 && below < 0 && above > 0; i++) {
        double before = angle;
        angle = (low * above - high * below) / (above - below);
        if (fabs(angle - before) <= 1e-16)
            break;
        double off = within(angle, freedom) - sought;
        if (off == 0)
            break;
        if (off < 0) {
            low = angle;
            below = off;
            above = side < 0 ? above / 2 : above;
            side = -1;
        } else {
            high = angle;
            above = off;
            below = side > 0 ? below / 2 : below;
            side = 1;
        }
    }
    double t = sqrt((double)freedom) * tan(angle);
    return p < 0.5 ? -t : t;
}

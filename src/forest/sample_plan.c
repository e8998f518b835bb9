/* How many plots, and what several samples say together (sample.h). */
#include <math.h>

#include "forest/sample.h"
#include "quantity/normal.h"

double sample_cv_percent(const struct sample *s)
{
    return s->mean > 0 ? 100 * sqrt(s->variance) / s->mean : 0;
}

static bool enough(size_t n, double cv, double within, double confidence,
                   double population)
{
    double left = population > 0 ? fmax(1 - (double)n / population, 0) : 1;
    double t = sample_t(0.5 + confidence / 2, n - 1);
    return t * cv * sqrt(left / (double)n) <= within;
}

size_t sample_plots_needed(double cv, double within, double confidence, double population)
{
    /* More plots always reach closer, so halving finds the fewest. */
    size_t low = 1, high = SAMPLE_PLOTS_MOST;
    double normal = normal_inverse(0.5 + confidence / 2) * cv / within;
    if (normal * normal >= SAMPLE_PLOTS_MOST && population <= 0)
        return SAMPLE_PLOTS_MOST;
    if (population > 0)
        high = (size_t)fmin(fmax(ceil(population), 2), SAMPLE_PLOTS_MOST);
    else
        high = (size_t)fmin(2 * normal * normal + 400, SAMPLE_PLOTS_MOST);
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (enough(middle, cv, within, confidence, population))
            high = middle;
        else
            low = middle;
    }
    return high;
}

struct strata sample_strata(const struct stratum *strata, size_t count)
{
    struct strata all = { .told = true };
    double variances = 0, squares = 0;
    for (size_t i = 0; i < count; i++) {
        const struct stratum *s = &strata[i];
        double off = s->weight * s->error, variance = off * off;
        all.total += s->weight * s->mean;
        variances += variance;
        if (s->count > 1)
            squares += variance * variance / (double)(s->count - 1);
        all.told = all.told && s->count != 1;
    }
    all.error = sqrt(variances);
    all.freedom = squares > 0 ? variances * variances / squares : HUGE_VAL;
    if (!all.told)
        all.error = all.freedom = 0;
    return all;
}

bool sample_strata_interval(const struct strata *s, double confidence, double *low,
                            double *high)
{
    if (!s->told)
        return false;
    double p = 0.5 + confidence / 2, times = normal_inverse(p);
    if (s->freedom < 1e6)
        times = sample_t(p, (size_t)fmax(s->freedom * (1 + 1e-12), 1));
    *low = fmax(s->total - times * s->error, 0);
    *high = s->total + times * s->error;
    return true;
}

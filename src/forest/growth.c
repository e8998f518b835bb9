#include "forest/growth.h"

#include <math.h>

double growth_diameter(double diameter_in, double rate, double gain, double years)
{
    double as_before = fmin(fmax(years, 0), 1), faster = fmax(years - 1, 0);
    return diameter_in + fmax(rate, 0) * (as_before + fmax(gain, 0) / 100 * faster);
}

double growth_years(double diameter_in, double rate, double gain, double target_in)
{
    double wanted = target_in - diameter_in;
    if (wanted <= 0)
        return 0;
    if (wanted <= rate)
        return wanted / rate;
    double yearly = rate * gain / 100;
    double years = yearly > 0 ? 1 + (wanted - rate) / yearly : GROWTH_LONGEST;
    return fmin(years, GROWTH_LONGEST);
}

double growth_basal_area(double basal_area, double diameter_in, double rate, double gain,
                         double years)
{
    if (diameter_in <= 0)
        return basal_area;
    double grown = growth_diameter(diameter_in, rate, gain, years) / diameter_in;
    return basal_area * grown * grown;
}

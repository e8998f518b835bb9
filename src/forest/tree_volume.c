#include "forest/tree_volume.h"

#include <math.h>

/* a0 a1 a2, b0 b1 b2, c0 c1 c2 of Wiant 1986. */
static const double girard[][9] = {
    [LOG_INTERNATIONAL] = { -13.35212, 9.58615, 1.52968, 1.79620, -2.59995, -0.27465,
                            0.04482, 0.45997, -0.00961 },
    [LOG_SCRIBNER] = { -22.50365, 17.53508, -0.59242, 3.02888, -4.34381, -0.02302,
                       -0.01969, 0.51593, -0.02035 },
    [LOG_DOYLE] = { -29.37337, 41.51275, 0.55743, 2.78043, -8.77272, -0.04516, 0.04177,
                    0.59042, -0.01578 },
};

bool tree_girard_has(enum log_rule rule)
{
    return rule == LOG_INTERNATIONAL || rule == LOG_SCRIBNER || rule == LOG_DOYLE;
}

double tree_girard(enum log_rule rule, double diameter_in, double logs, double form_class)
{
    if (!tree_girard_has(rule))
        return NAN;
    if (logs <= 0)
        return 0;
    double part[3];
    for (int i = 0; i < 3; i++) {
        const double *k = &girard[rule][3 * i];
        part[i] = k[0] + k[1] * logs + k[2] * logs * logs;
    }
    double feet =
        part[0] + part[1] * diameter_in + part[2] * diameter_in * diameter_in;
    return fmax(0, feet * (1 + 0.03 * (form_class - TREE_FORM_CLASS)));
}

double tree_bucked(enum log_rule rule, const struct stem *s, double top_in)
{
    struct log_rule_range range = log_rule_range(rule);
    double left = stem_height_to(s, top_in), at = STEM_STUMP_FT, sum = 0;
    while (left >= 8) {
        double trim = STEM_LOG_FT - 16;
        double length = fmin(16, 2 * floor((left - trim) / 2 + 1e-9));
        if (length < 8)
            break;
        at += length + trim;
        left -= length + trim;
        double inside = fmin(stem_inside_at(s, at), range.to_in);
        sum += inside >= range.from_in ? log_rule_scaled(rule, inside, length) : 0;
    }
    return sum;
}

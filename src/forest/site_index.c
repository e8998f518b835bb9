#include "forest/site_index.h"

#include <math.h>
#include <string.h>

#include "base/fault.h"

/* ln(1 - e^(rate A)), without loss for small ages. */
static double ln_grown(double rate, double age)
{
    return log(-expm1(rate * age));
}

double site_height(const struct site_curve *c, double site, double age)
{
    const double *b = c->height;
    if (age <= 0)
        return c->base_ft;
    if (c->exponential)
        return fmax(0, site * (b[0] + b[1] * exp(b[2] * age)));
    double power = b[3] * pow(site, b[4]);
    return c->base_ft + b[0] * pow(site, b[1]) * exp(power * ln_grown(b[2], age));
}

double site_height_most(const struct site_curve *c, double site)
{
    const double *b = c->height;
    return c->exponential ? site * b[0] : c->base_ft + b[0] * pow(site, b[1]);
}

double site_age(const struct site_curve *c, double site, double height)
{
    const double *b = c->height;
    if (height <= c->base_ft)
        return 0;
    if (height >= site_height_most(c, site))
        return NAN;
    if (c->exponential)
        return fmax(0, log((height / site - b[0]) / b[1]) / b[2]);
    double share = (height - c->base_ft) / (b[0] * pow(site, b[1]));
    double power = b[3] * pow(site, b[4]);
    return log1p(-pow(share, 1 / power)) / b[2];
}

/* In logarithms the first form is ln h = ln b1 + b2 u + b4 e^(b5 u) L with u = ln S and
 * L = ln(1 - e^(b3 A)), smooth and, over site indices that occur, rising: Newton's steps,
 * kept inside a bracket. */
static double invert(const double *b, double height, double grown)
{
    double low = log(1), high = log(1000), wanted = log(height / b[0]);
    double u = log(50);
    for (int i = 0; i < 100; i++) {
        double bent = b[3] * exp(b[4] * u) * grown;
        double off = b[1] * u + bent - wanted;
        if (off > 0)
            high = u;
        else
            low = u;
        double next = u - off / (b[1] + b[4] * bent);
        if (!(next > low && next < high))
            next = (low + high) / 2;
        if (fabs(next - u) < 1e-15 * fabs(u))
            break;
        u = next;
    }
    double site = exp(u);
    return site > 1.001 && site < 999 ? site : NAN;
}

double site_index_inverted(const struct site_curve *c, double height, double age)
{
    const double *b = c->height;
    if (age <= 0 || height <= c->base_ft)
        return NAN;
    if (c->exponential) {
        double share = b[0] + b[1] * exp(b[2] * age);
        return share > 0 ? height / share : NAN;
    }
    double grown = ln_grown(b[2], age);
    if (b[1] == 1 && b[4] == 0)
        return (height - c->base_ft) / (b[0] * exp(b[3] * grown));
    return invert(b, height - c->base_ft, grown);
}

double site_index_published(const struct site_curve *c, double height, double age)
{
    const double *s = c->site;
    double above = height - c->base_ft;
    if (s[0] == 0 || age <= 0 || above <= 0)
        return NAN;
    return c->base_ft +
           s[0] * pow(above, s[1]) * exp(s[3] * pow(above, s[4]) * ln_grown(s[2], age));
}

bool site_is_fitted_apart(const struct site_curve *c)
{
    return c->site[0] != 0 && (c->height[1] != 1 || c->height[4] != 0);
}

/* ---- of quantities ---- */

/* A curve as the numbers that go with an equation. */
enum { FORM, BASE, HEIGHT, SITE = HEIGHT + 5, NUMBERS = SITE + 5 };

static void pack(const struct site_curve *c, double with[NUMBERS])
{
    with[FORM] = c->exponential;
    with[BASE] = c->base_ft;
    memcpy(with + HEIGHT, c->height, sizeof c->height);
    memcpy(with + SITE, c->site, sizeof c->site);
}

static struct site_curve unpack(const double *with)
{
    struct site_curve c = { .exponential = with[FORM] > 0, .base_ft = with[BASE] };
    memcpy(c.height, with + HEIGHT, sizeof c.height);
    memcpy(c.site, with + SITE, sizeof c.site);
    return c;
}

static double height_value(const double *x, const double *with)
{
    struct site_curve c = unpack(with);
    return x[0] > 0 ? site_height(&c, x[0], x[1]) : NAN;
}
static double age_value(const double *x, const double *with)
{
    struct site_curve c = unpack(with);
    return x[0] > 0 ? site_age(&c, x[0], x[1]) : NAN;
}
static double published_value(const double *x, const double *with)
{
    struct site_curve c = unpack(with);
    return site_index_published(&c, x[0], x[1]);
}
static double inverted_value(const double *x, const double *with)
{
    struct site_curve c = unpack(with);
    return site_index_inverted(&c, x[0], x[1]);
}

static bool find_units(struct graph *g, struct unit_id *ft, struct unit_id *yr,
                       struct fault *f)
{
    return units_find(graph_units(g), "ft", 2, ft, f) &&
           units_find(graph_units(g), "yr", 2, yr, f);
}

static struct qty equation(struct graph *g, const struct formula *formula,
                           const struct site_curve *c, struct operand of[2],
                           struct unit_id unit, const char *words, struct fault *f)
{
    double with[NUMBERS];
    pack(c, with);
    return graph_formula(g, formula, with, NUMBERS, of, 2, unit,
                         (struct origin){ SPAN_NONE, words }, f);
}

struct qty site_height_of(struct graph *g, const struct site_curve *c, struct qty site,
                          struct qty age, const char *words, struct fault *f)
{
    static const struct formula formula = { "height at age", height_value };
    struct unit_id ft, yr;
    if (!find_units(g, &ft, &yr, f))
        return QTY_NONE;
    struct operand of[] = { { site, ft, "site index" }, { age, yr, "age" } };
    return equation(g, &formula, c, of, ft, words, f);
}

struct qty site_age_of(struct graph *g, const struct site_curve *c, struct qty site,
                       struct qty height, const char *words, struct fault *f)
{
    static const struct formula formula = { "age at height", age_value };
    struct unit_id ft, yr;
    if (!find_units(g, &ft, &yr, f))
        return QTY_NONE;
    struct operand of[] = { { site, ft, "site index" }, { height, ft, "height" } };
    return equation(g, &formula, c, of, yr, words, f);
}

struct qty site_index_of(struct graph *g, const struct site_curve *c, struct qty height,
                         struct qty age, const char *words, struct fault *f)
{
    static const struct formula published = { "site index", published_value };
    static const struct formula inverted = { "site index, the height curve turned round",
                                             inverted_value };
    struct unit_id ft, yr;
    if (!find_units(g, &ft, &yr, f))
        return QTY_NONE;
    struct operand of[] = { { height, ft, "height" }, { age, yr, "age" } };
    return equation(g, c->site[0] != 0 ? &published : &inverted, c, of, ft, words, f);
}

#include "ground/bearing.h"

#include <math.h>

#include "base/buf.h"

#define DEGREE (3.14159265358979323846 / 180)

/* A whole number of degrees has the sine and cosine it should: due east goes 0 north. */
static double sine(double azimuth)
{
    double a = bearing_normal(azimuth);
    if (a > 180)
        return -sine(a - 180);
    if (a > 90)
        a = 180 - a;
    return a <= 45 ? sin(a * DEGREE) : cos((90 - a) * DEGREE);
}

double bearing_normal(double degrees)
{
    double a = fmod(degrees, 360);
    if (a < 0)
        a += 360;
    return a >= 360 ? 0 : a + 0.0;
}

double bearing_between(struct point from, struct point to)
{
    double east = to.x - from.x, north = to.y - from.y;
    return east == 0 && north == 0 ? 0 : bearing_normal(atan2(east, north) / DEGREE);
}

struct point bearing_walk(struct point from, double azimuth, double length_ft)
{
    return (struct point){ from.x + length_ft * sine(azimuth),
                           from.y + length_ft * sine(azimuth + 90) };
}

double bearing_magnetic(double azimuth, double declination)
{
    return bearing_normal(azimuth - declination);
}

double bearing_true(double magnetic, double declination)
{
    return bearing_normal(magnetic + declination);
}

double bearing_degrees(double degrees, double minutes, double seconds)
{
    return degrees + minutes / 60 + seconds / 3600;
}

double bearing_of_quadrant(char from, double angle, char to)
{
    if (from == 'N')
        return bearing_normal(to == 'E' ? angle : -angle);
    return bearing_normal(to == 'E' ? 180 - angle : 180 + angle);
}

static long in_a_degree(enum bearing_step step)
{
    switch (step) {
    case BEARING_TO_DEGREES: return 1;
    case BEARING_TO_MINUTES: return 60;
    case BEARING_TO_SECONDS: break;
    }
    return 3600;
}

static void put_angle(struct buf *out, long steps, enum bearing_step step, int digits)
{
    long each = in_a_degree(step), rest = steps % each;
    buf_printf(out, "%0*ld°", digits, steps / each);
    if (step == BEARING_TO_MINUTES)
        buf_printf(out, "%02ld'", rest);
    if (step == BEARING_TO_SECONDS)
        buf_printf(out, "%02ld'%02ld\"", rest / 60, rest % 60);
}

/* The azimuth in whole steps, below a full turn; below 0 when it is not finite. */
static long whole_steps(double azimuth, enum bearing_step step)
{
    double a = bearing_normal(azimuth);
    if (!isfinite(a))
        return -1;
    long each = in_a_degree(step);
    return lround(a * (double)each) % (360 * each);
}

void bearing_quadrant(struct buf *out, double azimuth, enum bearing_step step)
{
    static const char *const winds[] = { "due north", "due east", "due south",
                                         "due west" };
    long steps = whole_steps(azimuth, step), right = 90 * in_a_degree(step);
    if (steps < 0) {
        buf_puts(out, "?");
        return;
    }
    long quarter = steps / right, angle = steps % right;
    if (angle == 0) {
        buf_puts(out, winds[quarter]);
        return;
    }
    buf_puts(out, quarter == 0 || quarter == 3 ? "N " : "S ");
    put_angle(out, quarter % 2 == 0 ? angle : right - angle, step, 1);
    buf_puts(out, quarter < 2 ? " E" : " W");
}

void bearing_azimuth(struct buf *out, double azimuth, enum bearing_step step)
{
    long steps = whole_steps(azimuth, step);
    if (steps < 0)
        buf_puts(out, "?");
    else
        put_angle(out, steps, step, 3);
}

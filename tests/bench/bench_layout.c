/* bench_layout: openings and trails laid out, time against acres.
 *
 * The bars, on one core: 100 acres with 60 openings in 2 s and 300 MB; 10 acres with 8
 * openings in 0.1 s. Three ways to leave, a road to stay 100 ft off, two ways out of
 * every opening, a reach of 150 ft and a sight of 75 ft. Then 1 to 1,000 acres with an
 * opening every 1.7 acres, and how fast the time grows: time ~ acres to the power
 * printed. Time of the processor; the least of RUNS, fewer for large stands. */
#include <math.h>
#include <stdio.h>
#include <sys/resource.h>
#include <time.h>

#include "base/fault.h"
#include "ground/layout.h"

enum { CORNERS = 72, RUNS = 5 };

struct stand {
    struct shape cover, exit[3], road;
    struct layout_exit exits[3];
    struct layout_shun shun;
};

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + (double)t.tv_nsec / 1e9;
}

static bool add_line(struct shape *s, const struct point *points, size_t count,
                     struct fault *f)
{
    s->kind = SHAPE_LINES;
    return shape_add_part(s, points, count, false, f);
}

static bool make_stand(struct stand *s, double acres, struct fault *f)
{
    struct point rim[CORNERS];
    double r = sqrt(acres * 43560 / 3.14159265);
    *s = (struct stand){ .cover = { .kind = SHAPE_AREAS } };
    for (int i = 0; i < CORNERS; i++) {
        double a = 6.283185307 * i / CORNERS;
        double q =
            r * (1 + 0.18 * sin(2 * a + 1) + 0.08 * sin(3 * a) + 0.02 * sin(11 * a));
        rim[i] = (struct point){ q * cos(a), q * sin(a) };
    }
    bool good = shape_add_part(&s->cover, rim, CORNERS, false, f);
    for (size_t i = 0; good && i < 3; i++) {
        good = add_line(&s->exit[i], rim + 3 + 17 * i, 10, f);
        s->exits[i] = (struct layout_exit){ &s->exit[i], 0, 0 };
    }
    good = good && add_line(&s->road, rim + 56, 14, f);
    s->shun = (struct layout_shun){ &s->road, fmin(100, r / 4) };
    return good;
}

static void free_stand(struct stand *s)
{
    shape_free(&s->cover);
    shape_free(&s->road);
    for (int i = 0; i < 3; i++)
        shape_free(&s->exit[i]);
}

/* Seconds; negative when it failed. */
static double lay_out(double acres, size_t openings, int runs, size_t *failed,
                      struct fault *f)
{
    struct stand s;
    double least = HUGE_VAL;
    bool good = make_stand(&s, acres, f);
    struct layout_ask ask = { .cover = &s.cover, .exits = s.exits, .exit_count = 3,
                              .shuns = &s.shun, .shun_count = 1, .width = 40,
                              .count = openings, .ways_out = 2, .reach = 150, .sight = 75,
                              .trail_width = 6, .seed = 1 };
    for (int i = 0; good && i < runs; i++) {
        struct layout out;
        double start = now();
        good = layout_design(&ask, &out, f);
        least = fmin(least, now() - start);
        *failed = out.trouble_count;
        layout_free(&out);
    }
    free_stand(&s);
    return good ? least : -1;
}

static bool bar(double acres, size_t openings, double most, struct fault *f)
{
    size_t failed = 0;
    double time = lay_out(acres, openings, RUNS, &failed, f);
    printf("%.0f acres, %zu openings: %.3f s (bar: %.1f)%s\n", acres, openings, time,
           most, failed > 0 ? ", NOT all asks met" : "");
    return time >= 0 && time <= most && failed == 0;
}

int main(void)
{
    static const double acres[] = { 1, 3, 10, 30, 100, 300, 1000 };
    enum { SIZES = sizeof acres / sizeof *acres };
    struct fault f;
    struct rusage use;
    fault_clear(&f);
    bool good = bar(10, 8, 0.1, &f);
    good = bar(100, 60, 2, &f) && good;
    getrusage(RUSAGE_SELF, &use);
    double megabytes = (double)use.ru_maxrss / 1024;
    printf("memory: %.0f MB (bar: 300)\n", megabytes);
    good = good && megabytes <= 300;
    double sx = 0, sy = 0, sxx = 0, sxy = 0;
    for (int i = 0; i < SIZES; i++) {
        size_t openings = (size_t)ceil(acres[i] * 0.6), failed = 0;
        double time = lay_out(acres[i], openings, acres[i] < 100 ? 3 : 1, &failed, &f);
        good = good && time > 0;
        printf("%6.0f acres %4zu openings %8.3f s%s\n", acres[i], openings, time,
               failed > 0 ? "  not all asks met" : "");
        double x = log(acres[i]), y = log(time);
        sx += x;
        sy += y;
        sxx += x * x;
        sxy += x * y;
    }
    printf("time grows as acres to the power %.2f\n",
           (SIZES * sxy - sx * sy) / (SIZES * sxx - sx * sx));
    if (fault_is_set(&f))
        printf("%s\n", f.message);
    return good ? 0 : 1;
}

/* bench_project: the project engine on projects drawn by chance (project_files.h).
 *
 * The bars, with 50,000 schedules each: 30 activities, mean gap to the optimum (where
 * branch and bound proves it) and to the best known at most 0.5 percent; 120 activities,
 * mean deviation from the critical path at most 34 percent; 50,000 schedules of 30
 * activities in 2 s. The bars were set for sets of projects that are published, which are
 * not here: these are drawn by the same recipe. Then how fast the time of a schedule
 * grows with activities: time ~ activities to the power printed. Time of the processor.
 * */
#include <math.h>
#include <stdio.h>
#include <time.h>

#include "base/fault.h"
#include "project_files.h"

enum { SCHEDULES = 50000, STEPS = 300000 };

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + (double)t.tv_nsec / 1e9;
}

/* Draws one of a level and solves it; the seconds that took, negative when it failed. */
static double solve(size_t count, size_t level, const struct project_ask *ask,
                    struct project_answer *out)
{
    struct project_levels l = project_level(count, level);
    struct project_file file;
    struct fault f;
    uint64_t chance = (uint64_t)count * 1000003 + level * 1009;
    fault_clear(&f);
    if (!project_file_draw(&file, count, l.complexity, l.factor, l.strength, &chance))
        return -1;
    double start = now();
    bool good = project_solve(&file.p, ask, out, &f);
    double seconds = now() - start;
    good = good && out->state == PROJECT_FOUND &&
           project_check(&file.p, out->starts, NULL);
    if (fault_is_set(&f))
        printf("%s\n", f.message);
    project_file_clear(&file);
    return good ? seconds : -1;
}

static double above(int value, int least) { return 100.0 * (value - least) / least; }

/* Those that are not closed by a bound at once, once more with branch and bound. */
static bool against_optimum(void)
{
    double proven_gap = 0, known_gap = 0, longest = 0;
    size_t proven = 0, count = project_level_count(30);
    for (size_t level = 0; level < count; level++) {
        struct project_ask ask = { SCHEDULES, 1, 0 };
        struct project_answer a, b;
        double seconds = solve(30, level, &ask, &a);
        ask.steps = STEPS;
        if (seconds < 0 || solve(30, level, &ask, &b) < 0)
            return false;
        longest = fmax(longest, seconds);
        known_gap += above(a.finish, b.finish);
        proven += b.optimal;
        proven_gap += b.optimal ? above(a.finish, b.finish) : 0;
        project_answer_free(&a);
        project_answer_free(&b);
    }
    proven_gap /= proven > 0 ? (double)proven : 1;
    known_gap /= (double)count;
    printf("30 activities, %zu projects: %.3f percent above the optimum (bar: 0.5; %zu "
           "proven), %.3f above the best known\n",
           count, proven_gap, proven, known_gap);
    printf("50,000 schedules of 30 activities: %.2f s at most (bar: 2)\n", longest);
    return proven_gap <= 0.5 && known_gap <= 0.5 && longest <= 2;
}

static bool against_path(size_t activities, double bar)
{
    double path = 0, gap = 0, total = 0, longest = 0;
    size_t count = project_level_count(activities), proven = 0;
    for (size_t level = 0; level < count; level++) {
        struct project_ask ask = { SCHEDULES, 1, 0 };
        struct project_answer a;
        double seconds = solve(activities, level, &ask, &a);
        if (seconds < 0)
            return false;
        path += above(a.finish, a.bounds.path) / (double)count;
        gap += above(a.finish, a.bounds.best) / (double)count;
        proven += a.optimal;
        total += seconds;
        longest = fmax(longest, seconds);
        project_answer_free(&a);
    }
    printf("%zu activities, %zu projects: %.2f percent above the critical path",
           activities, count, path);
    if (bar > 0)
        printf(" (bar: %.0f)", bar);
    printf(", %.2f above the bound, %zu proven; %.2f s each, %.2f at most\n", gap, proven,
           total / (double)count, longest);
    return bar <= 0 || path <= bar;
}

/* With the bounds; of the hard level: complexity 1.5, factor 1, strength 0.2. */
static bool growth(void)
{
    static const size_t sizes[] = { 30, 60, 120, 240, 480 };
    enum { SIZES = sizeof sizes / sizeof *sizes };
    double sx = 0, sy = 0, sxx = 0, sxy = 0;
    for (int i = 0; i < SIZES; i++) {
        struct project_ask ask = { 20000, 1, 0 };
        struct project_answer a;
        double seconds = solve(sizes[i], sizes[i] < 100 ? 12 : 16, &ask, &a);
        if (seconds <= 0)
            return false;
        double x = log((double)sizes[i]), y = log(seconds / (double)a.schedules);
        printf("%6zu activities %8zu schedules %8.3f s\n", sizes[i], a.schedules,
               seconds);
        project_answer_free(&a);
        sx += x;
        sy += y;
        sxx += x * x;
        sxy += x * y;
    }
    printf("time of a schedule grows as activities to the power %.2f\n",
           (SIZES * sxy - sx * sy) / (SIZES * sxx - sx * sx));
    return true;
}

int main(void)
{
    bool good = against_optimum();
    good = against_path(60, 0) && good;
    good = against_path(120, 34) && good;
    good = growth() && good;
    return good ? 0 : 1;
}

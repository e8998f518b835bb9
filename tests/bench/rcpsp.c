/* rcpsp: the search (work/search.h) on files in Patterson's form (project_files.h):
 *
 *     rcpsp [--schedules N] [--seed N] [--steps N] FILE...
 *     rcpsp --draw FOLDER COUNT EACH
 *
 * For each file: what it finishes at, what it cannot finish before, the critical path,
 * by how many percent it is above that path and above the bound, the schedules built, the
 * steps of branch and bound, seconds; then the means. 50,000 schedules and no branch and
 * bound unless told. A schedule that the checker refuses is told, and fails the run.
 *
 * --draw writes EACH projects of COUNT activities for every level of network complexity
 * (1.5, 1.8, 2.1), resource factor (0.25 to 1) and resource strength (0.2, 0.5, 0.7, 1;
 * from 100 activities on 0.1 to 0.5): the levels of Kolisch, Sprecher, Drexl 1995 and of
 * Kolisch, Schwindt, Sprecher 1999 ("Benchmark instances for project scheduling
 * problems", in Weglarz, ed., Project Scheduling, Kluwer), from memory. */
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/fault.h"
#include "project_files.h"

struct sums {
    size_t files, failed, optimal, schedules, steps;
    double finish, path, above, gap, seconds;
};

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + (double)t.tv_nsec / 1e9;
}

static double percent(int value, int above)
{
    return above == 0 ? 0 : 100.0 * (value - above) / above;
}

static void add(struct sums *s, const struct project_answer *a, double seconds)
{
    s->files++;
    s->optimal += a->optimal;
    s->schedules += a->schedules;
    s->steps += a->steps;
    s->finish += a->finish;
    s->path += a->bounds.path;
    s->above += percent(a->finish, a->bounds.path);
    s->gap += percent(a->finish, a->bounds.best);
    s->seconds += seconds;
}

static bool measure(const char *path, const struct project_ask *ask, struct sums *s)
{
    struct project_file file;
    struct project_answer a;
    struct fault f;
    double start = now();
    fault_clear(&f);
    if (!project_file_read(&file, path))
        return false;
    bool good = project_solve(&file.p, ask, &a, &f);
    if (!good) {
        fprintf(stderr, "%s: %s\n", path, f.message);
    } else if (a.state != PROJECT_FOUND || !project_check(&file.p, a.starts, NULL)) {
        fprintf(stderr, "%s: no schedule that stands\n", path);
        good = false;
    } else {
        double seconds = now() - start;
        const char *name = strrchr(path, '/');
        printf("%-24s %6d %6d %6d %7.2f %7.2f %8zu %8zu %8.3f\n", name ? name + 1 : path,
               a.finish, a.bounds.best, a.bounds.path, percent(a.finish, a.bounds.path),
               percent(a.finish, a.bounds.best), a.schedules, a.steps, seconds);
        add(s, &a, seconds);
    }
    project_answer_free(&a);
    project_file_clear(&file);
    return good;
}

static int measure_all(char **paths, int count, const struct project_ask *ask)
{
    struct sums s = { 0 };
    printf("%-24s %6s %6s %6s %7s %7s %8s %8s %8s\n", "file", "finish", "bound", "path",
           "above%", "gap%", "built", "steps", "seconds");
    for (int i = 0; i < count; i++)
        s.failed += !measure(paths[i], ask, &s);
    double n = s.files > 0 ? (double)s.files : 1;
    printf("mean of %zu: finish %.3f, path %.3f, above the path %.3f percent, gap to the "
           "bound %.3f percent, proven %zu, schedules %.0f, steps %.0f, seconds %.3f\n",
           s.files, s.finish / n, s.path / n, s.above / n, s.gap / n, s.optimal,
           (double)s.schedules / n, (double)s.steps / n, s.seconds / n);
    if (s.failed > 0)
        printf("%zu failed\n", s.failed);
    return s.failed == 0 ? 0 : 1;
}

static bool draw_one(const char *folder, size_t count, size_t at, size_t level, size_t k)
{
    struct project_levels l = project_level(count, level);
    struct project_file a;
    char path[1024];
    uint64_t chance = (uint64_t)count * 1000003 + level * 1009 + k;
    if (snprintf(path, sizeof path, "%s/n%zu_%03zu.rcp", folder, count, at) >=
            (int)sizeof path ||
        !project_file_draw(&a, count, l.complexity, l.factor, l.strength, &chance)) {
        fprintf(stderr, "%s: number %zu could not be drawn\n", folder, at);
        return false;
    }
    FILE *out = fopen(path, "w");
    bool good = out != NULL;
    if (good) {
        project_file_write(&a, out);
        good = !ferror(out);
        good = fclose(out) == 0 && good;
    }
    if (!good)
        fprintf(stderr, "%s: %s\n", path, strerror(errno));
    project_file_clear(&a);
    return good;
}

static int draw_all(const char *folder, size_t count, size_t each)
{
    size_t at = 0;
    for (size_t level = 0; level < project_level_count(count); level++)
        for (size_t k = 0; k < each; k++)
            if (!draw_one(folder, count, ++at, level, k))
                return 1;
    printf("%zu projects of %zu activities in %s\n", at, count, folder);
    return 0;
}

static int usage(void)
{
    fputs("rcpsp [--schedules N] [--seed N] [--steps N] FILE...\n"
          "rcpsp --draw FOLDER COUNT EACH      (COUNT from 12 to 1,000)\n",
          stderr);
    return 2;
}

int main(int argc, char **argv)
{
    struct project_ask ask = { .schedules = 50000, .seed = 1, .steps = 0 };
    int i = 1;
    if (argc == 5 && strcmp(argv[1], "--draw") == 0) {
        size_t count = (size_t)strtoull(argv[3], NULL, 10);
        if (count < 12 || count > 1000)
            return usage();
        return draw_all(argv[2], count, (size_t)strtoull(argv[4], NULL, 10));
    }
    for (; i + 1 < argc && strncmp(argv[i], "--", 2) == 0; i += 2) {
        unsigned long long value = strtoull(argv[i + 1], NULL, 10);
        if (strcmp(argv[i], "--schedules") == 0)
            ask.schedules = (size_t)value;
        else if (strcmp(argv[i], "--seed") == 0)
            ask.seed = value;
        else if (strcmp(argv[i], "--steps") == 0)
            ask.steps = (size_t)value;
        else
            return usage();
    }
    return i < argc ? measure_all(argv + i, argc - i, &ask) : usage();
}

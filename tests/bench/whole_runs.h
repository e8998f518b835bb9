/* whole_runs.h: how long a whole run of a plan takes beside a Lua that does nothing: both as
 * processes, from start to end, the median of twenty.
 *
 *     return whole_runs(words[1], "tests/bench/plain/plan.rx", "a plan without a map", 15);
 */
#ifndef SPINNEY_BENCH_WHOLE_RUNS_H
#define SPINNEY_BENCH_WHOLE_RUNS_H

#include <fcntl.h>
#include <spawn.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { RUNS = 20 };

/* Milliseconds that the command took; -1 when it did not end with 0 or `also`. */
static double time_of(const char *program, char **words, int also)
{
    extern char **environ;
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
    posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
    struct timespec start, end;
    clock_gettime(CLOCK_MONOTONIC, &start);
    pid_t child;
    int status = -1;
    bool started = posix_spawnp(&child, program, &actions, NULL, words, environ) == 0;
    bool ended = started && waitpid(child, &status, 0) == child && WIFEXITED(status);
    clock_gettime(CLOCK_MONOTONIC, &end);
    posix_spawn_file_actions_destroy(&actions);
    if (!ended || (WEXITSTATUS(status) != 0 && WEXITSTATUS(status) != also))
        return -1;
    return (double)(end.tv_sec - start.tv_sec) * 1e3 +
           (double)(end.tv_nsec - start.tv_nsec) / 1e6;
}

static int by_size(const void *a, const void *b)
{
    const double *x = a, *y = b;
    return (*x > *y) - (*x < *y);
}

static double median(double *times)
{
    qsort(times, RUNS, sizeof times[0], by_size);
    return (times[RUNS / 2 - 1] + times[RUNS / 2]) / 2;
}

/* Prints both and their ratio; the exit status: 1 when it is more than `most`. */
static int whole_runs(char *spinney, char *plan, const char *what, double most)
{
    char lua[] = "lua5.4", option[] = "-e", nothing[] = "", verb[] = "run";
    char *bare[] = { lua, option, nothing, NULL };
    char *whole[] = { spinney, verb, plan, NULL };
    double bare_times[RUNS], whole_times[RUNS];
    /* In turn, so that a busy spell falls on both; the first is to warm up. */
    for (int i = -1; i < RUNS; i++) {
        double a = time_of(lua, bare, 0), b = time_of(spinney, whole, 1);
        if (a < 0 || b < 0) {
            fprintf(stderr, "%s did not run\n", a < 0 ? lua : plan);
            return 1;
        }
        if (i >= 0) {
            bare_times[i] = a;
            whole_times[i] = b;
        }
    }
    double a = median(bare_times), b = median(whole_times);
    printf("run of %s: %.2f ms, bare lua5.4: %.2f ms, ratio %.1f (at most %.0f)\n", what, b,
           a, b / a, most);
    return b / a <= most ? 0 : 1;
}

#endif

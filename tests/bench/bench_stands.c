/* bench_stands: many stands as a script, each asked for its headline figures, cut, and
 * asked in a rule what stands there five years later: `spinney check`, from start to end,
 * beside the same without the questions. The stands are those of forest_notes.h.
 *
 * No bar: it fails only when a script does not run. Times are those of the processor. */
#define _DEFAULT_SOURCE /* wait4 */
#include <fcntl.h>
#include <spawn.h>
#include <stdbool.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/time.h>
#include <sys/wait.h>
#include <unistd.h>

#include "forest_notes.h"

enum { STANDS = 200, RUNS = 5 };

static void write_script(FILE *out, bool asks)
{
    char notes[NOTES_ROOM];
    fputs("property \"Bench\" { walked = Oct 14 2026 }\n"
          "crew \"c\" { people = 100, hours_each = 60 h/wk, skills = { \"saw\", "
          "\"machine\" }, from = Nov 1 2026 }\nlocal all = {}\n",
          out);
    for (unsigned i = 0; i < STANDS; i++) {
        notes_write(i, notes);
        fprintf(out, "all[%u] = stand \"Stand %u\" { area = 0.5 ac, ground = \"moist\", "
                     "tree_length = 60 to 72 ft, tally = [[\n%s]] }\n"
                     "cut { stand = all[%u], species = { \"aspen\", \"maple\" }, "
                     "date = Jan 12 2027 }\n",
                i + 1, i, notes, i + 1);
    }
    if (!asks)
        return;
    fputs("for _, s in ipairs(all) do\n"
          "  local figures = { s:trees(), s:basal_area(), s:diameter(), s:stocking(),\n"
          "    s:volume \"wood\", s:volume { as = \"board feet\" }, s:tons(),\n"
          "    s:density_index(), s:crown_cover() }\n"
          "  assert(#figures == 9)\n"
          "end\n"
          "rule \"what comes\" { level = \"note\", applies_to = { \"cut\" },\n"
          "  when = function (act) act.stand:expected { year = 5 } return false end,\n"
          "  says = \"asked\", source = \"a measurement\" }\n",
          out);
}

static double seconds(struct timeval t)
{
    return (double)t.tv_sec + (double)t.tv_usec / 1e6;
}

/* Seconds that `spinney check FILE` took; -1 when it found a fault. */
static double time_of(char *spinney, char *file)
{
    extern char **environ;
    char verb[] = "check";
    char *words[] = { spinney, verb, file, NULL };
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
    posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
    pid_t child;
    int status = -1;
    struct rusage used;
    bool started = posix_spawn(&child, spinney, &actions, NULL, words, environ) == 0;
    bool ended = started && wait4(child, &status, 0, &used) == child && WIFEXITED(status);
    posix_spawn_file_actions_destroy(&actions);
    if (!ended || WEXITSTATUS(status) > 1) /* 1: the plan has a stop */
        return -1;
    return seconds(used.ru_utime) + seconds(used.ru_stime);
}

static double best_of(char *spinney, bool asks)
{
    char file[] = "/tmp/bench_stands_XXXXXX";
    int handle = mkstemp(file);
    FILE *out = handle >= 0 ? fdopen(handle, "w") : NULL;
    if (!out)
        return -1;
    write_script(out, asks);
    bool written = fclose(out) == 0;
    double best = -1;
    for (int i = 0; written && i < RUNS; i++) {
        double took = time_of(spinney, file);
        if (took < 0) {
            best = -1;
            break;
        }
        best = best < 0 || took < best ? took : best;
    }
    remove(file);
    return best;
}

int main(int count, char **words)
{
    if (count != 2) {
        fputs("usage: bench_stands PATH_OF_SPINNEY\n", stderr);
        return 64;
    }
    double bare = best_of(words[1], false), asked = best_of(words[1], true);
    if (bare < 0 || asked < 0) {
        fputs("bench_stands: the script did not run\n", stderr);
        return 1;
    }
    printf("%d stands as a script, cut and planned: %.0f a second; asked for ten figures "
           "too: %.0f a second (no bar)\n",
           STANDS, STANDS / bare, STANDS / asked);
    return 0;
}

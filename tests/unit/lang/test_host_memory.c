#include "../page/failing.h"

#include "../unit.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "base/buf.h"
#include "base/fault.h"
#include "lang/host.h"
#include "lang/settings.h"

/* A whole run in which memory ends at the n-th asking: it must say so, without a crash or
 * a leak (the sanitizers look), or give the very paper that it gives otherwise. */

static const char plan[] =
    "property \"P\" { walked = Oct 14 2026 }\n"
    "crew \"us\" { people = 2, hours_each = 10 h/wk, skills = { \"saw\" } }\n"
    "stand \"A\" { area = 4 ac, tally = [[\nbaf 10\nplot 1: bigtooth aspen 7 8\n"
    "plot 2: red oak 9\n]] }\n"
    "local fell = cut { stand = \"A\", species = \"aspen\" }\n"
    "visit { stand = \"A\", after = fell, wait = 1 yr, look_for = \"sprouts\",\n"
    "  if_below = { 5000 stems/ac, \"call back\" } }\n"
    "rule \"quiet\" { level = \"caution\", applies_to = { \"cut\" }, says = \"quiet weeks\",\n"
    "  closed = Oct 15 to Oct 31, source = \"a test\" }\n";

/* Three slips, told together (lang/syntax_more.c). */
static const char slips[] = "property \"P\" { walked = Oct 14 2026 county = \"x\" }\n"
                            "crew \"us\" { people = 2,, }\n"
                            "stand \"A\" { area = 4 ac = 3 }\n";

enum outcome { NO_HOST, TOLD, WHOLE, LOST };

struct wanted {
    char path[64], slips_path[64];
    struct buf paper;
};

static enum outcome run(const char *path, struct buf *paper)
{
    struct settings settings = settings_plain();
    struct fault f = { .id = NULL };
    struct host *host = host_new(&settings, &f);
    if (!host)
        return fault_is_set(&f) && f.message[0] ? NO_HOST : LOST;
    bool ok = host_run(host, path, HOST_WRITES) && host_report(host, "json", paper);
    enum outcome out = ok ? WHOLE : host->faults.count > 0 ? TOLD : LOST;
    struct buf problems;
    buf_init(&problems);
    host_problems(host, true, &problems);
    buf_clear(&problems);
    host_free(host);
    return out;
}

static bool put(char *path, const char *text)
{
    int file = mkstemp(path);
    FILE *to = file < 0 ? NULL : fdopen(file, "w");
    return to && fputs(text, to) >= 0 && fclose(to) == 0;
}

static int open_wanted(void **state)
{
    static struct wanted w = { .path = "/tmp/spinney-memory-XXXXXX",
                               .slips_path = "/tmp/spinney-slips-XXXXXX" };
    if (!put(w.path, plan) || !put(w.slips_path, slips))
        return -1;
    buf_init(&w.paper);
    *state = &w;
    return run(w.path, &w.paper) == WHOLE ? 0 : -1;
}

static int close_wanted(void **state)
{
    struct wanted *w = *state;
    unlink(w->path);
    unlink(w->slips_path);
    buf_clear(&w->paper);
    return 0;
}

static void memory_may_end_at_any_point(void **state)
{
    const struct wanted *w = *state;
    size_t refused = 0;
    bool seen = true;
    /* Each of the first ones, then fewer and fewer: a run asks some three thousand times. */
    for (size_t n = 0; seen; n += 1 + n / 60) {
        struct buf paper;
        buf_init(&paper);
        failing_after = n;
        failing_seen = false;
        enum outcome out = run(w->path, &paper);
        failing_after = SIZE_MAX;
        seen = failing_seen;
        bool same = !paper.failed && paper.length == w->paper.length &&
                    memcmp(paper.data, w->paper.data, paper.length) == 0;
        buf_clear(&paper);
        refused += out == NO_HOST || out == TOLD;
        if (out == LOST || (out == WHOLE && seen && !same))
            fail_msg("memory that ends at the asking number %zu is not told", n);
    }
    assert_true(refused > 60);
}

static void so_it_may_while_slips_are_looked_for(void **state)
{
    const struct wanted *w = *state;
    bool seen = true;
    for (size_t n = 0; seen; n += 1 + n / 100) {
        struct buf none;
        buf_init(&none);
        failing_after = n;
        failing_seen = false;
        enum outcome out = run(w->slips_path, &none);
        failing_after = SIZE_MAX;
        seen = failing_seen;
        buf_clear(&none);
        if (out != TOLD && !(out == NO_HOST && seen))
            fail_msg("memory that ends at the asking number %zu is not told", n);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(memory_may_end_at_any_point),
        cmocka_unit_test(so_it_may_while_slips_are_looked_for),
    };
    return cmocka_run_group_tests_name("a run when memory ends", tests, open_wanted,
                                       close_wanted);
}

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
 * a leak (the sanitizers look), or give the very paper that it gives otherwise; and of what
 * is wrong the very words. */

/* Of each room a little. */
static const char plain[] =
    "property \"P\" { walked = Oct 14 2026 }\n"
    "crew \"us\" { people = 2, hours_each = 10 h/wk, skills = { \"saw\" } }\n"
    "stand \"A\" { area = 4 ac, tally = [[\nbaf 10\nplot 1: bigtooth aspen 7 8\n"
    "plot 2: red oak 9\n]] }\n"
    "local fell = cut { stand = \"A\", species = \"aspen\" }\n"
    "visit { stand = \"A\", after = fell, wait = 1 yr, look_for = \"sprouts\",\n"
    "  if_below = { 5000 stems/ac, \"call back\" } }\n"
    "rule \"quiet\" { level = \"caution\", applies_to = { \"cut\" }, says = \"quiet weeks\",\n"
    "  closed = Oct 15 to Oct 31, source = \"a test\" }\n";

/* Dates that are not sure, with everything that can hold them back. */
static const char pressed[] =
    "property \"P\" { walked = Oct 14 2026 }\n"
    "crew \"us\" { hours_each = { 7 h/wk, { during = season \"dormant\", 8 h/wk } },\n"
    "  off = { Dec 24 to Dec 26 }, distance = 9 mi, rate = 20 USD/h, skills = { \"saw\" } }\n"
    "stand \"A\" { area = 4 ac }\n"
    "notice \"tell\" { to = \"clerk\", lead = 9 d, expires = 60 d, applies_to = \"job\" }\n"
    "local a = job \"a\" { stand = \"A\", hours = 8 to 24 h, during = Nov 2 to Nov 29 }\n"
    "local b = job \"b\" { stand = \"A\", hours = 9 to 20 h, during = Nov 2 to Dec 29,\n"
    "  only_when = \"dry\", otherwise = job \"c\" { stand = \"A\", hours = 2 h } }\n"
    "job \"d\" { stand = \"A\", hours = 3 h, after = a, wait = 1 to 5 wk, entries = 2,\n"
    "  every = 1 yr }\n"
    "visit \"v\" { stand = \"A\", after = b, look_for = \"sprouts\", if_below = {\n"
    "  5000 stems/ac, job \"e\" { stand = \"A\", hours = 4 h, after = a } } }\n"
    "done { act = a, on = Nov 5 2026, share = 25 percent, hours = 4 h }\n";

/* Slips that are told together; what a fault within a prescription came from; a script that
 * is not there, for which others are offered. */
static const char slips[] = "x = = 3\ny = 15 ft + ]\njob \"a\" { hours = 3 hh }\nend\n";
static const char within[] =
    "property \"P\" { walked = Oct 14 2026 }\nstand \"A\" { area = 4 ac }\n"
    "prescription \"own\" { title = \"own\", asks = { to = { kind = \"stand\" } },\n"
    "  steps = function (o) local x = o.to.area + 3 ft end, source = \"a test\" }\n"
    "apply \"own\" { to = \"A\" }\n";
static const char missing[] = "use \"no such script.rx\"\n";

enum outcome { NO_HOST, TOLD, WHOLE, LOST };

struct wanted {
    const char *script;
    enum outcome out;
    size_t finest; /* each asking as far as this, then fewer and fewer */
    char path[64];
    struct buf paper, problems;
};

static enum outcome run(const char *path, struct buf *paper, struct buf *problems)
{
    struct settings settings = settings_plain();
    struct fault f = { .id = NULL };
    struct host *host = host_new(&settings, &f);
    if (!host)
        return fault_is_set(&f) && f.message[0] ? NO_HOST : LOST;
    bool ok = host_run(host, path, HOST_WRITES) && host_report(host, "json", paper);
    enum outcome out = ok ? WHOLE : host->faults.count > 0 ? TOLD : LOST;
    host_problems(host, true, problems);
    host_free(host);
    return out;
}

static int open_wanted(void **state)
{
    struct wanted *w = *state;
    strcpy(w->path, "/tmp/spinney-memory-XXXXXX");
    int file = mkstemp(w->path);
    FILE *to = file < 0 ? NULL : fdopen(file, "w");
    if (!to || fputs(w->script, to) < 0 || fclose(to) != 0)
        return -1;
    buf_init(&w->paper);
    buf_init(&w->problems);
    return run(w->path, &w->paper, &w->problems) == w->out ? 0 : -1;
}

static int close_wanted(void **state)
{
    struct wanted *w = *state;
    unlink(w->path);
    buf_clear(&w->paper);
    buf_clear(&w->problems);
    return 0;
}

static bool alike(const struct buf *a, const struct buf *b)
{
    return !a->failed && a->length == b->length &&
           (a->length == 0 || memcmp(a->data, b->data, a->length) == 0);
}

static bool holds(const struct buf *text, const char *word)
{
    return memmem(text->data, text->length, word, strlen(word)) != NULL;
}

/* Did the run tell that memory ended, or come to what it comes to otherwise? What is wrong
 * may be told in fewer words, never in none. */
static bool is_told(const struct wanted *w, enum outcome out, const struct buf *paper,
                    const struct buf *problems)
{
    if (out == LOST || (out == WHOLE && w->out != WHOLE))
        return false;
    if (out == WHOLE)
        return alike(paper, &w->paper);
    if (out == NO_HOST || problems->failed)
        return true;
    return problems->length > 0 && (w->out == TOLD || holds(problems, "memory"));
}

static void memory_may_end_at_any_point(void **state)
{
    const struct wanted *w = *state;
    size_t refused = 0;
    bool seen = true;
    for (size_t n = 0; seen; n += 1 + n / w->finest) {
        struct buf paper, problems;
        buf_init(&paper);
        buf_init(&problems);
        failing_after = n;
        failing_seen = false;
        enum outcome out = run(w->path, &paper, &problems);
        failing_after = SIZE_MAX;
        seen = failing_seen;
        bool told = is_told(w, out, &paper, &problems);
        refused += out == NO_HOST || out == TOLD;
        buf_clear(&paper);
        buf_clear(&problems);
        if (seen && !told)
            fail_msg("memory that ends at the asking number %zu is not told", n);
    }
    assert_true(refused > 60);
}

#define RUN_OF(what, comes_to, each)                                                  \
    {                                                                                 \
        .name = "memory_may_end_in_" #what, .test_func = memory_may_end_at_any_point, \
        .setup_func = open_wanted, .teardown_func = close_wanted,                     \
        .initial_state =                                                              \
            &(struct wanted){ .script = what, .out = comes_to, .finest = each }       \
    }

int main(void)
{
    const struct CMUnitTest tests[] = {
        RUN_OF(plain, WHOLE, 60),  RUN_OF(pressed, WHOLE, 100), RUN_OF(slips, TOLD, 60),
        RUN_OF(within, TOLD, 60), RUN_OF(missing, TOLD, 60),
    };
    return cmocka_run_group_tests_name("a run when memory ends", tests, NULL, NULL);
}

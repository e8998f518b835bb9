/* The command line: reads the verb, hands on. Exit status: 0 fine, 1 the plan has a stop,
 * 2 a script or its input is wrong, 64 the command line is wrong (sysexits' EX_USAGE). */
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/pages.h"
#include "base/suggest.h"
#include "base/utf8.h"
#include "forest/limit.h"
#include "lang/command.h"
#include "lang/host.h"
#include "lang/papers.h"
#include "lang/settings.h"
#include "lang/watchdog.h"

enum { EXIT_FINE = 0, EXIT_STOP = 1, EXIT_SCRIPT = 2, EXIT_LINE = 64 };

static const char VERSION[] = "spinney 0.1.0\n";

static const char USAGE[] =
    "usage: spinney run PLAN.rx [--json | -o DIR] [--set NAME=VALUE]... [--pack DIR]...\n"
    "       spinney check FILE.rx...\n"
    "       spinney why PLAN.rx NAME        where a number comes from\n"
    "       spinney why [PLAN.rx] QUESTION  what a line of a script would give, and why\n"
    "       spinney why rule NAME [PLAN.rx] which layer's rule holds; so of a season,\n"
    "                                       condition, notice, rate, price\n"
    "       spinney map FILE...             what is in a map, and how a script names it\n"
    "       spinney limit BAF [DIAMETER] [SLOPE]  how far a tree may stand and be in\n"
    "       spinney help [WORD]\n"
    "       spinney --version\n"
    "\n"
    "  --json            the whole plan as JSON on standard output\n"
    "  -o DIR            writes the plan, its data, weeks, calendar and flags to files\n"
    "  --set NAME=VALUE  sets an input that the plan declares\n"
    "  --pack DIR        a folder of your own rates, rules and prescriptions;\n"
    "                    SPINNEY_PATH (folders with : between) comes before\n"
    "  --ids             shows the id of each message\n"
    "  --trace           shows Lua's own traceback too\n"
    "  --steps N         most millions of steps a script may take\n"
    "  --memory N        most megabytes it may use\n"
    "  --                what follows is no option\n";

/* Tells what is wrong with the command line. */
static int tell(const struct fault *f)
{
    struct buf text;
    buf_init(&text);
    buf_puts(&text, "spinney: ");
    utf8_put_plain(&text, f->message, strlen(f->message)); /* holds what was typed */
    buf_puts(&text, "\n    try: ");
    buf_puts(&text, f->hint[0] ? f->hint : "`spinney --help` shows how it is used");
    buf_putc(&text, '\n');
    fwrite(text.data, 1, text.length, stderr);
    buf_clear(&text);
    return EXIT_LINE;
}

static int wrong(const char *message)
{
    struct fault f = { 0 };
    fault_set(&f, "line", SPAN_NONE, "%s", message);
    return tell(&f);
}

/* ---- verbs ---- */

/* Prints a text and tells a failed or full output. */
static bool put(FILE *to, const char *text, size_t length)
{
    if (fwrite(text, 1, length, to) == length && fflush(to) == 0)
        return true;
    if (to != stderr)
        fputs("spinney: the output could not be written\n", stderr);
    return false;
}

static bool put_text(FILE *to, const struct buf *text)
{
    if (!text->failed)
        return put(to, text->data, text->length);
    fputs("spinney: out of memory\n", stderr);
    return false;
}

/* What was wrong goes to standard error first, then the paper, unless it is in doubt. */
static bool put_all(const struct host *host, bool findings, bool ok,
                    const struct buf *out)
{
    struct buf problems;
    buf_init(&problems);
    host_problems(host, findings, &problems);
    bool written = put_text(stderr, &problems);
    buf_clear(&problems);
    return written && ok && put_text(stdout, out);
}

static void show_fault(const struct fault *f)
{
    struct buf text;
    buf_init(&text);
    fault_show(NULL, f, "error", &text);
    put_text(stderr, &text);
    buf_clear(&text);
}

static struct host *open_host(const struct command *c)
{
    struct fault f = { 0 };
    struct host *host = host_new(&c->settings, &f);
    if (!host)
        show_fault(&f);
    return host;
}

/* The memory of the last run goes back with the process: piece by piece it would take a
 * twentieth of the time. Not so where a leak is looked for. */
static void close_host(struct host *host, bool last)
{
#ifndef __SANITIZE_ADDRESS__
    if (last)
        return;
#endif
    (void)last;
    host_free(host);
}

/* "plan", "json": the paper wanted. */
static int run(const struct command *c, const char *path, const char *paper)
{
    struct host *host = open_host(c);
    if (!host)
        return EXIT_SCRIPT;
    struct buf out;
    buf_init(&out);
    bool ok = host_run(host, path, HOST_WRITES) && host_report(host, paper, &out);
    bool written = put_all(host, false, ok, &out);
    int status = !written ? EXIT_SCRIPT : host_has_stop(host) ? EXIT_STOP : EXIT_FINE;
    buf_clear(&out);
    close_host(host, true);
    return status;
}

/* All texts are made before the first file is written; printed is a line a file. */
static bool write_papers(const struct papers *papers, const char *folder)
{
    struct fault f = { 0 };
    struct buf told, old;
    buf_init(&told);
    buf_init(&old);
    bool good = papers_write(papers, folder, &told, &old, &f);
    if (!good)
        show_fault(&f);
    else
        good = put_text(stderr, &old) && put_text(stdout, &told);
    buf_clear(&told);
    buf_clear(&old);
    return good;
}

static int run_into(const struct command *c, const char *path)
{
    struct host *host = open_host(c);
    if (!host)
        return EXIT_SCRIPT;
    struct papers papers = { NULL, 0, 0 };
    struct buf none;
    buf_init(&none);
    bool ok = host_run(host, path, HOST_WRITES) && papers_make(host, &papers);
    bool good = put_all(host, false, ok, &none) && write_papers(&papers, c->into);
    int status = !good ? EXIT_SCRIPT : host_has_stop(host) ? EXIT_STOP : EXIT_FINE;
    papers_clear(&papers);
    close_host(host, true);
    return status;
}

static int check_one(const struct command *c, const char *path, bool last)
{
    struct host *host = open_host(c);
    if (!host)
        return EXIT_SCRIPT;
    struct buf none;
    buf_init(&none);
    bool ok = host_run(host, path, HOST_CHECKS);
    bool written = put_all(host, ok, ok, &none);
    int status = !written ? EXIT_SCRIPT : host_has_stop(host) ? EXIT_STOP : EXIT_FINE;
    close_host(host, last);
    return status;
}

static int check(const struct command *c)
{
    if (c->count < 2)
        return wrong("check wants the scripts to check");
    int worst = EXIT_FINE;
    for (size_t i = 1; i < c->count; i++) {
        int status = check_one(c, c->words[i], i + 1 == c->count);
        worst = status > worst ? status : worst;
    }
    return worst;
}

/* `why` and `help`: a question, after the plan where there is one. */
static int answer(const struct command *c, const char *path,
                  bool (*ask)(struct host *, const char *, struct buf *),
                  const char *name)
{
    struct host *host = open_host(c);
    if (!host)
        return EXIT_SCRIPT;
    struct buf out;
    buf_init(&out);
    bool ok = (!path || host_run(host, path, HOST_ASKS)) && ask(host, name, &out);
    bool written = put_all(host, false, ok, &out);
    buf_clear(&out);
    close_host(host, true);
    return written ? EXIT_FINE : EXIT_SCRIPT;
}

static bool why_quantity(struct host *host, const char *name, struct buf *out)
{
    return host_why(host, name, NULL, out);
}

static bool why_rule(struct host *host, const char *name, struct buf *out)
{
    return host_why(host, name, "rule", out);
}

static bool why_season(struct host *host, const char *name, struct buf *out)
{
    return host_why(host, name, "season", out);
}

static bool why_condition(struct host *host, const char *name, struct buf *out)
{
    return host_why(host, name, "condition", out);
}

static bool why_notice(struct host *host, const char *name, struct buf *out)
{
    return host_why(host, name, "notice", out);
}

static bool why_rate(struct host *host, const char *name, struct buf *out)
{
    return host_why(host, name, "rate", out);
}

static bool why_price(struct host *host, const char *name, struct buf *out)
{
    return host_why(host, name, "price", out);
}

/* What has layers, by the word for it: a plan of that name wants "./" before it. */
static const struct layered {
    const char *word;
    bool (*ask)(struct host *host, const char *name, struct buf *out);
} LAYERED[] = {
    { "rule", why_rule },     { "season", why_season }, { "condition", why_condition },
    { "notice", why_notice }, { "rate", why_rate },     { "price", why_price },
};

static const struct layered *layered_of(const char *word)
{
    for (size_t i = 0; i < sizeof LAYERED / sizeof *LAYERED; i++)
        if (strcmp(LAYERED[i].word, word) == 0)
            return &LAYERED[i];
    return NULL;
}

static int why(const struct command *c)
{
    const char **w = c->words;
    const struct layered *layered = c->count >= 2 ? layered_of(w[1]) : NULL;
    if (layered) {
        if (c->count < 3 || c->count > 4)
            return wrong(
                "why rule, season, condition, notice, rate and price want a name, "
                "and perhaps a plan");
        return answer(c, c->count == 4 ? w[3] : NULL, layered->ask, w[2]);
    }
    if (c->count == 2 && strpbrk(w[1], "({:"))
        return answer(c, NULL, why_quantity, w[1]);
    if (c->count != 3)
        return wrong("why wants a plan and a name");
    return answer(c, w[1], why_quantity, w[2]);
}

static int help(const struct command *c)
{
    if (c->count > 2)
        return wrong("help wants one word; a name of several in quotes");
    return answer(c, NULL, host_help, c->count == 2 ? c->words[1] : NULL);
}

/* What could be told is told beside what is broken. */
static int map_one(const struct command *c, const char *path, bool first, bool last)
{
    struct host *host = open_host(c);
    if (!host)
        return EXIT_SCRIPT;
    struct buf out;
    buf_init(&out);
    if (!first)
        buf_putc(&out, '\n');
    size_t before = out.length;
    bool ok = host_map(host, path, &out);
    bool written = put_all(host, false, out.length > before, &out);
    buf_clear(&out);
    close_host(host, last);
    return ok && written ? EXIT_FINE : EXIT_SCRIPT;
}

static int map(const struct command *c)
{
    if (c->count < 2)
        return wrong("map wants the files to look into");
    int worst = EXIT_FINE;
    for (size_t i = 1; i < c->count; i++) {
        int status = map_one(c, c->words[i], i == 1, i + 1 == c->count);
        worst = status > worst ? status : worst;
    }
    return worst;
}

/* A tree at the edge of a prism's reach: needs no script. */
static int limit(const struct command *c)
{
    struct fault f = { 0 };
    struct limit ask;
    if (!limit_read(c->words + 1, c->count - 1, &ask, &f))
        return tell(&f);
    struct buf out;
    buf_init(&out);
    limit_say(&ask, &out);
    bool written = put_text(stdout, &out);
    buf_clear(&out);
    return written ? EXIT_FINE : EXIT_SCRIPT;
}

static const struct {
    const char *name;
    enum verb verb;
} verbs[] = { { "run", VERB_RUN },   { "check", VERB_CHECK }, { "why", VERB_WHY },
              { "help", VERB_HELP }, { "map", VERB_MAP },     { "limit", VERB_LIMIT } };
enum { VERBS = sizeof verbs / sizeof verbs[0] };

static int no_verb(const char *word)
{
    struct fault f = { 0 };
    struct suggest near = suggest_for(word, strlen(word));
    for (int i = 0; i < VERBS; i++)
        suggest_offer(&near, verbs[i].name);
    size_t length = strlen(word);
    bool script = length > 3 && strcmp(word + length - 3, ".rx") == 0;
    fault_set(&f, "line", SPAN_NONE, "there is no verb `%s`", word);
    if (near.best)
        fault_hint(&f, "did you mean `spinney %s`?", near.best);
    else if (script)
        fault_hint(&f, "`spinney run %.200s` prints the plan", word);
    return tell(&f);
}

static int obey(const struct command *c)
{
    const char *word = c->words[0];
    bool version = strcmp(word, "--version") == 0;
    if (version || strcmp(word, "--help") == 0) {
        const char *text = version ? VERSION : USAGE;
        if (c->count > 1)
            return wrong(version ? "--version stands alone" : "--help stands alone");
        return put(stdout, text, strlen(text)) ? EXIT_FINE : EXIT_SCRIPT;
    }
    enum verb verb = 0;
    for (int i = 0; i < VERBS; i++)
        if (strcmp(word, verbs[i].name) == 0)
            verb = verbs[i].verb;
    struct fault f = { 0 };
    if (verb && !command_fits(c, verb, &f))
        return tell(&f);
    switch (verb) {
    case VERB_RUN:
        if (c->count != 2)
            return wrong("run wants one plan");
        if (c->into)
            return run_into(c, c->words[1]);
        return run(c, c->words[1], c->json ? "json" : "plan");
    case VERB_CHECK: return check(c);
    case VERB_WHY: return why(c);
    case VERB_HELP: return help(c);
    case VERB_MAP: return map(c);
    case VERB_LIMIT: return limit(c);
    }
    return no_verb(word);
}

enum { SECONDS_MOST = 90 }; /* of processor time */

int main(int count, char **words)
{
    pages_heap();
    struct command c = { .settings = settings_plain() };
    struct fault f = { 0 };
    int status = EXIT_LINE;
    const char *typed = getenv("SPINNEY_PATH");
    char *path = typed ? strdup(typed) : NULL;
    c.words = calloc((size_t)count + 1, sizeof *c.words);
    watchdog_start(SECONDS_MOST, EXIT_SCRIPT);
    signal(SIGXFSZ, SIG_IGN); /* a file that may not grow is told as a full disk is */
    c.settings.colour =
        isatty(STDOUT_FILENO) && !(getenv("NO_COLOR") && *getenv("NO_COLOR"));
    if (!c.words || (typed && !path)) {
        fputs("spinney: out of memory\n", stderr);
        status = EXIT_SCRIPT;
    } else if (!command_path(&c.settings, path)) {
        status = wrong("SPINNEY_PATH names too many folders");
    } else if (!command_read(count, words, &c, &f)) {
        status = tell(&f);
    } else if (c.count == 0) {
        put(stderr, USAGE, strlen(USAGE));
    } else {
        c.settings.colour = c.settings.colour && !c.into; /* files hold words alone */
        status = obey(&c);
    }
    free(c.words);
    free(path);
    return status;
}

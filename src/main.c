/* The command line: reads the verb, hands on. Exit status: 0 fine, 1 the plan has a stop,
 * 2 a script or its input is wrong, 64 the command line is wrong (sysexits' EX_USAGE). */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/num.h"
#include "base/suggest.h"
#include "lang/host.h"
#include "lang/limits.h"
#include "lang/settings.h"

enum { EXIT_FINE = 0, EXIT_STOP = 1, EXIT_SCRIPT = 2, EXIT_LINE = 64 };

static const char VERSION[] = "spinney 0.1.0\n";

static const char USAGE[] =
    "usage: spinney run PLAN.rx [--json] [--set NAME=VALUE]... [--pack DIR]...\n"
    "       spinney check FILE.rx...\n"
    "       spinney why PLAN.rx NAME       where a number comes from\n"
    "       spinney why rule NAME [PLAN.rx] which layer's rule holds\n"
    "       spinney help [WORD]\n"
    "       spinney --version\n"
    "\n"
    "  --json            the whole plan as JSON on standard output\n"
    "  --set NAME=VALUE  sets an input that the plan declares\n"
    "  --pack DIR        a folder of your own rates, rules and prescriptions;\n"
    "                    SPINNEY_PATH (folders with : between) comes before\n"
    "  --ids             shows the id of each message\n"
    "  --trace           shows Lua's own traceback too\n"
    "  --steps N         most millions of steps a script may take\n"
    "  --memory N        most megabytes it may use\n";

struct command {
    struct settings settings;
    bool json;
    const char *words[64]; /* verb and what follows, without options */
    size_t count;
};

static int usage(const char *problem, const char *word)
{
    if (problem)
        fprintf(stderr, "spinney: %s%s\n", problem, word ? word : "");
    fputs(USAGE, stderr);
    return EXIT_LINE;
}

/* SPINNEY_PATH: folders with colons between, before those of --pack. The text is cut in
 * place and lives as long as the run. */
static bool add_path(struct settings *s, char *path)
{
    for (char *part = path; part && *part;) {
        char *colon = strchr(part, ':');
        if (colon)
            *colon = '\0';
        if (*part) {
            if (s->pack_count == SETTINGS_PACKS)
                return false;
            s->packs[s->pack_count++] = part;
        }
        part = colon ? colon + 1 : NULL;
    }
    return true;
}

static bool positive(const char *text, double *out)
{
    size_t length = strlen(text);
    return length > 0 && num_read(text, length, out) == length && *out > 0;
}

/* Options may stand anywhere. Returns false after it has told what is wrong. */
static bool read_line(int count, char **words, struct command *c)
{
    struct settings *s = &c->settings;
    for (int i = 1; i < count; i++) {
        const char *word = words[i];
        bool more = i + 1 < count;
        if (strcmp(word, "--json") == 0)
            c->json = true;
        else if (strcmp(word, "--trace") == 0)
            s->trace = true;
        else if (strcmp(word, "--ids") == 0)
            s->ids = true;
        else if (strcmp(word, "--set") == 0 && more && s->input_count < SETTINGS_INPUTS) {
            if (strcspn(words[i + 1], "=") == 0 || !strchr(words[i + 1], '=')) {
                usage("--set wants NAME=VALUE, not ", words[i + 1]);
                return false;
            }
            s->inputs[s->input_count++] = words[++i];
        } else if (strcmp(word, "--pack") == 0 && more && s->pack_count < SETTINGS_PACKS)
            s->packs[s->pack_count++] = words[++i];
        else if (strcmp(word, "--steps") == 0 && more &&
                 positive(words[i + 1], &s->steps))
            i++;
        else if (strcmp(word, "--memory") == 0 && more &&
                 positive(words[i + 1], &s->memory))
            i++;
        else if (word[0] == '-' && word[1] != '\0' && strcmp(word, "--version") != 0 &&
                 strcmp(word, "--help") != 0) {
            usage("cannot use here the option ", word);
            return false;
        } else if (c->count < sizeof c->words / sizeof c->words[0]) {
            c->words[c->count++] = word;
        } else {
            usage("too many words, from this on: ", word);
            return false;
        }
    }
    return true;
}

/* Prints a text and tells a failed or full output. */
static bool put(FILE *to, const struct buf *text)
{
    if (text->failed) {
        fputs("spinney: out of memory\n", stderr);
        return false;
    }
    if (fwrite(text->data, 1, text->length, to) == text->length && fflush(to) == 0)
        return true;
    if (to != stderr)
        fputs("spinney: the output could not be written\n", stderr);
    return false;
}

enum paper { PAPER_PLAN, PAPER_JSON, PAPER_FINDINGS, PAPER_NOTHING };

/* Evaluates one script; what was wrong goes to stderr, the paper to stdout. */
static int run(const struct command *c, const char *path, enum paper paper,
               const char *why, bool why_rule)
{
    struct buf out, problems;
    buf_init(&out);
    buf_init(&problems);
    int status = EXIT_SCRIPT;
    struct fault f = { 0 };
    struct host *host = host_new(&c->settings, &f);
    if (!host) {
        fprintf(stderr, "spinney: %s\n", f.message);
        goto done;
    }
    bool ok = path ? host_run(host, path, paper == PAPER_FINDINGS) : true;
    if (ok && why)
        ok = host_why(host, why, why_rule, &out);
    else if (ok && paper == PAPER_PLAN)
        ok = host_report(host, "plan", &out);
    else if (ok && paper == PAPER_JSON)
        ok = host_report(host, "json", &out);
    if (ok && path)
        status = host_has_stop(host) ? EXIT_STOP : EXIT_FINE;
    else if (ok)
        status = EXIT_FINE;
    if (why && ok)
        status = EXIT_FINE;
    host_problems(host, paper == PAPER_FINDINGS && ok, &problems);
    if (!put(stderr, &problems))
        status = EXIT_SCRIPT;
    if (ok && !put(stdout, &out))
        status = EXIT_SCRIPT;
done:
    host_free(host);
    buf_clear(&problems);
    buf_clear(&out);
    return status;
}

static int check(const struct command *c)
{
    if (c->count < 2)
        return usage("check wants the scripts to check", NULL);
    int worst = EXIT_FINE;
    for (size_t i = 1; i < c->count; i++) {
        int status = run(c, c->words[i], PAPER_FINDINGS, NULL, false);
        if (status > worst)
            worst = status;
    }
    return worst;
}

static int why(const struct command *c)
{
    if (c->count >= 3 && strcmp(c->words[1], "rule") == 0) {
        if (c->count > 4)
            return usage("why rule wants a name, and perhaps a plan", NULL);
        return run(c, c->count == 4 ? c->words[3] : NULL, PAPER_NOTHING, c->words[2],
                   true);
    }
    if (c->count != 3)
        return usage("why wants a plan and a name", NULL);
    return run(c, c->words[1], PAPER_NOTHING, c->words[2], false);
}

static int help(const struct command *c)
{
    if (c->count > 2)
        return usage("help wants one word; a name of several in quotes", NULL);
    struct buf out, problems;
    buf_init(&out);
    buf_init(&problems);
    struct fault f = { 0 };
    struct host *host = host_new(&c->settings, &f);
    bool ok = host && host_help(host, c->count > 1 ? c->words[1] : NULL, &out);
    if (!host)
        fprintf(stderr, "spinney: %s\n", f.message);
    if (host)
        host_problems(host, false, &problems);
    bool written = put(stderr, &problems) && (!ok || put(stdout, &out));
    host_free(host);
    buf_clear(&problems);
    buf_clear(&out);
    return ok && written ? EXIT_FINE : EXIT_SCRIPT;
}

int main(int count, char **words)
{
    struct command c = { .settings = settings_plain() };
    char *path = NULL;
    if (getenv("SPINNEY_PATH")) {
        path = strdup(getenv("SPINNEY_PATH"));
        if (!path || !add_path(&c.settings, path)) {
            fputs("spinney: SPINNEY_PATH names too many folders\n", stderr);
            free(path);
            return EXIT_LINE;
        }
    }
    /* The last line, whatever hangs: the limits of scripts end far sooner. */
    limits_process(300);
    c.settings.colour =
        isatty(STDOUT_FILENO) && !(getenv("NO_COLOR") && *getenv("NO_COLOR"));
    int status = EXIT_LINE;
    if (!read_line(count, words, &c))
        goto done;
    if (c.count == 0) {
        status = usage(NULL, NULL);
        goto done;
    }
    const char *verb = c.words[0];
    if (strcmp(verb, "--version") == 0)
        status = fputs(VERSION, stdout) < 0 ? 2 : EXIT_FINE;
    else if (strcmp(verb, "--help") == 0)
        status = fputs(USAGE, stdout) < 0 ? 2 : EXIT_FINE;
    else if (strcmp(verb, "help") == 0)
        status = help(&c);
    else if (strcmp(verb, "check") == 0)
        status = check(&c);
    else if (strcmp(verb, "why") == 0)
        status = why(&c);
    else if (strcmp(verb, "run") == 0 && c.count == 2)
        status = run(&c, c.words[1], c.json ? PAPER_JSON : PAPER_PLAN, NULL, false);
    else if (strcmp(verb, "run") == 0)
        status = usage("run wants one plan", NULL);
    else {
        static const char *const verbs[] = { "run", "check", "why", "help" };
        struct suggest near = suggest_for(verb, strlen(verb));
        for (size_t i = 0; i < 4; i++)
            suggest_offer(&near, verbs[i]);
        fprintf(stderr, "spinney: there is no verb %s%s%s\n", verb,
                near.best ? "; did you mean " : "", near.best ? near.best : "");
        status = usage(NULL, NULL);
    }
done:
    free(path);
    return status;
}

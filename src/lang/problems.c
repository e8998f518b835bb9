/* What a run tells about itself on standard error (host_problems of host.h). */
#include <string.h>

#include "base/buf.h"
#include "base/utf8.h"
#include "lang/host.h"
#include "lang/raise.h"
#include "lang/settings.h"
#include "plan/plan.h"

/* "error[key-unknown]" with --ids, "error" without. */
static void show(const struct host *host, const struct fault *f, const char *level,
                 struct buf *out)
{
    if (!host->settings->ids) {
        fault_show(host->sources, f, level, out);
        return;
    }
    char word[96] = "";
    size_t a = strlen(level), b = strlen(f->id);
    if (a + b + 3 < sizeof word) {
        memcpy(word, level, a);
        word[a] = '[';
        memcpy(word + a + 1, f->id, b);
        memcpy(word + a + 1 + b, "]", 2);
    }
    fault_show(host->sources, f, word, out);
}

/* A name that is not known is warned of, and may then be the error itself. */
static bool is_told(const struct faults *all, const struct fault *f)
{
    for (size_t i = 0; i < all->count; i++) {
        const struct span at = all->list[i].at, other = all->list[i].other;
        if (at.source == f->at.source && (at.at == f->at.at || other.at == f->at.at))
            return true;
    }
    return false;
}

static void show_all(const struct host *host, const struct faults *all, const char *level,
                     struct buf *out)
{
    for (size_t i = 0; i < all->count; i++)
        show(host, &all->list[i], level, out);
    if (all->more > 0)
        buf_printf(out, "spinney: and %zu more %s%s\n", all->more, level,
                   all->more == 1 ? "" : "s");
}

static void show_warnings(const struct host *host, struct buf *out)
{
    struct faults left = { .count = 0, .more = host->warnings.more };
    for (size_t i = 0; i < host->warnings.count; i++)
        if (!is_told(&host->faults, &host->warnings.list[i]))
            left.list[left.count++] = host->warnings.list[i];
    show_all(host, &left, "warning", out);
}

static void put_plain(struct buf *out, const char *text)
{
    utf8_put_plain(out, text, strlen(text));
}

static void show_findings(const struct host *host, struct buf *out)
{
    const struct plan *plan = host->plan;
    for (size_t i = 0; i < plan->finding_count; i++) {
        const struct finding *finding = &plan->findings[i];
        struct span at = SPAN_NONE;
        if (finding->act != PLAN_NONE)
            at = plan->acts[finding->act].at;
        else if (finding->stand != PLAN_NONE)
            at = plan->stands[finding->stand].at;
        struct place p = source_place(host->sources, at);
        if (at.source != 0) {
            put_plain(out, p.file);
            buf_printf(out, ":%u:%u: ", (unsigned)p.line, (unsigned)p.column);
        }
        buf_puts(out, finding_level_word(finding->level));
        if (host->settings->ids) {
            buf_putc(out, '[');
            put_plain(out, finding->rule);
            buf_putc(out, ']');
        }
        buf_puts(out, ": ");
        put_plain(out, finding->message);
        buf_putc(out, '\n');
    }
}

/* Of what steers a terminal only line ends and tabs stay: `print` itself puts those in. */
static void show_printed(const struct buf *printed, struct buf *out)
{
    size_t from = 0;
    for (size_t at = 0; at <= printed->length; at++) {
        char c = at < printed->length ? printed->data[at] : '\n';
        if (c != '\n' && c != '\t')
            continue;
        utf8_put_plain(out, printed->data + from, at - from);
        if (at < printed->length)
            buf_putc(out, c);
        from = at + 1;
    }
}

void host_problems(const struct host *host, bool findings, struct buf *out)
{
    show_printed(host->printed, out);
    show_warnings(host, out);
    show_all(host, &host->faults, "error", out);
    if (host->trace && host->faults.count > 0) {
        const char *trace = host_last_trace(host->L);
        buf_puts(out, trace);
        if (*trace)
            buf_putc(out, '\n');
    }
    if (findings)
        show_findings(host, out);
}

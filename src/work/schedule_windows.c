/* Which windows never meet: the fewest of a group's windows, limits, ground conditions
 * and yearly notices that together leave no day open. */
#include "work/schedule_parts.h"

#include <stdlib.h>

#include "base/buf.h"
#include "base/fault.h"

enum kind { WINDOW, LIMIT, CONDITION, NOTICE };

struct item {
    enum kind kind;
    const struct schedule_job *job;
    size_t index;
    struct dayset days; /* what it leaves open */
    bool spare;         /* without it there is still no day */
};

static bool item_add(struct solver *s, struct item *items, size_t *count, enum kind kind,
                     const struct schedule_job *j, size_t index)
{
    struct item *item = &items[*count];
    *item = (struct item){ .kind = kind, .job = j, .index = index };
    if (!dayset_init(&item->days, s->base, s->days, s->f))
        return false;
    ++*count;
    /* A job with nothing but this one thing to ask for. */
    struct schedule_job only = { .open = yearly_all() };
    switch (kind) {
    case WINDOW:
        only.open = j->open;
        only.openings = j->openings;
        only.opening_count = j->opening_count;
        break;
    case LIMIT:
        only.limits = &j->limits[index];
        only.limit_count = 1;
        break;
    case CONDITION:
        only.has_condition = true;
        only.condition = j->condition;
        break;
    case NOTICE: break;
    }
    job_open_days(s, &only, &item->days, &s->shared);
    if (kind == NOTICE)
        notice_close_days(s, &j->notices[index], &item->days);
    return true;
}

static bool items_make(struct solver *s, const struct group *g, struct item *items,
                       size_t *count)
{
    bool fine = true;
    for (size_t job = g->first; fine && job != SCHEDULE_NONE; job = s->next[job]) {
        const struct schedule_job *j = &s->task->jobs[job];
        fine = item_add(s, items, count, WINDOW, j, 0);
        for (size_t i = 0; fine && i < j->limit_count; i++)
            fine = item_add(s, items, count, LIMIT, j, i);
        if (fine && j->has_condition)
            fine = item_add(s, items, count, CONDITION, j, 0);
        for (size_t i = 0; fine && i < j->notice_count; i++)
            fine = item_add(s, items, count, NOTICE, j, i);
    }
    return fine;
}

/* Marks as spare, one after another, what is not needed to leave no day. */
static void items_thin(struct solver *s, struct item *items, size_t count)
{
    for (size_t out = count; out-- > 0;) {
        items[out].spare = true;
        dayset_empty(&s->scratch);
        dayset_add(&s->scratch, solver_date(s, s->begin), solver_date(s, s->days - 1));
        for (size_t i = 0; i < count; i++)
            if (!items[i].spare)
                dayset_and(&s->scratch, &items[i].days);
        items[out].spare = dayset_next(&s->scratch, s->begin) >= s->days;
    }
}

static void opening_words(struct schedule_span days, struct buf *out)
{
    date_print(days.from, DATE_PAPER, out);
    if (days.from.day == days.to.day)
        return;
    buf_puts(out, " to ");
    date_print(days.to, DATE_PAPER, out);
}

void window_words(const struct schedule_job *j, struct buf *out)
{
    if (j->open_words)
        buf_printf(out, "its window, %s (", j->open_words);
    else
        buf_puts(out, "its window (");
    struct yearly none = yearly_none();
    if (j->opening_count == 0 || !yearly_equal(j->open, none))
        yearly_print(j->open, out);
    for (size_t i = 0; i < j->opening_count; i++) {
        if (i > 0 || !yearly_equal(j->open, none))
            buf_puts(out, ", ");
        opening_words(j->openings[i], out);
    }
    buf_putc(out, ')');
}

void condition_words(const struct schedule_condition *c, struct buf *out)
{
    buf_printf(out, "%s (", c->words);
    yearly_print(condition_months(c), out);
    buf_putc(out, ')');
}

void notice_words(const struct schedule_notice *n, struct buf *out)
{
    const char *days = n->lead == 1 ? "day" : "days";
    if (n->expires_after > 0 && n->expires_after < n->lead)
        buf_printf(out, "%s (expires %d days after filing, and is filed %d %s ahead)",
                   n->words, n->expires_after, n->lead, days);
    else
        buf_printf(out, "%s (%s%d %s ahead)", n->words,
                   n->expires_with_year ? "filed anew each year, " : "", n->lead, days);
}

static void item_words(const struct solver *s, const struct item *item, struct buf *out)
{
    const struct schedule_job *j = item->job;
    switch (item->kind) {
    case WINDOW: window_words(j, out); break;
    case LIMIT: buf_puts(out, j->limits[item->index].words); break;
    case CONDITION: condition_words(&s->task->conditions[j->condition], out); break;
    case NOTICE: notice_words(&j->notices[item->index], out); break;
    }
}

bool reason_windows_words(struct solver *s, const struct group *g, struct buf *out)
{
    size_t room = 0, count = 0;
    for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job])
        room += 2 + s->task->jobs[job].limit_count + s->task->jobs[job].notice_count;
    struct item *items = calloc(room, sizeof *items);
    bool fine = items ? items_make(s, g, items, &count) : fault_no_memory(s->f);
    if (fine) {
        items_thin(s, items, count);
        size_t left = 0, told = 0;
        bool several = s->next[g->first] != SCHEDULE_NONE;
        for (size_t i = 0; i < count; i++)
            left += !items[i].spare;
        for (size_t i = 0; i < count; i++) {
            if (items[i].spare)
                continue;
            if (told > 0)
                buf_puts(out, told + 1 == left ? " and " : "; ");
            if (several)
                buf_printf(out, "`%s`: ", items[i].job->name);
            item_words(s, &items[i], out);
            told++;
        }
        buf_puts(out, left > 1 ? " leave no day between them" : " leaves no day");
    }
    for (size_t i = 0; i < count; i++)
        dayset_clear(&items[i].days);
    free(items);
    return fine;
}

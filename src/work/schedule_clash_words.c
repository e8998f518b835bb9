#include "base/buf.h"
#include "work/schedule_clash.h"

static void crews_words(const struct solver *s, struct buf *out)
{
    buf_puts(out, s->able_count == 1 ? "crew " : "crews ");
    for (size_t i = 0; i < s->able_count; i++) {
        if (i > 0)
            buf_puts(out, i + 1 == s->able_count ? " and " : ", ");
        buf_puts(out, s->task->crews[s->able[i]].name);
    }
}

static void after_words(const struct solver *s, const struct point *p, struct buf *out)
{
    struct schedule_after after;
    job_after(s->task, p->job, p->index, &after);
    if (p->kind == POINT_WITHIN) {
        buf_puts(out, "within ");
        span_words(after.most, out);
        buf_putc(out, ' ');
    }
    buf_printf(out, "after `%s` (done ", s->task->jobs[after.job].name);
    date_print(s->told[after.job].r.finish, DATE_PAPER, out);
    buf_putc(out, ')');
    if (p->kind == POINT_AFTER && after.least > 0) {
        buf_puts(out, " by at least ");
        span_words(after.least, out);
    }
}

void point_words(const struct solver *s, const struct point *p, struct buf *out)
{
    const struct schedule_job *j = &s->task->jobs[p->job];
    switch (p->kind) {
    case POINT_WINDOW: window_words(j, out); break;
    case POINT_LIMIT: buf_puts(out, j->limits[p->index].words); break;
    case POINT_GROUND: condition_words(&s->task->conditions[j->condition], out); break;
    case POINT_NOTICE: notice_words(&j->notices[p->index], out); break;
    case POINT_AFTER:
    case POINT_WITHIN: after_words(s, p, out); break;
    case POINT_EARLIEST:
        buf_puts(out, "not before ");
        date_print(j->earliest.date, DATE_PAPER, out);
        break;
    case POINT_LATEST:
        buf_puts(out, "done by ");
        date_print(j->latest.date, DATE_PAPER, out);
        break;
    case POINT_IN_ONE:
        buf_puts(out, s->groups[s->group_of[p->job]].nobody ? "days in a row"
                                                            : "all in one week");
        break;
    case POINT_AWAY:
        buf_puts(out, "the days that ");
        crews_words(s, out);
        buf_puts(out, s->able_count == 1 ? " does not come" : " do not come");
        break;
    case POINT_BUSY:
        buf_puts(out, "the other work of ");
        crews_words(s, out);
        break;
    }
}

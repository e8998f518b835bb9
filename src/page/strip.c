#include "page/strip.h"

#include <assert.h>
#include <string.h>

#include "base/fault.h"
#include "page/flow.h"
#include "page/glyph.h"
#include "base/grow.h"

enum {
    GAP = 2,         /* blanks between label and weeks */
    HANG = 2,        /* later lines of a label */
    LABEL_LEAST = 20,
    WEEKS_MOST = 54
};

static const char CUT[] = ".."; /* behind a label that goes on */

static const char signs[STRIP_MARKS] = { [STRIP_OPEN] = '-', [STRIP_PLANNED] = '#' };

struct strip *strip_new(void)
{
    struct strip *s = calloc(1, sizeof *s);
    if (s != NULL)
        buf_init(&s->labels);
    return s;
}

void strip_free(struct strip *s)
{
    if (s == NULL)
        return;
    buf_clear(&s->labels);
    free(s->rows);
    free(s->marks);
    free(s);
}

void strip_row(struct strip *s, const char *label, size_t length)
{
    struct strip_row *rows = NULL;
    if (!s->failed)
        rows = grow(s->rows, &s->row_capacity, s->row_count, sizeof *rows);
    if (rows == NULL) {
        s->failed = true;
        return;
    }
    s->rows = rows;
    rows[s->row_count++] = (struct strip_row){ .at = s->labels.length, .length = length,
                                               .first_mark = s->mark_count };
    buf_put(&s->labels, label, length);
    s->failed = s->labels.failed;
}

void strip_mark(struct strip *s, enum strip_mark mark, struct date from, struct date to)
{
    struct strip_stretch *marks = NULL;
    assert(from.day <= to.day);
    if (!s->failed)
        marks = grow(s->marks, &s->mark_capacity, s->mark_count, sizeof *marks);
    if (marks == NULL) {
        s->failed = true;
        return;
    }
    assert(s->row_count > 0);
    s->marks = marks;
    marks[s->mark_count++] = (struct strip_stretch){ mark, from, to };
    s->rows[s->row_count - 1].count++;
}

/* --- drawing ---------------------------------------------------------------------- */

struct panel {
    int year, month;       /* of its first month */
    int months;
    int32_t start, end;    /* Mondays; `end` is the first of the next panel */
    int label;             /* columns of the labels */
    bool first;
};

/* The Monday of the first week whose Thursday lies in that month. Past the end of the
 * calendar, the first Monday after it. */
static int32_t first_week(int year, int month)
{
    struct fault ignored;
    struct date d;
    fault_clear(&ignored);
    while (month > 12)
        year++, month -= 12;
    if (!date_make(year, month, 1, &d, &ignored)) {
        fault_clear(&ignored);
        if (!date_make(DATE_LAST_YEAR, 12, 31, &d, &ignored))
            return 0;
        return date_week_start(d).day + 7;
    }
    int32_t monday = date_week_start(d).day;
    return monday + 3 < d.day ? monday + 7 : monday;
}

static void bound(struct panel *p)
{
    p->start = first_week(p->year, p->month);
    p->end = first_week(p->year, p->month + p->months);
}

static void next_panel(struct panel *p)
{
    p->month += p->months;
    while (p->month > 12)
        p->year++, p->month -= 12;
    p->first = false;
    bound(p);
}

/* Writes the row's weeks. False when it is not for this panel: one that is planned stands
 * where it is planned, one that is not where it may be done, a bare one in the first. */
static bool draw_row(const struct strip *s, const struct strip_row *row, struct panel p,
                     char weeks[WEEKS_MOST + 1])
{
    int count = (p.end - p.start) / 7, last = -1;
    bool planned = false, here = false;
    memset(weeks, ' ', WEEKS_MOST);
    for (int mark = 0; mark < STRIP_MARKS; mark++) {
        for (size_t i = 0; i < row->count; i++) {
            const struct strip_stretch *m = &s->marks[row->first_mark + i];
            planned = planned || m->mark == STRIP_PLANNED;
            if ((int)m->mark != mark || m->to.day < p.start || m->from.day >= p.end)
                continue;
            int from = m->from.day <= p.start ? 0 : (m->from.day - p.start) / 7;
            int to = m->to.day >= p.end ? count - 1 : (m->to.day - p.start) / 7;
            memset(weeks + from, signs[mark], (size_t)(to - from + 1));
            last = to > last ? to : last;
            here = here || mark == STRIP_PLANNED;
        }
    }
    weeks[last + 1] = '\0';
    if (planned)
        return here;
    return last >= 0 || (row->count == 0 && p.first);
}

/* Years above months, each name over the first week of what it names. */
static void put_head(struct panel p, int start, struct buf *out)
{
    int used = 0;
    buf_fill(out, ' ', (size_t)start);
    for (int i = 0; i < p.months; i++) {
        int month = (p.month + i - 1) % 12 + 1, year = p.year + (p.month + i - 1) / 12;
        int at = (first_week(year, month) - p.start) / 7;
        /* A December of four weeks is too short for its year beside that of January. */
        bool squeezed = i == 0 && month == 12 && p.months > 1 &&
                        (first_week(year, 13) - p.start) / 7 < 5;
        if ((i > 0 && month != 1) || squeezed || year > DATE_LAST_YEAR)
            continue;
        buf_fill(out, ' ', (size_t)(at - used));
        buf_printf(out, "%d", year);
        used = at + 4;
    }
    buf_putc(out, '\n');
    buf_fill(out, ' ', (size_t)start);
    used = 0;
    for (int i = 0; i < p.months; i++) {
        int month = (p.month + i - 1) % 12 + 1, year = p.year + (p.month + i - 1) / 12;
        int at = (first_week(year, month) - p.start) / 7;
        if (year > DATE_LAST_YEAR)
            break;
        buf_fill(out, ' ', (size_t)(at - used));
        buf_puts(out, month_abbreviation(month));
        used = at + 3;
    }
    buf_putc(out, '\n');
}

/* Bytes of the label that fit before the sign of a cut, without a blank at their end. */
static size_t cut_at(const char *text, size_t length, int columns)
{
    int used = 0;
    size_t at = 0, end = 0;
    while (at < length) {
        struct glyph g = glyph_next(text + at, length - at);
        if (used + g.columns > columns - (int)strlen(CUT))
            break;
        used += g.columns;
        at += g.bytes;
        if (g.kind != GLYPH_BLANK)
            end = at;
    }
    return end;
}

/* Would another label read the same, cut there? */
static bool is_ambiguous(const struct strip *s, const struct strip_row *row, size_t cut)
{
    const char *text = s->labels.data + row->at;
    for (size_t i = 0; i < s->row_count; i++) {
        const struct strip_row *other = &s->rows[i];
        const char *label = s->labels.data + other->at;
        if (other->length < cut || memcmp(label, text, cut) != 0)
            continue;
        if (other->length != row->length || memcmp(label, text, row->length) != 0)
            return true;
    }
    return false;
}

/* On one line where that tells it from the others. */
static void set_label(struct flow *label, const struct strip *s,
                      const struct strip_row *row, int columns)
{
    const char *text = s->labels.data + row->at;
    size_t cut = row->length;
    if (glyph_columns(text, row->length) > columns) {
        cut = cut_at(text, row->length, columns);
        if (is_ambiguous(s, row, cut))
            cut = row->length;
    }
    flow_add(label, text, cut, FLOW_PLAIN);
    if (cut < row->length)
        flow_add(label, CUT, strlen(CUT), FLOW_PLAIN);
    flow_break(label, columns, HANG);
}

static bool put_row(const struct strip *s, const struct strip_row *row, struct panel p,
                    int indent, const char *weeks, struct buf *out)
{
    struct flow label;
    flow_init(&label);
    set_label(&label, s, row, p.label);
    for (size_t i = 0; i < label.line_count || i == 0; i++) {
        int wide = i < label.line_count ? label.lines[i].columns : 0;
        buf_fill(out, ' ', (size_t)(indent + (i > 0 ? HANG : 0)));
        if (i < label.line_count)
            flow_put(&label, i, false, out);
        if (i == 0 && weeks[0] != '\0') {
            buf_fill(out, ' ', (size_t)(p.label + GAP - wide));
            buf_puts(out, weeks);
        }
        buf_putc(out, '\n');
    }
    bool done = !label.failed;
    flow_clear(&label);
    return done;
}

static bool put_panel(const struct strip *s, struct panel p, int indent, struct buf *out)
{
    char weeks[WEEKS_MOST + 1];
    bool headed = false;
    for (size_t i = 0; i < s->row_count; i++) {
        if (!draw_row(s, &s->rows[i], p, weeks))
            continue;
        if (!headed) {
            if (!p.first)
                buf_putc(out, '\n');
            put_head(p, indent + p.label + GAP, out);
        }
        headed = true;
        if (!put_row(s, &s->rows[i], p, indent, weeks, out))
            return false;
    }
    return true;
}

static void put_legend(const struct strip *s, int indent, int columns, struct buf *out)
{
    static const char *const words[STRIP_MARKS] = { [STRIP_OPEN] = "- may be done",
                                                    [STRIP_PLANNED] = "# planned" };
    bool used[STRIP_MARKS] = { false };
    for (size_t i = 0; i < s->mark_count; i++)
        used[s->marks[i].mark] = true;
    int at = 0;
    for (int mark = STRIP_MARKS; mark-- > 0;) {
        int wide = (int)strlen(words[mark]);
        if (!used[mark])
            continue;
        if (at > 0 && at + 3 + wide <= columns) {
            buf_fill(out, ' ', 3);
            at += 3 + wide;
        } else {
            buf_putc(out, '\n');
            buf_fill(out, ' ', (size_t)indent);
            at = indent + wide;
        }
        buf_puts(out, words[mark]);
    }
    buf_putc(out, '\n');
}

/* Months in a panel: as many as leave room for the labels. */
static int months_for(int room, int longest, int *label)
{
    static const struct {
        int months, weeks;
    } sizes[] = { { 12, 53 }, { 6, 27 }, { 4, 18 }, { 2, 9 } };
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        int left = room - GAP - sizes[i].weeks;
        *label = longest < left ? longest : left;
        if (left >= longest || left >= LABEL_LEAST)
            return sizes[i].months;
    }
    return 2;
}

bool strip_text(const struct strip *s, int indent, int columns, struct buf *out,
                struct fault *f)
{
    if (s->failed)
        return fault_no_memory(f);
    if (s->mark_count == 0)
        return true;
    struct date first = s->marks[0].from, last = s->marks[0].to;
    for (size_t i = 1; i < s->mark_count; i++) {
        if (s->marks[i].from.day < first.day)
            first = s->marks[i].from;
        if (s->marks[i].to.day > last.day)
            last = s->marks[i].to;
    }
    int longest = 0;
    for (size_t i = 0; i < s->row_count; i++) {
        int wide = glyph_columns(s->labels.data + s->rows[i].at, s->rows[i].length);
        longest = wide > longest ? wide : longest;
    }
    struct panel p = { .first = true };
    p.months = months_for(columns - indent, longest, &p.label);
    /* The month that has the Thursday of the first mark's week. */
    struct civil c = date_civil((struct date){ date_week_start(first).day + 3 });
    p.year = c.year;
    p.month = c.month;
    for (bound(&p); p.start <= last.day && p.start < p.end; next_panel(&p)) {
        if (!put_panel(s, p, indent, out))
            return fault_no_memory(f);
    }
    put_legend(s, indent, columns, out);
    return out->failed ? fault_no_memory(f) : true;
}

#include "base/source.h"

#include "base/buf.h"
#include "base/utf8.h"

/* How many columns of the author's line are shown; the rest is cut with "...". */
enum { SHOWN_MOST = 76, CUT_MARK = 3, INDENT = 4 };

/* The author's line, and a stretch of it in columns. */
struct shown {
    const char *text;
    size_t start, stop; /* bytes of the line in the text */
};
struct stretch {
    size_t from, to;
};

/* One character as it is shown: a tab is a blank, what steers a terminal a '?'. */
static size_t shown_width(uint32_t code)
{
    return utf8_steers(code) ? 1 : utf8_width(code);
}

static size_t columns_to(const struct shown *s, size_t stop)
{
    size_t columns = 0;
    for (size_t i = s->start; i < stop;) {
        uint32_t code;
        i += utf8_next(s->text + i, s->stop - i, &code);
        columns += shown_width(code);
    }
    return columns;
}

/* The columns of the part of `span` that lies on the line: one at least, so that a place
 * at the very end shows too. */
static struct stretch stretch_of(const struct shown *s, struct span span)
{
    size_t first = span.at > s->start ? span.at : s->start;
    if (first > s->stop)
        first = s->stop;
    size_t last = span.length < s->stop - first ? first + span.length : s->stop;
    struct stretch made = { columns_to(s, first), columns_to(s, last) };
    if (made.to <= made.from)
        made.to = made.from + 1;
    return made;
}

static void put_columns(const struct shown *s, struct stretch window, struct buf *out)
{
    size_t column = 0;
    for (size_t i = s->start; i < s->stop;) {
        uint32_t code;
        size_t step = utf8_next(s->text + i, s->stop - i, &code);
        size_t width = shown_width(code);
        /* A wide character half outside leaves a blank in its place. */
        if (column >= window.from && column + width <= window.to && width > 0) {
            if (code == '\t')
                buf_putc(out, ' ');
            else
                utf8_put_plain(out, s->text + i, step);
        } else if (width == 0 && column > window.from && column <= window.to) {
            buf_put(out, s->text + i, step);
        } else {
            for (size_t c = column; c < column + width; c++) {
                if (c >= window.from && c < window.to)
                    buf_putc(out, ' ');
            }
        }
        column += width;
        i += step;
    }
}

/* What to show of a line of `columns`: all of it, or a window that holds the carets. */
static struct stretch window_for(size_t columns, struct stretch at, struct stretch other)
{
    if (columns <= SHOWN_MOST)
        return (struct stretch){ 0, columns };
    struct stretch both = { at.from < other.from ? at.from : other.from,
                            at.to > other.to ? at.to : other.to };
    size_t room = SHOWN_MOST - 2 * CUT_MARK;
    struct stretch aim = both.to - both.from <= room ? both : at;
    size_t wanted = aim.to - aim.from < room ? aim.to - aim.from : room;
    size_t before = (room - wanted) / 2;
    size_t from = aim.from > before ? aim.from - before : 0;
    if (from <= CUT_MARK)
        return (struct stretch){ 0, SHOWN_MOST - CUT_MARK };
    if (from + room + CUT_MARK >= columns)
        return (struct stretch){ columns - (SHOWN_MOST - CUT_MARK), columns };
    return (struct stretch){ from, from + room };
}

static bool covers(struct stretch s, size_t column)
{
    return column >= s.from && column < s.to;
}

void source_show(const struct sources *all, struct span at, struct span other,
                 struct buf *out)
{
    uint32_t line_number = source_place(all, at).line;
    if (line_number == 0)
        return;
    struct span line = source_full_line(all, at.source, line_number);
    size_t length;
    struct shown s = { .text = source_text(all, at.source, &length) };
    s.start = line.at;
    s.stop = s.start + line.length;

    struct stretch here = stretch_of(&s, at), there = here;
    if (other.source == at.source && source_place(all, other).line == line_number)
        there = stretch_of(&s, other);
    size_t columns = columns_to(&s, s.stop);
    size_t last = here.to > there.to ? here.to : there.to;
    struct stretch window = window_for(columns > last ? columns : last, here, there);

    struct buf text;
    buf_init(&text);
    buf_fill(&text, ' ', INDENT);
    buf_puts(&text, window.from > 0 ? "..." : "");
    put_columns(&s, window, &text);
    buf_puts(&text, window.to < columns ? "..." : "");
    while (text.length > 0 && text.data[text.length - 1] == ' ')
        text.length--;
    buf_put(out, text.data, text.length);
    buf_clear(&text);
    buf_putc(out, '\n');

    buf_fill(out, ' ', window.from > 0 ? (size_t)INDENT + CUT_MARK : INDENT);
    for (size_t c = window.from; c < window.to && c < last; c++)
        buf_putc(out, covers(here, c) || covers(there, c) ? '^' : ' ');
    buf_putc(out, '\n');
}

#include "page/flow.h"

#include "page/glyph.h"
#include "base/grow.h"

void flow_init(struct flow *w)
{
    *w = (struct flow){ .cells = NULL };
    buf_init(&w->text);
}

void flow_clear(struct flow *w)
{
    buf_clear(&w->text);
    free(w->cells);
    free(w->lines);
    flow_init(w);
}

void flow_reset(struct flow *w)
{
    w->text.length = 0;
    w->cell_count = w->line_count = 0;
}

static inline void add_cell(struct flow *w, struct flow_cell cell)
{
    struct flow_cell *cells =
        grow(w->cells, &w->cell_capacity, w->cell_count, sizeof *cells);
    if (cells == NULL) {
        w->failed = true;
        return;
    }
    w->cells = cells;
    cells[w->cell_count++] = cell;
}

static void add_blank(struct flow *w, enum flow_style style, bool may_break)
{
    bool doubled = w->cell_count == 0 || w->cells[w->cell_count - 1].blank;
    if (may_break && doubled)
        return;
    struct flow_cell cell = { .at = w->text.length, .length = 1, .columns = 1,
                              .style = (unsigned char)style, .blank = may_break };
    buf_putc(&w->text, ' ');
    add_cell(w, cell);
}

/* A mark goes to the character before it; with none before it, to a blank of its own. */
static void add_mark(struct flow *w, struct glyph g, const char *bytes,
                     enum flow_style style)
{
    if (w->cell_count == 0)
        add_blank(w, style, false);
    if (w->failed)
        return;
    w->cells[w->cell_count - 1].length += g.bytes;
    w->cells[w->cell_count - 1].blank = false;
    buf_put(&w->text, bytes, g.bytes);
}

static void add_glyph(struct flow *w, struct glyph g, const char *bytes,
                      enum flow_style style)
{
    struct flow_cell cell = { .at = w->text.length, .columns = (unsigned char)g.columns,
                              .style = (unsigned char)style };
    if (g.bytes == 1 && g.code < 0x7F)
        buf_putc(&w->text, *bytes);
    else
        glyph_mend(&w->text, bytes, g.bytes);
    cell.length = w->text.length - cell.at;
    add_cell(w, cell);
}

static bool is_plain(char c)
{
    return c > 0x20 && c < 0x7F;
}

/* Room for so many cells more, from the first of them; NULL when out of memory. */
static struct flow_cell *room_for(struct flow *w, size_t count)
{
    while (w->cell_capacity - w->cell_count < count) {
        struct flow_cell *cells =
            grow(w->cells, &w->cell_capacity, w->cell_capacity, sizeof *cells);
        if (cells == NULL) {
            w->failed = true;
            return NULL;
        }
        w->cells = cells;
    }
    return w->cells + w->cell_count;
}

/* Characters of one byte and one column, as most are: all that follow one another. Each
 * member by itself: a whole cell copied at once waits for the parts it was made of. */
static size_t add_plain(struct flow *w, const char *text, size_t length,
                        enum flow_style style)
{
    size_t at = w->text.length, count = 0;
    while (count < length && is_plain(text[count]))
        count++;
    struct flow_cell *cells = room_for(w, count);
    for (size_t i = 0; cells && i < count; i++) {
        cells[i].at = at + i;
        cells[i].length = 1;
        cells[i].columns = 1;
        cells[i].style = (unsigned char)style;
        cells[i].blank = false;
    }
    w->cell_count += cells ? count : 0;
    buf_put(&w->text, text, count);
    return count;
}

void flow_add(struct flow *w, const char *text, size_t length, enum flow_style style)
{
    struct glyph g;
    for (size_t i = 0; i < length && !w->failed; i += g.bytes) {
        i += add_plain(w, text + i, length - i, style);
        w->failed = w->failed || w->text.failed;
        if (i == length)
            break;
        g = glyph_next(text + i, length - i);
        if (g.kind == GLYPH_BLANK || g.kind == GLYPH_STIFF)
            add_blank(w, style, g.kind == GLYPH_BLANK);
        else if (g.kind == GLYPH_COMBINING)
            add_mark(w, g, text + i, style);
        else if (g.kind == GLYPH_SHOWN)
            add_glyph(w, g, text + i, style);
        w->failed = w->failed || w->text.failed;
    }
}

/* Makes the blanks of the newest cells stiff, up to `stop` where the text has it: a unit
 * must not be parted from its number, nor a day from its month. */
static void stiffen(struct flow *w, size_t from, char stop)
{
    for (size_t i = from; i < w->cell_count; i++) {
        const char *next = i + 1 < w->cell_count ? w->text.data + w->cells[i + 1].at : "";
        if (w->cells[i].blank && (stop == '\0' || *next != stop))
            w->cells[i].blank = false;
    }
}

void flow_piece(struct flow *w, const struct doc *d, struct doc_piece p,
                enum flow_style style)
{
    const struct doc_run *runs = doc_runs(d, p);
    struct buf text;
    buf_init(&text);
    for (size_t i = 0; i < p.count; i++) {
        const struct doc_run *r = &runs[i];
        text.length = 0;
        doc_print_run(d, r, &text);
        size_t from = w->cell_count;
        bool strong = r->kind == DOC_RUN_STRONG;
        flow_add(w, text.data, text.length, strong ? FLOW_BOLD : style);
        if (r->kind == DOC_RUN_FIGURE)
            stiffen(w, from, '(');
        if (r->kind == DOC_RUN_DATE)
            stiffen(w, from, '\0');
    }
    w->failed = w->failed || text.failed;
    buf_clear(&text);
}

static bool is_space(const struct flow *w, size_t cell)
{
    return w->cells[cell].length == 1 && w->text.data[w->cells[cell].at] == ' ';
}

static void add_line(struct flow *w, size_t first, size_t end)
{
    while (end > first + 1 && is_space(w, end - 1))
        end--;
    struct flow_line *lines =
        grow(w->lines, &w->line_capacity, w->line_count, sizeof *lines);
    if (lines == NULL) {
        w->failed = true;
        return;
    }
    w->lines = lines;
    struct flow_line line = { .first = first, .count = end - first };
    for (size_t i = first; i < end; i++)
        line.columns += w->cells[i].columns;
    lines[w->line_count++] = line;
}

/* May a word that is longer than a line be parted after this character? */
static bool is_joint(const struct flow *w, size_t cell)
{
    char c = w->text.data[w->cells[cell].at];
    return w->cells[cell].length == 1 && (c == '-' || c == '/' || c == '_' || c == ' ');
}

/* Where a line that starts at `first` (no blank) ends: at the last blank that fits, else
 * after the last joint of the word, else anywhere. At least one character. */
static size_t line_end(const struct flow *w, size_t first, int columns)
{
    size_t blank = 0, joint = 0, i = first;
    for (int used = 0; i < w->cell_count; i++) {
        used += w->cells[i].columns;
        if (w->cells[i].blank)
            blank = i;
        if (used > columns)
            break;
        if (is_joint(w, i))
            joint = i + 1;
    }
    if (i == w->cell_count || blank > first)
        return i == w->cell_count ? i : blank;
    return joint > first ? joint : i > first ? i : i + 1;
}

void flow_break(struct flow *w, int columns, int hang)
{
    w->line_count = 0;
    for (size_t i = 0; i < w->cell_count && !w->failed;) {
        if (w->cells[i].blank) {
            i++;
            continue;
        }
        size_t end = line_end(w, i, w->line_count == 0 ? columns : columns - hang);
        add_line(w, i, end);
        i = end;
    }
}

void flow_restyle(struct flow *w, enum flow_style style)
{
    for (size_t i = 0; i < w->cell_count; i++)
        w->cells[i].style = (unsigned char)style;
}

int flow_columns(const struct flow *w)
{
    int columns = 0;
    for (size_t i = 0; i < w->cell_count; i++)
        columns += w->cells[i].columns;
    if (w->cell_count > 0 && w->cells[w->cell_count - 1].blank)
        columns--;
    return columns;
}

int flow_longest_word(const struct flow *w)
{
    int longest = 0, columns = 0;
    for (size_t i = 0; i < w->cell_count; i++) {
        columns = w->cells[i].blank ? 0 : columns + w->cells[i].columns;
        if (columns > longest)
            longest = columns;
    }
    return longest;
}

/* ECMA-48 "select graphic rendition". */
static const char *const colours[] = {
    [FLOW_PLAIN] = NULL, [FLOW_BOLD] = "\x1b[1m", [FLOW_RED] = "\x1b[1;31m",
    [FLOW_YELLOW] = "\x1b[33m",
};

/* Cells lie one behind the other in the text: those of one style go out together. */
void flow_put_cells(const struct flow *w, size_t first, size_t count, bool colour,
                    struct buf *out)
{
    for (size_t i = first, end; i < first + count; i = end) {
        const struct flow_cell *c = &w->cells[i];
        const char *style = colour ? colours[c->style] : NULL;
        for (end = i + 1; end < first + count; end++)
            if (colour && colours[w->cells[end].style] != style)
                break;
        const struct flow_cell *last = &w->cells[end - 1];
        if (style)
            buf_puts(out, style);
        buf_put(out, w->text.data + c->at, last->at + last->length - c->at);
        if (style)
            buf_puts(out, "\x1b[0m");
    }
}

void flow_put(const struct flow *w, size_t line, bool colour, struct buf *out)
{
    flow_put_cells(w, w->lines[line].first, w->lines[line].count, colour, out);
}

void flow_print(struct flow *w, int indent, int columns, bool colour, struct buf *out)
{
    flow_break(w, columns - indent, 0);
    for (size_t i = 0; i < w->line_count; i++) {
        if (i > 0)
            buf_fill(out, ' ', (size_t)indent);
        flow_put(w, i, colour, out);
        buf_putc(out, '\n');
    }
    if (w->line_count == 0)
        buf_putc(out, '\n');
}

void flow_print_pair(struct flow *key, struct flow *value, int indent, int key_columns,
                     int columns, bool colour, struct buf *out)
{
    int wide = flow_columns(key), start = indent + key_columns + 2;
    buf_fill(out, ' ', (size_t)indent);
    if (wide > key_columns || value->cell_count == 0) {
        flow_print(key, indent, columns, colour, out);
        if (value->cell_count == 0)
            return;
        buf_fill(out, ' ', (size_t)start);
    } else {
        flow_put_cells(key, 0, key->cell_count, colour, out);
        buf_fill(out, ' ', (size_t)(key_columns + 2 - wide));
    }
    flow_print(value, start, columns, colour, out);
}

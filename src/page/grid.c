#include "page/grid.h"

#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "page/flow.h"

enum {
    GAP = 2,         /* blanks between columns */
    HANG = 2,        /* later lines of a wrapped first column */
    WORD_MOST = 16,  /* a longer word does not keep a column wide: it is parted */
    HEAD_KEPT = 8,   /* a heading up to so wide stays on a line: parting it gains little */
    PARTS = 4,       /* of a number: whole, fraction, unit, spread */
    SPREAD = 3
};

struct grid_column {
    int natural;        /* widest cell on one line, heading left out */
    int least;          /* narrowest the column may become */
    int width;
    int parts[PARTS];   /* DOC_NUMBER: widest of each part */
    enum doc_align align;
    bool wrap;
};

struct grid {
    size_t columns, rows;   /* the heading is row 0 */
    bool total;
    bool stacked;           /* spreads stand on a line of their own, below the numbers */
    bool parts_short_heads; /* short headings take two lines, where nothing else helps */
    struct grid_column column[DOC_COLUMNS_MOST];
    struct flow *cells;     /* rows x columns */
};

static struct flow *cell_at(const struct grid *g, size_t row, size_t column)
{
    return &g->cells[row * g->columns + column];
}

/* Where a name takes two lines, the second is set in: it would read as one more row. */
static int hang_of(size_t row, size_t column)
{
    return row > 0 && column == 0 ? HANG : 0;
}

static int most(int a, int b)
{
    return a > b ? a : b;
}

/* --- numbers ---------------------------------------------------------------------- */

static char cell_char(const struct flow *w, size_t i)
{
    return w->cells[i].length == 1 ? w->text.data[w->cells[i].at] : 'x';
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* Headings of number columns with spreads start where the numbers do: at their right end
 * they would stand over the spread. */
static bool is_left(const struct grid_column *c)
{
    return c->align == DOC_LEFT || (c->align == DOC_NUMBER && c->parts[SPREAD] > 0);
}

/* Parts the cells of "-1,234.5 ft2/ac (900 to 1,400)" before ".", " ft2/ac" and " (":
 * end[i] is where part i ends. False when the text does not start with a number. */
static bool number_parts(const struct flow *w, size_t end[PARTS])
{
    size_t n = w->cell_count, i = 0;
    if (i < n && cell_char(w, i) == '-')
        i++;
    if (i == n || !is_digit(cell_char(w, i)))
        return false;
    while (i < n && (is_digit(cell_char(w, i)) || cell_char(w, i) == ','))
        i++;
    end[0] = i;
    if (i + 1 < n && cell_char(w, i) == '.' && is_digit(cell_char(w, i + 1))) {
        do
            i++;
        while (i < n && is_digit(cell_char(w, i)));
    }
    end[1] = i;
    while (i < n && !(cell_char(w, i) == ' ' && i + 1 < n && cell_char(w, i + 1) == '('))
        i++;
    end[2] = i;
    end[3] = n;
    return true;
}

static int columns_between(const struct flow *w, size_t from, size_t to)
{
    int columns = 0;
    for (size_t i = from; i < to; i++)
        columns += w->cells[i].columns;
    return columns;
}

/* Columns of the widest number, each part under its like. */
static int number_columns(const struct grid *g, const struct grid_column *c)
{
    int number = c->parts[0] + c->parts[1] + c->parts[2], spread = c->parts[SPREAD];
    return g->stacked ? most(number, spread - 1) : number + spread;
}

/* Lines a cell takes in its column; numbers have one, or two with the spread below. */
static size_t cell_lines(const struct grid *g, size_t row, size_t column)
{
    const struct flow *w = cell_at(g, row, column);
    size_t end[PARTS];
    if (row == 0 || g->column[column].align != DOC_NUMBER)
        return w->line_count;
    return g->stacked && number_parts(w, end) && end[SPREAD] > end[SPREAD - 1] ? 2 : 1;
}

/* Prints a line of a cell of a number column and returns the columns it took. */
static int put_number(const struct grid *g, const struct flow *w,
                      const struct grid_column *c, size_t line, bool colour,
                      struct buf *out)
{
    size_t end[PARTS], from = 0;
    bool number = number_parts(w, end);
    if (w->cell_count == 0 || (line > 0 && !number))
        return 0;
    if (line > 0) { /* the spread without the blank before it */
        from = end[SPREAD - 1] + 1;
        flow_put_cells(w, from, end[SPREAD] - from, colour, out);
        return columns_between(w, from, end[SPREAD]);
    }
    if (!number) {
        int all = flow_columns(w), left = most(c->parts[0] - all, 0);
        buf_fill(out, ' ', (size_t)left);
        flow_put_cells(w, 0, w->cell_count, colour, out);
        return left + all;
    }
    /* Under a heading that is wider, numbers stand at its right end. */
    int at = is_left(c) ? 0 : most(c->width - number_columns(g, c), 0), used = 0;
    for (int part = 0; part < (g->stacked ? SPREAD : PARTS); part++) {
        int wide = columns_between(w, from, end[part]);
        int start = part == 0 ? at + c->parts[0] - wide : at;
        if (wide > 0) {
            buf_fill(out, ' ', (size_t)(start - used));
            flow_put_cells(w, from, end[part] - from, colour, out);
            used = start + wide;
        }
        at += c->parts[part];
        from = end[part];
    }
    return used;
}

/* --- measuring and fitting -------------------------------------------------------- */

static void measure(struct grid *g, size_t column)
{
    struct grid_column *c = &g->column[column];
    int word = 0, text = 0;
    for (size_t row = 1; row < g->rows; row++) {
        struct flow *w = cell_at(g, row, column);
        size_t end[PARTS], from = 0;
        word = most(word, flow_longest_word(w) + hang_of(row, column));
        if (c->align != DOC_NUMBER || !number_parts(w, end)) {
            text = most(text, flow_columns(w));
            continue;
        }
        for (int part = 0; part < PARTS; part++) {
            c->parts[part] = most(c->parts[part], columns_between(w, from, end[part]));
            from = end[part];
        }
    }
    const struct flow *title = cell_at(g, 0, column);
    int title_word = flow_longest_word(title);
    if (!g->parts_short_heads && flow_columns(title) <= HEAD_KEPT)
        title_word = flow_columns(title);
    c->natural = most(text, number_columns(g, c));
    c->least = c->natural;
    if (c->wrap && c->align != DOC_NUMBER && word < c->natural)
        c->least = word;
    if (c->wrap && c->align != DOC_NUMBER && c->least > WORD_MOST)
        c->least = WORD_MOST;
    if (title_word > WORD_MOST)
        title_word = WORD_MOST;
    c->least = most(c->least, title_word);
    c->width = most(c->natural, flow_columns(title));
}

/* Narrows by one column the widest that has not come down to its floor yet. */
static bool narrow(struct grid *g, bool heads_only)
{
    struct grid_column *widest = NULL;
    for (size_t i = 0; i < g->columns; i++) {
        struct grid_column *c = &g->column[i];
        int floor = heads_only ? most(c->natural, c->least) : c->least;
        if (c->width > floor && (widest == NULL || c->width > widest->width))
            widest = c;
    }
    if (widest != NULL)
        widest->width--;
    return widest != NULL;
}

static bool fit_as_is(struct grid *g, int columns)
{
    int used = GAP * ((int)g->columns - 1);
    for (size_t i = 0; i < g->columns; i++) {
        measure(g, i);
        used += g->column[i].width;
    }
    while (used > columns && narrow(g, true))
        used--;
    while (used > columns && narrow(g, false))
        used--;
    return used <= columns;
}

static bool fit(struct grid *g, int columns)
{
    if (fit_as_is(g, columns))
        return true;
    g->parts_short_heads = true;
    if (fit_as_is(g, columns))
        return true;
    g->stacked = true;
    return fit_as_is(g, columns);
}

/* --- printing --------------------------------------------------------------------- */

static int put_cell(const struct grid *g, size_t row, size_t column, size_t line,
                    bool colour, struct buf *out)
{
    const struct grid_column *c = &g->column[column];
    const struct flow *w = cell_at(g, row, column);
    if (line >= cell_lines(g, row, column))
        return 0;
    if (c->align == DOC_NUMBER && row > 0)
        return put_number(g, w, c, line, colour, out);
    int wide = w->lines[line].columns, left = line == 0 ? 0 : hang_of(row, column);
    if (!is_left(c))
        left = most(c->width - wide, 0);
    buf_fill(out, ' ', (size_t)left);
    flow_put(w, line, colour, out);
    return left + wide;
}

/* One line of a row; blanks are put only before something that follows them. */
static void put_line(const struct grid *g, size_t row, size_t line, struct grid_look look,
                     struct buf *out)
{
    int at = look.indent, used = 0;
    for (size_t i = 0; i < g->columns; i++) {
        struct buf cell;
        buf_init(&cell);
        int wide = put_cell(g, row, i, line, look.colour, &cell);
        if (wide > 0) {
            buf_fill(out, ' ', (size_t)(at - used));
            buf_put(out, cell.data, cell.length);
            used = at + wide;
        }
        out->failed = out->failed || cell.failed;
        buf_clear(&cell);
        at += g->column[i].width + GAP;
    }
    buf_putc(out, '\n');
}

static void put_rule(const struct grid *g, struct grid_look look, struct buf *out)
{
    for (size_t i = 0; i < g->columns; i++) {
        buf_fill(out, ' ', (size_t)(i == 0 ? look.indent : GAP));
        buf_fill(out, '-', (size_t)g->column[i].width);
    }
    buf_putc(out, '\n');
}

static void put_none(const struct grid *g, struct grid_look look, struct buf *out)
{
    if (g->rows > 1)
        return;
    buf_fill(out, ' ', (size_t)look.indent);
    buf_puts(out, "none\n");
}

static void put_table(const struct grid *g, struct grid_look look, struct buf *out)
{
    for (size_t row = 0; row < g->rows; row++) {
        size_t lines = 1;
        for (size_t i = 0; i < g->columns; i++) {
            struct flow *w = cell_at(g, row, i);
            flow_break(w, g->column[i].width, hang_of(row, i));
            size_t taken = cell_lines(g, row, i);
            if (taken > lines)
                lines = taken;
        }
        if (g->total && row == g->rows - 1)
            put_rule(g, look, out);
        for (size_t line = 0; line < lines; line++)
            put_line(g, row, line, look, out);
        if (row == 0)
            put_rule(g, look, out);
    }
    put_none(g, look, out);
}

/* Row by row, for pages too narrow for the table. */
static void put_records(const struct grid *g, struct grid_look look, struct buf *out)
{
    int key = 0, room = look.columns - look.indent;
    for (size_t i = 1; i < g->columns; i++) {
        flow_restyle(cell_at(g, 0, i), FLOW_PLAIN);
        key = most(key, flow_columns(cell_at(g, 0, i)));
    }
    if (key > room / 2)
        key = room / 2;
    for (size_t row = 1; row < g->rows; row++) {
        if (row > 1)
            buf_putc(out, '\n');
        buf_fill(out, ' ', (size_t)look.indent);
        flow_restyle(cell_at(g, row, 0), FLOW_BOLD);
        flow_print(cell_at(g, row, 0), look.indent, look.columns, look.colour, out);
        for (size_t i = 1; i < g->columns; i++) {
            struct flow *title = cell_at(g, 0, i), *w = cell_at(g, row, i);
            if (w->cell_count > 0)
                flow_print_pair(title, w, look.indent + 2, key, look.columns,
                                look.colour, out);
        }
    }
    put_none(g, look, out);
}

bool grid_print(const struct doc *d, const struct doc_block *table, struct grid_look look,
                struct buf *out, struct fault *f)
{
    struct grid g = { .columns = table->columns, .rows = table->rows + 1,
                      .total = table->total };
    size_t count = g.columns * g.rows;
    g.cells = calloc(count, sizeof *g.cells);
    if (g.cells == NULL)
        return fault_no_memory(f);
    const struct doc_table_column *columns = doc_columns(d, table);
    bool failed = false;
    for (size_t i = 0; i < count; i++) {
        size_t row = i / g.columns, column = i % g.columns;
        struct flow *w = &g.cells[i];
        flow_init(w);
        if (row == 0)
            flow_piece(w, d, columns[column].title, FLOW_BOLD);
        else
            flow_piece(w, d, doc_cell_at(d, table, row - 1, column), FLOW_PLAIN);
        g.column[column].align = columns[column].align;
        g.column[column].wrap = columns[column].wrap;
        failed = failed || w->failed;
    }
    if (!failed) {
        if (fit(&g, look.columns - look.indent))
            put_table(&g, look, out);
        else
            put_records(&g, look, out);
    }
    for (size_t i = 0; i < count; i++) {
        failed = failed || g.cells[i].failed;
        flow_clear(&g.cells[i]);
    }
    free(g.cells);
    return !failed && !out->failed ? true : fault_no_memory(f);
}

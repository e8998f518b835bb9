#include "page/doc.h"

#include <assert.h>
#include <string.h>

#include "base/fault.h"
#include "base/grow.h"

enum open_piece { OPEN_NOTHING, OPEN_BODY, OPEN_ASK, OPEN_SOURCE, OPEN_CELL };

struct doc {
    struct printed printed;
    struct buf text; /* of all runs, one after another */
    struct doc_block *blocks;
    struct doc_run *runs;
    struct doc_table_column *columns;
    struct doc_piece *cells;
    size_t block_count, block_capacity, run_count, run_capacity;
    size_t column_count, column_capacity, cell_count, cell_capacity;
    size_t next_cell;   /* of the row being filled, counted in cells of the document */
    enum open_piece open;
    bool failed;
};

struct doc *doc_new(struct graph *g)
{
    struct doc *d = calloc(1, sizeof *d);
    if (d == NULL)
        return NULL;
    printed_init(&d->printed, g);
    buf_init(&d->text);
    return d;
}

void doc_free(struct doc *d)
{
    if (d == NULL)
        return;
    for (size_t i = 0; i < d->block_count; i++)
        strip_free(d->blocks[i].strip);
    printed_clear(&d->printed);
    buf_clear(&d->text);
    free(d->blocks);
    free(d->runs);
    free(d->columns);
    free(d->cells);
    free(d);
}

/* The block being written; only asked for while nothing has failed. */
static struct doc_block *last_block(struct doc *d)
{
    assert(d->block_count > 0);
    return &d->blocks[d->block_count - 1];
}

static struct doc_piece *open_piece(struct doc *d)
{
    struct doc_block *b = last_block(d);
    assert(d->open != OPEN_NOTHING);
    switch (d->open) {
    case OPEN_ASK: return &b->ask;
    case OPEN_SOURCE: return &b->source;
    case OPEN_CELL: return &d->cells[d->next_cell - 1];
    case OPEN_BODY:
    case OPEN_NOTHING: break;
    }
    return &b->body;
}

static void start_piece(struct doc *d, enum open_piece which)
{
    d->open = which;
    if (which != OPEN_NOTHING && !d->failed)
        *open_piece(d) = (struct doc_piece){ d->run_count, 0 };
}

/* A new block, its body open for runs unless `bare`. False when out of memory. */
static bool start_block(struct doc *d, enum doc_block_kind kind, int level, bool bare)
{
    struct doc_block *blocks = NULL;
    if (!d->failed)
        blocks = grow(d->blocks, &d->block_capacity, d->block_count, sizeof *blocks);
    if (blocks == NULL) {
        d->failed = true;
    } else {
        d->blocks = blocks;
        blocks[d->block_count++] = (struct doc_block){ .kind = kind, .level = level };
    }
    start_piece(d, bare ? OPEN_NOTHING : OPEN_BODY);
    return !d->failed;
}

void doc_heading(struct doc *d, int level)
{
    assert(level >= 1 && level <= 3);
    start_block(d, DOC_HEADING, level, false);
}

void doc_paragraph(struct doc *d)
{
    start_block(d, DOC_PARAGRAPH, 0, false);
}

void doc_item(struct doc *d)
{
    start_block(d, DOC_ITEM, 0, false);
}

void doc_definition(struct doc *d, const char *key, size_t length)
{
    if (!start_block(d, DOC_DEFINITION, 0, false))
        return;
    doc_text(d, key, length);
    if (d->failed)
        return;
    last_block(d)->key = last_block(d)->body;
    start_piece(d, OPEN_BODY);
}

void doc_note(struct doc *d, enum doc_level level)
{
    start_block(d, DOC_NOTE, (int)level, false);
}

void doc_ask(struct doc *d)
{
    assert(d->failed || last_block(d)->kind == DOC_NOTE);
    start_piece(d, OPEN_ASK);
}

void doc_source(struct doc *d)
{
    assert(d->failed || last_block(d)->kind == DOC_NOTE);
    start_piece(d, OPEN_SOURCE);
}

void doc_table(struct doc *d, const struct doc_column *columns, size_t count)
{
    assert(count >= 1 && count <= DOC_COLUMNS_MOST);
    if (!start_block(d, DOC_TABLE, 0, false))
        return;
    size_t first = d->column_count;
    for (size_t i = 0; i < count; i++) {
        start_piece(d, OPEN_BODY);
        doc_text(d, columns[i].title, columns[i].title_length);
        struct doc_table_column *all =
            grow(d->columns, &d->column_capacity, d->column_count, sizeof *all);
        if (d->failed || all == NULL) {
            d->failed = true;
            return;
        }
        d->columns = all;
        all[d->column_count++] = (struct doc_table_column){ .title = last_block(d)->body,
                                                        .align = columns[i].align,
                                                        .wrap = columns[i].wrap };
    }
    struct doc_block *b = last_block(d);
    b->body.count = 0;
    b->first_column = first;
    b->columns = count;
    b->first_cell = d->next_cell = d->cell_count;
    d->open = OPEN_NOTHING;
}

void doc_row(struct doc *d)
{
    if (d->failed)
        return;
    struct doc_block *b = last_block(d);
    assert(b->kind == DOC_TABLE && !b->total);
    d->open = OPEN_NOTHING;
    d->next_cell = d->cell_count;
    for (size_t i = 0; i < b->columns; i++) {
        struct doc_piece *cells =
            grow(d->cells, &d->cell_capacity, d->cell_count, sizeof *cells);
        if (cells == NULL) {
            d->failed = true;
            return;
        }
        d->cells = cells;
        cells[d->cell_count++] = (struct doc_piece){ d->run_count, 0 };
    }
    b->rows++;
}

void doc_total(struct doc *d)
{
    doc_row(d);
    if (!d->failed)
        last_block(d)->total = true;
}

void doc_cell(struct doc *d)
{
    if (d->failed)
        return;
    assert(last_block(d)->kind == DOC_TABLE && d->next_cell < d->cell_count);
    d->next_cell++;
    start_piece(d, OPEN_CELL);
}

void doc_strip(struct doc *d, struct strip *take)
{
    if (take == NULL || take->failed)
        d->failed = true;
    if (start_block(d, DOC_STRIP, 0, true))
        last_block(d)->strip = take;
    else
        strip_free(take);
}

void doc_rule(struct doc *d)
{
    start_block(d, DOC_RULE, 0, true);
}

void doc_blank(struct doc *d)
{
    start_block(d, DOC_BLANK, 0, true);
}

static void add_run(struct doc *d, struct doc_run r)
{
    if (d->failed)
        return;
    struct doc_run *runs = grow(d->runs, &d->run_capacity, d->run_count, sizeof *runs);
    if (runs == NULL) {
        d->failed = true;
        return;
    }
    d->runs = runs;
    open_piece(d)->count++;
    runs[d->run_count++] = r;
}

static void add_text(struct doc *d, enum doc_run_kind kind, const char *text,
                     size_t length)
{
    if (d->failed || length == 0)
        return;
    struct doc_run r = { .kind = kind, .at = d->text.length, .length = length };
    buf_put(&d->text, text, length);
    d->failed = d->text.failed;
    add_run(d, r);
}

void doc_text(struct doc *d, const char *text, size_t length)
{
    add_text(d, DOC_RUN_TEXT, text, length);
}

void doc_strong(struct doc *d, const char *text, size_t length)
{
    add_text(d, DOC_RUN_STRONG, text, length);
}

void doc_puts(struct doc *d, const char *text)
{
    doc_text(d, text, strlen(text));
}

void doc_fail(struct doc *d)
{
    d->failed = true;
}

static void put_figure(struct doc *d, struct qty q, bool spread, bool bare)
{
    if (!qty_is(q)) {
        doc_puts(d, "not known");
        return;
    }
    if (d->failed)
        return;
    size_t number = printed_add(&d->printed, q, spread);
    if (number == PRINTED_NONE)
        d->failed = true;
    add_run(d, (struct doc_run){ .kind = DOC_RUN_FIGURE, .bare = bare, .at = number });
}

void doc_figure(struct doc *d, struct qty q, bool spread)
{
    put_figure(d, q, spread, false);
}

void doc_bare(struct doc *d, struct qty q, bool spread)
{
    put_figure(d, q, spread, true);
}

void doc_date(struct doc *d, struct date when)
{
    add_run(d, (struct doc_run){ .kind = DOC_RUN_DATE, .date = when });
}

bool doc_settle(struct doc *d, struct fault *f)
{
    if (d->failed)
        return fault_no_memory(f);
    return printed_settle(&d->printed, f);
}

const struct doc_block *doc_blocks(const struct doc *d, size_t *count)
{
    *count = d->block_count;
    return d->blocks;
}

const struct doc_run *doc_runs(const struct doc *d, struct doc_piece p)
{
    return p.count == 0 ? NULL : d->runs + p.first;
}

const struct doc_table_column *doc_columns(const struct doc *d,
                                           const struct doc_block *table)
{
    return d->columns + table->first_column;
}

struct doc_piece doc_cell_at(const struct doc *d, const struct doc_block *table,
                             size_t row, size_t column)
{
    return d->cells[table->first_cell + row * table->columns + column];
}

void doc_print_run(const struct doc *d, const struct doc_run *r, struct buf *out)
{
    switch (r->kind) {
    case DOC_RUN_TEXT:
    case DOC_RUN_STRONG: buf_put(out, d->text.data + r->at, r->length); break;
    case DOC_RUN_FIGURE:
        (r->bare ? printed_put_bare : printed_put)(&d->printed, r->at, out);
        break;
    case DOC_RUN_DATE: date_print(r->date, DATE_PAPER, out); break;
    }
}

size_t doc_bytes(const struct doc *d)
{
    return sizeof *d + d->text.capacity + d->block_capacity * sizeof *d->blocks +
           d->run_capacity * sizeof *d->runs + d->column_capacity * sizeof *d->columns +
           d->cell_capacity * sizeof *d->cells +
           d->printed.capacity * (sizeof *d->printed.list + sizeof *d->printed.spreads + 1);
}

#include "page/terminal.h"

#include "base/fault.h"
#include "page/flow.h"
#include "page/grid.h"

enum {
    INDENT = 2,     /* of everything but headings */
    NOTE_COLUMN = 9 /* "CAUTION" and two blanks */
};

struct page {
    const struct doc *d;
    const struct doc_block *blocks;
    size_t count;
    int columns;
    int keys, indent; /* of definitions being printed: columns of keys, blanks before */
    bool colour;
    struct flow key, text;
    struct buf *out;
    struct fault *f;
};

static void put_heading(struct page *p, const struct doc_block *b)
{
    flow_reset(&p->text);
    flow_piece(&p->text, p->d, b->body, FLOW_BOLD);
    flow_print(&p->text, 0, p->columns, p->colour, p->out);
    if (b->level > 2)
        return;
    int widest = 0;
    for (size_t i = 0; i < p->text.line_count; i++) {
        if (p->text.lines[i].columns > widest)
            widest = p->text.lines[i].columns;
    }
    buf_fill(p->out, b->level == 1 ? '=' : '-', (size_t)widest);
    buf_putc(p->out, '\n');
}

static void put_paragraph(struct page *p, struct doc_piece body)
{
    flow_reset(&p->text);
    flow_piece(&p->text, p->d, body, FLOW_PLAIN);
    if (p->text.cell_count > 0)
        buf_fill(p->out, ' ', INDENT);
    flow_print(&p->text, INDENT, p->columns, p->colour, p->out);
}

static void put_item(struct page *p, struct doc_piece body)
{
    flow_reset(&p->text);
    flow_piece(&p->text, p->d, body, FLOW_PLAIN);
    buf_fill(p->out, ' ', INDENT);
    buf_puts(p->out, p->text.cell_count > 0 ? "- " : "-");
    flow_print(&p->text, INDENT + 2, p->columns, p->colour, p->out);
}

/* Columns of the longest key among the definitions from block i on, within reason. */
static int key_columns(struct page *p, size_t i)
{
    int widest = 0, room = (p->columns - INDENT) / 3;
    for (; i < p->count && p->blocks[i].kind == DOC_DEFINITION; i++) {
        flow_reset(&p->key);
        flow_piece(&p->key, p->d, p->blocks[i].key, FLOW_PLAIN);
        int wide = flow_columns(&p->key);
        if (wide > widest && wide <= room)
            widest = wide;
    }
    return widest;
}

static void put_definition(struct page *p, size_t i)
{
    if (i == 0 || p->blocks[i - 1].kind != DOC_DEFINITION) {
        p->keys = key_columns(p, i);
        p->indent = i > 0 && p->blocks[i - 1].kind == DOC_ITEM ? INDENT + 2 : INDENT;
    }
    flow_reset(&p->key);
    flow_reset(&p->text);
    flow_piece(&p->key, p->d, p->blocks[i].key, FLOW_PLAIN);
    flow_piece(&p->text, p->d, p->blocks[i].body, FLOW_PLAIN);
    flow_print_pair(&p->key, &p->text, p->indent, p->keys, p->columns, p->colour, p->out);
}

static void put_small_print(struct page *p, struct doc_piece body, const char *lead,
                            size_t length)
{
    if (body.count == 0)
        return;
    buf_fill(p->out, ' ', INDENT + NOTE_COLUMN);
    flow_reset(&p->text);
    flow_add(&p->text, lead, length, FLOW_PLAIN);
    flow_piece(&p->text, p->d, body, FLOW_PLAIN);
    flow_print(&p->text, INDENT + NOTE_COLUMN, p->columns, p->colour, p->out);
}

static void put_note(struct page *p, const struct doc_block *b)
{
    static const struct {
        const char *word;
        size_t length;
        enum flow_style style;
    } levels[] = {
        [DOC_LEVEL_STOP] = { "STOP", 4, FLOW_RED },
        [DOC_LEVEL_CAUTION] = { "CAUTION", 7, FLOW_YELLOW },
        [DOC_LEVEL_NOTE] = { "Note", 4, FLOW_PLAIN },
    };
    int level = b->level;
    flow_reset(&p->key);
    flow_reset(&p->text);
    flow_add(&p->key, levels[level].word, levels[level].length, levels[level].style);
    flow_piece(&p->text, p->d, b->body, FLOW_PLAIN);
    flow_print_pair(&p->key, &p->text, INDENT, NOTE_COLUMN - 2, p->columns, p->colour,
                    p->out);
    put_small_print(p, b->ask, "Ask: ", 5);
    put_small_print(p, b->source, "Source: ", 8);
}

/* Blank lines between two blocks. */
static int gap_between(const struct doc_block *before, const struct doc_block *b)
{
    enum doc_block_kind kind = b->kind;
    if (kind == DOC_HEADING)
        return b->level < 3 ? 2 : 1;
    if (before->kind == DOC_HEADING && before->level == 3)
        return 0;
    if (kind == before->kind && (kind == DOC_ITEM || kind == DOC_DEFINITION))
        return 0;
    if (before->kind == DOC_ITEM && kind == DOC_DEFINITION)
        return 0;
    return before->kind == DOC_PARAGRAPH && kind == DOC_ITEM ? 0 : 1;
}

static bool put_block(struct page *p, size_t i)
{
    const struct doc_block *b = &p->blocks[i];
    switch (b->kind) {
    case DOC_HEADING: put_heading(p, b); return true;
    case DOC_PARAGRAPH: put_paragraph(p, b->body); return true;
    case DOC_ITEM: put_item(p, b->body); return true;
    case DOC_DEFINITION: put_definition(p, i); return true;
    case DOC_NOTE: put_note(p, b); return true;
    case DOC_TABLE:
        return grid_print(p->d, b, (struct grid_look){ INDENT, p->columns, p->colour },
                          p->out, p->f);
    case DOC_STRIP: return strip_text(b->strip, INDENT, p->columns, p->out, p->f);
    case DOC_RULE:
        buf_fill(p->out, ' ', INDENT);
        buf_fill(p->out, '-', (size_t)(p->columns - INDENT));
        buf_putc(p->out, '\n');
        return true;
    case DOC_BLANK: return true; /* the gap around it is what it is for */
    }
    return true;
}

static int columns_of(struct terminal_look look)
{
    if (look.columns == 0)
        return TERMINAL_COLUMNS;
    if (look.columns < TERMINAL_LEAST)
        return TERMINAL_LEAST;
    return look.columns > TERMINAL_MOST ? TERMINAL_MOST : look.columns;
}

bool terminal_print(struct doc *d, struct terminal_look look, struct buf *out,
                    struct fault *f)
{
    if (!doc_settle(d, f))
        return false;
    struct page p = { .d = d, .columns = columns_of(look), .colour = look.colour,
                      .out = out, .f = f };
    p.blocks = doc_blocks(d, &p.count);
    flow_init(&p.key);
    flow_init(&p.text);
    bool done = true;
    for (size_t i = 0; i < p.count && done; i++) {
        if (i > 0)
            buf_fill(out, '\n', (size_t)gap_between(&p.blocks[i - 1], &p.blocks[i]));
        done = put_block(&p, i);
    }
    if (p.key.failed || p.text.failed || out->failed)
        done = fault_no_memory(f);
    flow_clear(&p.key);
    flow_clear(&p.text);
    return done;
}

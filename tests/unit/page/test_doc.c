#include "../unit.h"

#include <string.h>

#include "page/doc.h"
#include "sample.h"

static void runs_read(const struct doc *d, struct doc_piece p, const char *wanted)
{
    struct buf b;
    buf_init(&b);
    for (size_t i = 0; i < p.count; i++)
        doc_print_run(d, &doc_runs(d, p)[i], &b);
    assert_string_equal(b.data, wanted);
    buf_clear(&b);
}

static void blocks_come_back_in_order_with_their_pieces(void **state)
{
    (void)state;
    struct sample s;
    sample_open(&s);
    struct doc *d = s.doc;
    doc_heading(d, 2);
    doc_puts(d, "Acts of "), doc_date(d, sample_date(&s, 2026, 11, 16));
    doc_definition(d, "Walked", 6), doc_puts(d, "all of it");
    doc_note(d, DOC_LEVEL_CAUTION), doc_puts(d, "wet"), doc_strong(d, " ground", 7);
    doc_ask(d), doc_puts(d, "the county");
    doc_item(d);
    size_t count;
    const struct doc_block *b = doc_blocks(d, &count);
    assert_true(doc_settle(d, &s.fault));
    assert_int_equal(count, 4);
    assert_int_equal(b[0].kind, DOC_HEADING);
    assert_int_equal(b[0].level, 2);
    runs_read(d, b[0].body, "Acts of Nov 16 2026");
    assert_int_equal(b[1].kind, DOC_DEFINITION);
    runs_read(d, b[1].key, "Walked");
    runs_read(d, b[1].body, "all of it");
    assert_int_equal(b[2].kind, DOC_NOTE);
    assert_int_equal(b[2].level, DOC_LEVEL_CAUTION);
    runs_read(d, b[2].body, "wet ground");
    assert_int_equal(doc_runs(d, b[2].body)[1].kind, DOC_RUN_STRONG);
    runs_read(d, b[2].ask, "the county");
    assert_int_equal(b[2].source.count, 0);
    assert_int_equal(b[3].body.count, 0);
    sample_close(&s);
}

static void a_table_gives_back_its_columns_and_cells(void **state)
{
    (void)state;
    static const struct doc_column columns[] = { { "Stand", 5, DOC_LEFT, true },
                                                 { "Area", 4, DOC_NUMBER, false } };
    struct doc *d = doc_new(NULL);
    doc_table(d, columns, 2);
    doc_row(d), sample_cell(d, "bench"), doc_cell(d), doc_puts(d, "7"), doc_puts(d, ".5");
    doc_row(d), sample_cell(d, "ridge");
    doc_total(d), doc_cell(d), sample_cell(d, "21.7");
    size_t count;
    const struct doc_block *b = doc_blocks(d, &count);
    assert_int_equal(count, 1);
    assert_int_equal(b->rows, 3);
    assert_int_equal(b->columns, 2);
    assert_true(b->total);
    runs_read(d, doc_columns(d, b)[1].title, "Area");
    assert_int_equal(doc_columns(d, b)[1].align, DOC_NUMBER);
    assert_true(doc_columns(d, b)[0].wrap);
    runs_read(d, doc_cell_at(d, b, 0, 1), "7.5");
    runs_read(d, doc_cell_at(d, b, 1, 0), "ridge");
    runs_read(d, doc_cell_at(d, b, 1, 1), "");
    runs_read(d, doc_cell_at(d, b, 2, 1), "21.7");
    doc_free(d);
}

static void figures_may_be_added_after_a_first_printing(void **state)
{
    (void)state;
    struct sample s;
    sample_open(&s);
    struct qty hours = sample_qty(&s, 58, 72, 88, "h");
    size_t count;
    doc_paragraph(s.doc), doc_figure(s.doc, hours, true);
    assert_true(doc_settle(s.doc, &s.fault));
    doc_paragraph(s.doc), doc_figure(s.doc, hours, false);
    graph_release(s.graph, hours); /* the document holds it */
    graph_collect(s.graph);
    assert_true(doc_settle(s.doc, &s.fault));
    const struct doc_block *b = doc_blocks(s.doc, &count);
    runs_read(s.doc, b[0].body, "72 h (58 to 88)");
    runs_read(s.doc, b[1].body, "72 h");
    sample_close(&s);
}

static void texts_are_copied_with_what_they_hold(void **state)
{
    (void)state;
    char text[] = "a\0b";
    struct doc *d = doc_new(NULL);
    doc_paragraph(d), doc_text(d, text, 3);
    memset(text, 'x', 3);
    size_t count;
    const struct doc_block *b = doc_blocks(d, &count);
    struct buf out;
    buf_init(&out);
    doc_print_run(d, doc_runs(d, b->body), &out);
    assert_int_equal(out.length, 3);
    assert_memory_equal(out.data, "a\0b", 3);
    buf_clear(&out);
    assert_true(doc_bytes(d) > 3);
    doc_free(d);
}

static void a_strip_that_could_not_be_made_refuses_the_document(void **state)
{
    (void)state;
    struct doc *d = doc_new(NULL);
    struct fault f;
    fault_clear(&f);
    doc_strip(d, NULL); /* out of memory in strip_new */
    doc_paragraph(d), doc_puts(d, "and so on");
    assert_false(doc_settle(d, &f));
    assert_string_equal(f.id, "memory");
    doc_free(d);
    doc_free(NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(blocks_come_back_in_order_with_their_pieces),
        cmocka_unit_test(a_table_gives_back_its_columns_and_cells),
        cmocka_unit_test(figures_may_be_added_after_a_first_printing),
        cmocka_unit_test(texts_are_copied_with_what_they_hold),
        cmocka_unit_test(a_strip_that_could_not_be_made_refuses_the_document),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

#include "failing.h"

#include "../unit.h"

#include "page/ical.h"
#include "page/json.h"
#include "page/terminal.h"
#include "sample.h"

/* Each allocation fails in turn, until there are none left to fail. What is made must
 * then be refused, or be whole: never a paper with something left out. */

struct given {
    struct sample s;
    struct qty hours, cost;
};

static void open_given(struct given *g)
{
    sample_open(&g->s);
    g->hours = sample_qty(&g->s, 58, 72, 88, "h");
    g->cost = sample_qty(&g->s, 2100, 2460, 2900, "USD");
}

static void close_given(struct given *g)
{
    graph_release(g->s.graph, g->hours), graph_release(g->s.graph, g->cost);
    sample_close(&g->s);
}

static bool paper(struct given *g, struct buf *out, struct fault *f)
{
    static const struct doc_column columns[] = { { "Act", 3, DOC_LEFT, true },
                                                 { "Work", 4, DOC_NUMBER, false } };
    struct doc *d = doc_new(g->s.graph);
    if (d == NULL)
        return fault_no_memory(f);
    doc_heading(d, 1), doc_puts(d, "Quill Creek");
    doc_definition(d, "Walked", 6), doc_date(d, sample_date(&g->s, 2026, 10, 14));
    doc_paragraph(d), doc_puts(d, "It takes "), doc_figure(d, g->hours, true);
    doc_note(d, DOC_LEVEL_STOP), doc_strong(d, "Not", 3), doc_puts(d, " alone.");
    doc_ask(d), doc_puts(d, "a neighbor"), doc_source(d), doc_puts(d, "common practice");
    doc_table(d, columns, 2);
    for (int i = 0; i < 20; i++) {
        doc_row(d), sample_cell(d, "fell the bench aspen");
        doc_cell(d), doc_figure(d, i % 2 == 0 ? g->hours : g->cost, i % 3 == 0);
    }
    doc_total(d), sample_cell(d, "all");
    struct strip *s = strip_new();
    if (s != NULL) {
        strip_row(s, "Fell", 4);
        strip_mark(s, STRIP_PLANNED, sample_date(&g->s, 2026, 11, 16),
                   sample_date(&g->s, 2026, 12, 19));
    }
    doc_strip(d, s);
    bool done = terminal_print(d, (struct terminal_look){ 40, true }, out, f);
    doc_free(d);
    return done;
}

static bool data(struct given *g, struct buf *out, struct fault *f)
{
    struct json *j = json_new(g->s.graph);
    if (j == NULL)
        return fault_no_memory(f);
    json_text(j, "property", "Quill Creek");
    json_list_open(j, "acts");
    for (int i = 0; i < 20; i++) {
        json_object_open(j, NULL);
        json_figure(j, "hours", g->hours), json_figure(j, "cost", g->cost);
        json_day(j, "start", sample_date(&g->s, 2026, 11, 16));
        json_number(j, "order", i + 0.5);
        json_close(j);
    }
    json_close(j);
    bool done = json_write(j, out, f);
    json_free(j);
    return done;
}

static bool calendar(struct given *g, struct buf *out, struct fault *f)
{
    static const struct ical_text key[] = { { "fell", 4 } };
    static const int days[] = { 7 };
    struct ical c;
    ical_open(&c, out, sample_date(&g->s, 2026, 10, 14));
    for (int i = 0; i < 40; i++)
        ical_event(&c, &(struct ical_event){
            .key = key, .key_count = 1, .summary = { "Fell; and limb", 14 },
            .description = { "a line\nand another", 18 }, .categories = key,
            .category_count = 1, .from = sample_date(&g->s, 2026, 11, 16),
            .to = sample_date(&g->s, 2026, 11, 16), .alarms = days, .alarm_count = 1 });
    ical_close(&c);
    return !out->failed || fault_no_memory(f);
}

static void sweep(bool (*make)(struct given *, struct buf *, struct fault *))
{
    struct given g;
    struct buf whole;
    struct fault f;
    open_given(&g);
    buf_init(&whole), fault_clear(&f);
    assert_true(make(&g, &whole, &f));
    size_t n = 0;
    do {
        struct buf b;
        buf_init(&b), fault_clear(&f);
        failing_seen = false;
        failing_after = n++;
        bool done = make(&g, &b, &f);
        failing_after = SIZE_MAX;
        if (done)
            assert_string_equal(b.data, whole.data);
        else
            assert_string_equal(f.id, "memory");
        buf_clear(&b);
    } while (failing_seen);
    assert_true(n > 20); /* it did fail that often */
    buf_clear(&whole);
    close_given(&g);
}

static void a_paper_is_whole_or_refused(void **state)
{
    (void)state;
    sweep(paper);
}

static void data_is_whole_or_refused(void **state)
{
    (void)state;
    sweep(data);
}

static void a_calendar_is_whole_or_refused(void **state)
{
    (void)state;
    sweep(calendar);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_paper_is_whole_or_refused),
        cmocka_unit_test(data_is_whole_or_refused),
        cmocka_unit_test(a_calendar_is_whole_or_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

#include "../unit.h"

#include <string.h>

#include "page/glyph.h"
#include "paper.h"
#include "sample.h"

static void headings_paragraphs_and_items_have_room_around_them(void **state)
{
    (void)state;
    struct doc *d = doc_new(NULL);
    doc_heading(d, 1), doc_puts(d, "Quill Creek");
    doc_paragraph(d), doc_puts(d, "One day's walk.");
    doc_heading(d, 2), doc_puts(d, "The land");
    doc_paragraph(d), doc_puts(d, "What it holds:");
    doc_item(d);
    doc_puts(d, "bigtooth aspen on the bench, all of one age and ready to cut");
    doc_item(d), doc_puts(d, "red oak");
    doc_heading(d, 3), doc_puts(d, "The bench");
    doc_paragraph(d), doc_puts(d, "Aspen.");
    doc_rule(d);
    doc_paragraph(d), doc_puts(d, "Oak.");
    doc_blank(d);
    doc_paragraph(d), doc_puts(d, "Pine.");
    paper_check(d, 40, false,
                "Quill Creek\n"
                "===========\n"
                "\n"
                "  One day's walk.\n"
                "\n"
                "\n"
                "The land\n"
                "--------\n"
                "\n"
                "  What it holds:\n"
                "  - bigtooth aspen on the bench, all of\n"
                "    one age and ready to cut\n"
                "  - red oak\n"
                "\n"
                "The bench\n"
                "  Aspen.\n"
                "\n"
                "  --------------------------------------\n"
                "\n"
                "  Oak.\n"
                "\n"
                "\n"
                "  Pine.\n");
    doc_free(d);
}

static void definitions_stand_under_each_other(void **state)
{
    (void)state;
    struct sample s;
    sample_open(&s);
    struct doc *d = s.doc;
    doc_definition(d, "Walked", 6), doc_date(d, sample_date(&s, 2026, 10, 14));
    doc_definition(d, "Lines", 5), doc_puts(d, "north surveyed, east an old fence");
    doc_definition(d, "Named by the county", 19), doc_puts(d, "nothing");
    doc_definition(d, "Map", 3);
    paper_check(d, 36, false,
                "  Walked  Oct 14 2026\n"
                "  Lines   north surveyed, east an\n"
                "          old fence\n"
                "  Named by the county\n"
                "          nothing\n"
                "  Map\n");
    sample_close(&s);
}

static struct doc *three_notes(void)
{
    struct doc *d = doc_new(NULL);
    doc_note(d, DOC_LEVEL_STOP);
    doc_puts(d, "The east line of "), doc_strong(d, "Bench aspen", 11);
    doc_puts(d, " is not surveyed.");
    doc_ask(d), doc_puts(d, "a licensed surveyor");
    doc_note(d, DOC_LEVEL_CAUTION);
    doc_puts(d, "Oaks may not be wounded now.");
    doc_source(d), doc_puts(d, "state guidance; check locally");
    doc_note(d, DOC_LEVEL_NOTE);
    doc_puts(d, "Ask a logger first.");
    return d;
}

static void notes_say_their_level_whom_to_ask_and_the_source(void **state)
{
    (void)state;
    struct doc *d = three_notes();
    paper_check(d, 40, false,
                "  STOP     The east line of Bench aspen\n"
                "           is not surveyed.\n"
                "           Ask: a licensed surveyor\n"
                "\n"
                "  CAUTION  Oaks may not be wounded now.\n"
                "           Source: state guidance; check\n"
                "           locally\n"
                "\n"
                "  Note     Ask a logger first.\n");
    doc_free(d);
}

static void colour_marks_the_level_and_what_is_strong(void **state)
{
    (void)state;
    struct doc *d = three_notes();
    paper_check(d, 40, true,
                "  \x1b[1;31mSTOP\x1b[0m     The east line of \x1b[1mBench aspen\x1b[0m\n"
                "           is not surveyed.\n"
                "           Ask: a licensed surveyor\n"
                "\n"
                "  \x1b[33mCAUTION\x1b[0m  Oaks may not be wounded now.\n"
                "           Source: state guidance; check\n"
                "           locally\n"
                "\n"
                "  Note     Ask a logger first.\n");
    doc_free(d);
}

static void a_figure_keeps_its_unit_and_a_date_stays_whole(void **state)
{
    (void)state;
    struct sample s;
    sample_open(&s);
    struct doc *d = s.doc;
    struct qty acres = sample_qty(&s, 7.5, 7.5, 7.5, "ac");
    doc_paragraph(d), doc_puts(d, "The aspen bench has "), doc_figure(d, acres, true);
    doc_puts(d, ", cut by "), doc_date(d, sample_date(&s, 2027, 3, 31));
    doc_puts(d, "; slash "), doc_figure(d, QTY_NONE, true), doc_puts(d, ".");
    paper_check(d, 24, false,
                "  The aspen bench has\n"
                "  7.5 ac, cut by\n"
                "  Mar 31 2027; slash not\n"
                "  known.\n");
    graph_release(s.graph, acres);
    sample_close(&s);
}

static void a_spread_may_be_left_out(void **state)
{
    (void)state;
    struct sample s;
    sample_open(&s);
    struct qty hours = sample_qty(&s, 58, 72, 88, "h");
    doc_paragraph(s.doc), doc_figure(s.doc, hours, false), doc_puts(s.doc, "; ");
    doc_figure(s.doc, hours, true);
    paper_check(s.doc, 80, false, "  72 h; 72 h (58 to 88)\n");
    graph_release(s.graph, hours);
    sample_close(&s);
}

static void awkward_names_come_through_and_steer_nothing(void **state)
{
    (void)state;
    struct doc *d = doc_new(NULL);
    static const char name[] = "Fl\xC3\xBC" "elen \x1b[2J\xE6\xA3\xAE\xE6\x9E\x97 "
                               "\xE2\x80\xAEx\xFFy\0z\ttab\nline";
    doc_heading(d, 1), doc_text(d, name, sizeof name - 1);
    paper_check(d, 40, false,
                "Fl\xC3\xBC" "elen [2J\xE6\xA3\xAE\xE6\x9E\x97 x\xEF\xBF\xBDyz tab line\n"
                "=============================\n");
    doc_free(d);
}

static void a_word_without_an_end_is_parted(void **state)
{
    (void)state;
    struct doc *d = doc_new(NULL);
    doc_item(d), doc_puts(d, "abcdefghijklmnopqrstuvwxyz0123456789");
    paper_check(d, 24, false, "  - abcdefghijklmnopqrst\n"
                              "    uvwxyz0123456789\n");
    doc_free(d);
}

static void widths_beyond_reason_are_brought_back(void **state)
{
    (void)state;
    struct doc *d = doc_new(NULL);
    doc_rule(d);
    char wanted[256] = "  ";
    memset(wanted + 2, '-', 22), strcpy(wanted + 24, "\n");
    paper_check(d, 3, false, wanted);
    memset(wanted + 2, '-', 78), strcpy(wanted + 80, "\n");
    paper_check(d, 0, false, wanted);
    memset(wanted + 2, '-', 198), strcpy(wanted + 200, "\n");
    paper_check(d, 100000, false, wanted);
    doc_free(d);
}

static void empty_pieces_leave_no_blanks(void **state)
{
    (void)state;
    struct doc *d = doc_new(NULL);
    doc_heading(d, 3), doc_paragraph(d), doc_item(d), doc_note(d, DOC_LEVEL_NOTE);
    doc_definition(d, "", 0), doc_puts(d, "x");
    paper_check(d, 80, false, "\n\n  -\n\n  Note\n\n    x\n");
    doc_free(d);
}

static void definitions_after_an_item_belong_to_it(void **state)
{
    (void)state;
    struct doc *d = doc_new(NULL);
    doc_item(d), doc_puts(d, "Fell the bench aspen");
    doc_definition(d, "Hours", 5), doc_puts(d, "72 h");
    doc_definition(d, "Crew", 4), doc_puts(d, "owner");
    doc_item(d), doc_puts(d, "Mow");
    doc_definition(d, "Hours", 5), doc_puts(d, "9.5 h");
    paper_check(d, 80, false, "  - Fell the bench aspen\n"
                              "    Hours  72 h\n"
                              "    Crew   owner\n"
                              "\n"
                              "  - Mow\n"
                              "    Hours  9.5 h\n");
    doc_free(d);
}

static void an_empty_document_is_an_empty_page(void **state)
{
    (void)state;
    struct doc *d = doc_new(NULL);
    paper_check(d, 80, false, "");
    doc_free(d);
}

/* Takes SGR sequences out. */
static void strip_colour(struct buf *b)
{
    size_t to = 0;
    for (size_t i = 0; i < b->length; i++) {
        if (b->data[i] == '\x1b')
            i += strcspn(b->data + i, "m");
        else
            b->data[to++] = b->data[i];
    }
    b->data[to] = '\0';
    b->length = to;
}

static void a_whole_plan_fits_every_width_and_reads_the_same_in_colour(void **state)
{
    (void)state;
    struct sample s;
    sample_open(&s);
    sample_write(&s);
    for (int columns = TERMINAL_LEAST; columns <= 130; columns += 3) {
        struct buf plain, colour;
        buf_init(&plain), buf_init(&colour);
        struct terminal_look look = { columns, false };
        assert_true(terminal_print(s.doc, look, &plain, &s.fault));
        look.colour = true;
        assert_true(terminal_print(s.doc, look, &colour, &s.fault));
        assert_null(strchr(plain.data, '\x1b'));
        for (const char *line = plain.data; *line != '\0';) {
            size_t length = strcspn(line, "\n");
            assert_true(glyph_columns(line, length) <= columns);
            assert_true(length == 0 || line[length - 1] != ' ');
            line += length + 1;
        }
        strip_colour(&colour);
        assert_string_equal(plain.data, colour.data);
        buf_clear(&plain), buf_clear(&colour);
    }
    sample_close(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(headings_paragraphs_and_items_have_room_around_them),
        cmocka_unit_test(definitions_stand_under_each_other),
        cmocka_unit_test(notes_say_their_level_whom_to_ask_and_the_source),
        cmocka_unit_test(colour_marks_the_level_and_what_is_strong),
        cmocka_unit_test(a_figure_keeps_its_unit_and_a_date_stays_whole),
        cmocka_unit_test(a_spread_may_be_left_out),
        cmocka_unit_test(awkward_names_come_through_and_steer_nothing),
        cmocka_unit_test(a_word_without_an_end_is_parted),
        cmocka_unit_test(widths_beyond_reason_are_brought_back),
        cmocka_unit_test(empty_pieces_leave_no_blanks),
        cmocka_unit_test(definitions_after_an_item_belong_to_it),
        cmocka_unit_test(an_empty_document_is_an_empty_page),
        cmocka_unit_test(a_whole_plan_fits_every_width_and_reads_the_same_in_colour),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

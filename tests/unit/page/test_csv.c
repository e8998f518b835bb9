#include "../unit.h"

#include <math.h>
#include <string.h>

#include "base/buf.h"
#include "page/csv.h"

/* The row of these texts, NULL at the end. */
static void writes(const char *const *texts, const char *wanted)
{
    struct buf out;
    buf_init(&out);
    struct csv c = { .out = &out };
    for (; *texts; texts++)
        csv_text(&c, *texts, strlen(*texts));
    csv_end(&c);
    assert_false(out.failed);
    assert_string_equal(out.data, wanted);
    buf_clear(&out);
}

#define ROW(...) ((const char *const[]){ __VA_ARGS__, NULL })

static void a_row_has_commas_between_and_ends_as_the_rfc_wants(void **state)
{
    (void)state;
    writes(ROW("one", "two words", ""), "one,two words,\r\n");
    writes(ROW("", ""), ",\r\n");
    writes(ROW("opening 1, start", "6\" stake"), "\"opening 1, start\",\"6\"\" stake\"\r\n");
    writes(ROW(" before", "behind "), "\" before\",\"behind \"\r\n");
    writes(ROW("\"", ","), "\"\"\"\",\",\"\r\n");
}

static void what_a_spreadsheet_would_compute_is_a_text(void **state)
{
    (void)state;
    writes(ROW("=1+1", "+1", "-1", "@x"), "'=1+1,'+1,'-1,'@x\r\n");
    writes(ROW("=HYPERLINK(\"a\",\"b\")"), "\"'=HYPERLINK(\"\"a\"\",\"\"b\"\")\"\r\n");
    writes(ROW("\t=1", " \r\n@x"), "\"' =1\",\"'   @x\"\r\n");
    writes(ROW("a=1", "1-2", "'=1"), "a=1,1-2,'=1\r\n");
}

static void a_line_is_a_row_whatever_is_in_it(void **state)
{
    (void)state;
    writes(ROW("upper\nlower", "left\tright", "over\rwritten"),
           "upper lower,left right,over written\r\n");
    writes(ROW("ring\a", "\xff", "\x1b[31mred", "e\xcc\x81tang", "\xe2\x80\xaeturned"),
           "ring?,?,?[31mred,e\xcc\x81tang,?turned\r\n");
    struct buf out;
    buf_init(&out);
    struct csv c = { .out = &out };
    csv_text(&c, "a\0b", 3);
    csv_end(&c);
    assert_string_equal(out.data, "a?b\r\n");
    buf_clear(&out);
}

static void numbers_are_plain(void **state)
{
    (void)state;
    struct buf out;
    buf_init(&out);
    struct csv c = { .out = &out };
    csv_number(&c, -87.5, 7);
    csv_number(&c, 12345.67, 1);
    csv_number(&c, 3, 0);
    csv_number(&c, NAN, 1);
    csv_number(&c, INFINITY, 1);
    csv_empty(&c);
    csv_end(&c);
    csv_empty(&c);
    csv_number(&c, 0, 0);
    csv_end(&c);
    assert_string_equal(out.data, "-87.5000000,12345.7,3,,,\r\n,0\r\n");
    buf_clear(&out);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_row_has_commas_between_and_ends_as_the_rfc_wants),
        cmocka_unit_test(what_a_spreadsheet_would_compute_is_a_text),
        cmocka_unit_test(a_line_is_a_row_whatever_is_in_it),
        cmocka_unit_test(numbers_are_plain),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

#include "../unit.h"

#include <string.h>

#include "base/fault.h"
#include "page/strip.h"

static struct date on(int year, int month, int day)
{
    struct date d = { 0 };
    struct fault f;
    fault_clear(&f);
    assert_true(date_make(year, month, day, &d, &f));
    return d;
}

static void row(struct strip *s, const char *label)
{
    strip_row(s, label, strlen(label));
}

static void check(struct strip *take, int columns, const char *wanted)
{
    struct buf b;
    struct fault f;
    buf_init(&b);
    fault_clear(&f);
    assert_true(strip_text(take, 2, columns, &b, &f));
    assert_string_equal(b.data, wanted);
    buf_clear(&b);
    strip_free(take);
}

static void a_year_has_a_column_a_week_from_its_first_month(void **state)
{
    (void)state;
    struct strip *s = strip_new();
    row(s, "Fell the aspen");
    strip_mark(s, STRIP_OPEN, on(2026, 11, 15), on(2027, 3, 31));
    strip_mark(s, STRIP_PLANNED, on(2026, 11, 16), on(2026, 12, 19));
    row(s, "Mow");
    strip_mark(s, STRIP_PLANNED, on(2027, 8, 16), on(2027, 8, 21));
    check(s, 80,
          "                  2026     2027\n"
          "                  Nov Dec  Jan Feb Mar Apr  May Jun Jul  Aug Sep  Oct\n"
          "  Fell the aspen   -#####---------------\n"
          "  Mow                                                      #\n"
          "\n"
          "  # planned   - may be done\n");
}

static void a_december_has_its_year_where_there_is_room(void **state)
{
    (void)state;
    struct strip *s = strip_new();
    row(s, "Sale");
    strip_mark(s, STRIP_PLANNED, on(2026, 12, 15), on(2026, 12, 22));
    row(s, "Mow");
    strip_mark(s, STRIP_PLANNED, on(2029, 8, 2), on(2029, 8, 2));
    /* Five Thursdays in December 2026, four in that of 2028. */
    check(s, 80,
          "        2026 2027\n"
          "        Dec  Jan Feb Mar Apr  May Jun Jul  Aug Sep  Oct Nov\n"
          "  Sale    ##\n"
          "\n"
          "            2029\n"
          "        Dec Jan Feb Mar  Apr May  Jun Jul Aug  Sep Oct Nov\n"
          "  Mow                                     #\n"
          "\n"
          "  # planned\n");
}

static void further_years_are_panels_with_the_rows_that_have_work_in_them(void **state)
{
    (void)state;
    struct strip *s = strip_new();
    row(s, "Alder");
    strip_mark(s, STRIP_PLANNED, on(2027, 1, 18), on(2027, 1, 23));
    strip_mark(s, STRIP_PLANNED, on(2032, 1, 19), on(2032, 1, 24));
    row(s, "Mow");
    strip_mark(s, STRIP_PLANNED, on(2027, 12, 28), on(2028, 1, 8));
    check(s, 80,
          "         2027\n"
          "         Jan Feb Mar Apr  May Jun Jul  Aug Sep  Oct Nov Dec\n"
          "  Alder    #\n"
          "  Mow                                                       #\n"
          "\n"
          "         2028\n"
          "         Jan Feb Mar  Apr May Jun  Jul Aug  Sep Oct Nov  Dec\n"
          "  Mow    #\n"
          "\n"
          "         2032\n"
          "         Jan  Feb Mar Apr  May Jun Jul  Aug Sep  Oct Nov Dec\n"
          "  Alder     #\n"
          "\n"
          "  # planned\n");
}

static void a_narrow_page_has_shorter_panels_and_labels_are_cut(void **state)
{
    (void)state;
    struct strip *s = strip_new();
    row(s, "Plant the pasture screen");
    strip_mark(s, STRIP_OPEN, on(2027, 3, 15), on(2027, 5, 31));
    strip_mark(s, STRIP_PLANNED, on(2027, 4, 19), on(2027, 4, 24));
    row(s, "Seed");
    strip_mark(s, STRIP_OPEN, on(2027, 8, 1), on(2027, 9, 15));
    check(s, 44,
          "                          2027\n"
          "                          Mar Apr  May Jun\n"
          "  Plant the pasture sc..    -----#------\n"
          "\n"
          "                          2027\n"
          "                          Jul  Aug Sep  Oct\n"
          "  Seed                        --------\n"
          "\n"
          "  # planned   - may be done\n");
}

static void a_cut_label_still_tells_its_row_from_the_others(void **state)
{
    (void)state;
    struct strip *s = strip_new();
    const char *const labels[] = { "Old pasture: mow the eastern half",
                                   "Old pasture: mow the western half",
                                   "Old pasture: mow the western half",
                                   "Old pasture: plant the screen of spruce",
                                   "\xe6\xa3\xae\xe6\xa3\xae\xe6\xa3\xae\xe6\xa3\xae\xe6\xa3\xae"
                                   "\xe6\xa3\xae\xe6\xa3\xae\xe6\xa3\xae\xe6\xa3\xae\xe6\xa3\xae"
                                   "\xe6\xa3\xae\xe6\xa3\xae",
                                   "Old pasture: look for     grouse" };
    for (int i = 0; i < 6; i++) {
        row(s, labels[i]);
        strip_mark(s, STRIP_PLANNED, on(2027, 1, 4), on(2027, 1, 10));
    }
    check(s, 80,
          "                           2027\n"
          "                           Jan Feb Mar Apr  May Jun Jul  Aug Sep  Oct Nov Dec\n"
          "  Old pasture: mow the     #\n"
          "    eastern half\n"
          "  Old pasture: mow the     #\n"
          "    western half\n"
          "  Old pasture: mow the     #\n"
          "    western half\n"
          "  Old pasture: plant th..  #\n"
          "  \xe6\xa3\xae\xe6\xa3\xae\xe6\xa3\xae\xe6\xa3\xae\xe6\xa3\xae"
          "\xe6\xa3\xae\xe6\xa3\xae\xe6\xa3\xae\xe6\xa3\xae\xe6\xa3\xae..   #\n"
          "  Old pasture: look for..  #\n"
          "\n"
          "  # planned\n");
}

static void a_row_that_could_not_be_placed_shows_where_it_may_be_done(void **state)
{
    (void)state;
    struct strip *s = strip_new();
    row(s, "Burn");
    strip_mark(s, STRIP_OPEN, on(2027, 4, 1), on(2027, 4, 30));
    row(s, "Call");
    check(s, 80,
          "        2027                                    2028\n"
          "        Apr  May Jun Jul  Aug Sep  Oct Nov Dec  Jan Feb Mar\n"
          "  Burn  -----\n"
          "  Call\n"
          "\n"
          "  - may be done\n");
}

static void nothing_to_show_is_nothing(void **state)
{
    (void)state;
    check(strip_new(), 80, "");
    struct strip *s = strip_new();
    row(s, "Call");
    check(s, 80, "");
}

static void every_day_of_the_calendar_can_be_drawn(void **state)
{
    (void)state;
    struct strip *s = strip_new();
    row(s, "first");
    strip_mark(s, STRIP_PLANNED, on(1900, 1, 1), on(1900, 1, 7));
    row(s, "last");
    strip_mark(s, STRIP_PLANNED, on(2200, 12, 22), on(2200, 12, 31));
    struct buf b;
    struct fault f;
    buf_init(&b);
    fault_clear(&f);
    assert_true(strip_text(s, 0, 80, &b, &f));
    assert_non_null(strstr(b.data, "first  #\n"));
    const char *last = strstr(b.data, "last ");
    assert_non_null(last);
    assert_int_equal(strcspn(last, "\n"), 7 + 53); /* the week that runs into 2201 too */
    buf_clear(&b);
    strip_free(s);
}

static void each_week_is_in_one_month_and_one_panel(void **state)
{
    (void)state;
    /* A week at a time over 12 years, the planned weeks drawn must add up. */
    struct strip *s = strip_new();
    row(s, "w");
    for (int i = 0; i < 626; i++) {
        struct date monday = { on(2024, 1, 1).day + 7 * i };
        strip_mark(s, STRIP_PLANNED, monday, (struct date){ monday.day + 6 });
    }
    for (int columns = 24; columns <= 80; columns += 7) {
        struct buf b;
        struct fault f;
        buf_init(&b);
        fault_clear(&f);
        assert_true(strip_text(s, 0, columns, &b, &f));
        int weeks = 0, width = 0;
        for (const char *c = b.data; *c != '\0'; c++) {
            width = *c == '\n' ? 0 : width + 1;
            assert_true(width <= columns);
            weeks += *c == '#';
        }
        assert_int_equal(weeks, 626 + 1); /* and the legend's */
        buf_clear(&b);
    }
    strip_free(s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_year_has_a_column_a_week_from_its_first_month),
        cmocka_unit_test(a_december_has_its_year_where_there_is_room),
        cmocka_unit_test(further_years_are_panels_with_the_rows_that_have_work_in_them),
        cmocka_unit_test(a_narrow_page_has_shorter_panels_and_labels_are_cut),
        cmocka_unit_test(a_cut_label_still_tells_its_row_from_the_others),
        cmocka_unit_test(a_row_that_could_not_be_placed_shows_where_it_may_be_done),
        cmocka_unit_test(nothing_to_show_is_nothing),
        cmocka_unit_test(every_day_of_the_calendar_can_be_drawn),
        cmocka_unit_test(each_week_is_in_one_month_and_one_panel),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

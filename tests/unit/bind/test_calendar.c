/* Dates, days and windows as values of scripts: whole days, exact, and refused in words
 * where they would not be. */
#include "../unit.h"

#include "../lang/rig.h"

/* Adds what literals make: Nov 15, Feb 29, Mar 31, and Nov 15 to Mar 31. */
static int add_days(lua_State *L)
{
    static const struct {
        const char *name;
        struct month_day day;
    } days[] = { { "nov15", { 11, 15 } },
                 { "feb29", { 2, 29 } },
                 { "mar31", { 3, 31 } } };
    sandbox_vocabulary(L);
    for (size_t i = 0; i < sizeof days / sizeof *days; i++) {
        day_push(L, days[i].day);
        lua_setfield(L, -2, days[i].name);
    }
    window_push(L, yearly_of((struct window){ { 11, 15 }, { 3, 31 } }));
    lua_setfield(L, -2, "dormant");
    return 0;
}

static bool gives(const char *expression, const char *printed)
{
    struct rig r;
    char text[600], wanted[300];
    snprintf(text, sizeof text, "print(%s)", expression);
    snprintf(wanted, sizeof wanted, "%s\n", printed);
    rig_open(&r, add_days);
    bool ok = rig_run(&r, text) && strcmp(r.printed.data, wanted) == 0;
    if (!ok)
        fprintf(stderr, "%s\n  gave %s  wanted %s  %s\n", expression, r.printed.data,
                wanted, r.fault.message);
    rig_close(&r);
    return ok;
}

static bool refuses(const char *expression, const char *id, const char *message)
{
    struct rig r;
    char text[600];
    snprintf(text, sizeof text, "\nlocal x = %s", expression);
    rig_open(&r, add_days);
    bool ok = !rig_run(&r, text) && strcmp(r.fault.id, id) == 0 && rig_line(&r) == 2 &&
              strcmp(r.fault.message, message) == 0;
    if (!ok)
        fprintf(stderr, "%s\n  [%s] line %u %s\n", expression,
                r.fault.id ? r.fault.id : "none", (unsigned)rig_line(&r),
                r.fault.message);
    rig_close(&r);
    return ok;
}

static void a_date_moves_by_calendar_time(void **state)
{
    (void)state;
    assert_true(gives("date(2026, 10, 14) + measure(3, 'wk')", "Nov 4 2026"));
    assert_true(gives("measure(1, 'd') + date(2026, 12, 31)", "Jan 1 2027"));
    assert_true(gives("date(2026, 3, 1) - measure(1, 'd')", "Feb 28 2026"));
    assert_true(gives("date(2028, 1, 31) + measure(1, 'mo')", "Feb 29 2028"));
    assert_true(gives("date(2028, 2, 29) + measure(1, 'yr')", "Feb 28 2029"));
    assert_true(gives("date(2026, 5, 31) - measure(3, 'mo')", "Feb 28 2026"));
    assert_true(gives("date(2026, 1, 15) + measure(0.5, 'yr')", "Jul 15 2026"));
    assert_true(gives("date(2026, 1, 1) + measure(1, 'wk') * 2", "Jan 15 2026"));
    assert_true(gives("date(2026, 10, 14) - date(2026, 10, 1)", "13 d"));
    assert_true(gives("number(date(2026, 10, 1) - date(2026, 10, 14), 'd')", "-13.0"));
}

static void a_date_does_not_move_by_anything_else(void **state)
{
    (void)state;
    assert_true(refuses("date(2026, 1, 1) + measure(3, 'h')", "date-move",
                        "a date does not move by 3 h"));
    assert_true(refuses("date(2026, 1, 1) + measure(1.5, 'd')", "date-move",
                        "a date moves by whole days, not by 1.5 d"));
    assert_true(refuses("date(2026, 1, 1) + range(3, 6, 'wk')", "date-move",
                        "a date does not move by an uncertain time, 4.5 wk"));
    assert_true(refuses("date(2026, 1, 1) + 3", "operand-kind",
                        "cannot work out a date (Jan 1 2026) + 3"));
    assert_true(refuses("date(2026, 1, 1) + '3 d'", "operand-kind",
                        "cannot work out a date (Jan 1 2026) + text (\"3 d\")"));
    assert_true(refuses("date(2026, 1, 1) + date(2026, 1, 1)", "operand-kind",
                        "cannot work out a date (Jan 1 2026) + a date (Jan 1 2026)"));
    assert_true(refuses("measure(1, 'd') - date(2026, 1, 1)", "operand-kind",
                        "cannot work out 1 d - a date (Jan 1 2026)"));
    assert_true(refuses("date(2199, 12, 31) + measure(900, 'yr')", "date-year",
                        "10800 months from Dec 31 2199 is outside the calendar"));
    assert_true(
        refuses("date(2026, 11, 31)", "date-day", "November has 30 days, not 31"));
    assert_true(refuses("date(2026, 1, 1).yer", "calendar-part",
                        "a date (Jan 1 2026) has no `yer`"));
    assert_true(refuses("date(2026, 1, 1) < nov15", "operand-kind",
                        "cannot compare a date (Jan 1 2026) with a day (Nov 15)"));
    assert_true(refuses("date(2026, 1, 1) < 3", "operand-kind",
                        "cannot compare a date (Jan 1 2026) with 3"));
}

static void dates_compare_and_tell_their_parts(void **state)
{
    (void)state;
    assert_true(
        gives("date(2026, 1, 2) > date(2026, 1, 1), date(2026, 1, 1) <= date(2026, 1, 1)",
              "true\ttrue"));
    assert_true(gives("date(2026, 1, 1) == date(2026, 1, 1), date(2026, 1, 1) == nov15",
                      "true\tfalse"));
    assert_true(
        gives("date(2026, 10, 14).year, date(2026, 10, 14).month, date(2026, 10, 14).day,"
              " date(2026, 10, 14).weekday",
              "2026\t10\t14\t3"));
    assert_true(gives("date(2026, 10, 14), nov15, dormant, 'on ' .. tostring(nov15)",
                      "Oct 14 2026\tNov 15\tNov 15 to Mar 31\ton Nov 15"));
    assert_true(gives("nov15.month, nov15.day, nov15:in_year(2026), feb29:in_year(2028)",
                      "11\t15\tNov 15 2026\tFeb 29 2028"));
    assert_true(gives("nov15 < mar31, mar31 <= nov15, nov15 == nov15, nov15 == mar31",
                      "false\ttrue\ttrue\tfalse"));
    assert_true(refuses("feb29:in_year(2027)", "date-day", "2027 has no Feb 29"));
}

static void windows_are_sets_of_days(void **state)
{
    (void)state;
    assert_true(gives("dormant:has(date(2026, 12, 24)), dormant:has(date(2026, 7, 1)),"
                      " dormant:has(nov15), dormant:has(feb29)",
                      "true\tfalse\ttrue\ttrue"));
    assert_true(gives("window(mar31, nov15) + dormant", "all year"));
    assert_true(gives("window(mar31, nov15) * dormant", "Mar 31, Nov 15"));
    assert_true(
        gives("dormant - dormant, dormant == window(nov15, mar31)", "never\ttrue"));
    assert_true(gives(
        "dormant:next(date(2026, 7, 1)), (dormant - dormant):next(date(2026, 7, 1))",
        "Nov 15 2026\tnil"));
    assert_true(gives("dormant:days(date(2026, 11, 1), date(2026, 11, 30)),"
                      " dormant:weeks(date(2026, 11, 1), date(2026, 11, 30))",
                      "16\t4"));
    assert_true(refuses("dormant + nov15", "operand-kind",
                        "cannot work out a window (Nov 15 to Mar 31) + a day (Nov 15)"));
    assert_true(
        refuses("dormant:has(3)", "operand-kind", "a date is wanted here, this is 3"));
    assert_true(refuses("dormant:next(nov15)", "operand-kind",
                        "a date is wanted here, this is a day (Nov 15)"));
    assert_true(refuses("dormant:nxt(nov15)", "calendar-part",
                        "a window (Nov 15 to Mar 31) has no `nxt`"));
    assert_true(refuses("window(date(2026, 1, 1), nov15)", "operand-kind",
                        "`window` takes two days of any year"));
    assert_true(
        refuses("dormant.has(dormant.days)", "operand-kind", "this works on a window"));
}

static void nothing_of_them_can_be_changed(void **state)
{
    (void)state;
    assert_true(rig_fails("local d = date(2026, 1, 1)\nd.year = 3", "calendar-part", 2,
                          "cannot be changed"));
    assert_true(gives("getmetatable(nov15), getmetatable(dormant)", "false\tfalse"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_date_moves_by_calendar_time),
        cmocka_unit_test(a_date_does_not_move_by_anything_else),
        cmocka_unit_test(dates_compare_and_tell_their_parts),
        cmocka_unit_test(windows_are_sets_of_days),
        cmocka_unit_test(nothing_of_them_can_be_changed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

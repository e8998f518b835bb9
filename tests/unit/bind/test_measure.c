/* Measures in scripts: what every operator does with every kind of value, the functions
 * of the vocabulary, and that no quantity is ever lost or kept too long. */
#include "../unit.h"

#include "../lang/rig.h"

#define MEASURES                                                                  \
    "local ft, ac, h, n = measure(15, 'ft'), measure(3, 'ac'), measure(2, 'h'), " \
    "measure(50, 'percent')\n"

static bool prints(const char *expression, const char *printed)
{
    char text[1000], wanted[400];
    snprintf(text, sizeof text, MEASURES "print(%s)", expression);
    snprintf(wanted, sizeof wanted, "%s\n", printed);
    return rig_prints(text, wanted);
}

static bool fails(const char *expression, const char *id, const char *words)
{
    char text[1000];
    snprintf(text, sizeof text, MEASURES "local x = %s", expression);
    return rig_fails(text, id, 2, words);
}

static void arithmetic_keeps_units(void **state)
{
    static const char *const list[][2] = {
        { "ft + measure(6, 'in')", "15.5 ft" },
        { "ft - measure(5, 'ft')", "10 ft" },
        { "ft * ft", "225 ft2" },
        { "ft * 2", "30 ft" },
        { "2 * ft", "30 ft" },
        { "ft * 0.5", "7.5 ft" },
        { "ft / 3", "5 ft" },
        { "3 / measure(2, 'h')", "1.5 per h" },
        { "ft / measure(60, 'in')", "3" },
        { "-ft", "-15 ft" },
        { "ft ^ 2", "225 ft2" },
        { "(ft ^ 2) ^ 0.5", "15 ft" },
        { "(ft ^ 3) ^ (1 / 3)", "15 ft" },
        { "n + 0.25", "75 percent" },
        { "0.25 + n", "0.75" },
        { "1 - n", "0.5" },
        { "ft / 10 * 7", "10.5 ft" },
        { "number(measure(1, 'ac'), 'ft2')", "43560.0" },
        { "measure(12, 'in') == measure(1, 'ft')", "true" },
        { "measure(43560, 'ft2') == measure(1, 'ac')", "true" },
    };
    (void)state;
    size_t bad = 0;
    for (size_t i = 0; i < sizeof list / sizeof *list; i++)
        bad += !prints(list[i][0], list[i][1]);
    assert_int_equal(bad, 0);
}

/* Hazard: each operator with each kind, on both sides. */
static void every_operator_meets_every_kind(void **state)
{
    static const char *const operators[] = { "+", "-",  "*", "/",  "//", "%",
                                             "^", "..", "<", "<=", ">",  ">=" };
    static const struct {
        const char *value;
        bool multiplies; /* by any number */
    } kinds[] = {
        { "3", true },      { "2.5", true },
        { "'3'", false },   { "nil", false },
        { "true", false },  { "{}", false },
        { "print", false }, { "date(2026, 1, 1)", false },
    };
    (void)state;
    size_t bad = 0;
    for (size_t o = 0; o < sizeof operators / sizeof *operators; o++) {
        for (size_t k = 0; k < sizeof kinds / sizeof *kinds; k++) {
            for (int side = 0; side < 2; side++) {
                char text[300];
                snprintf(text, sizeof text,
                         "local m, v = measure(15, 'ft'), %s\nlocal x = %s %s %s",
                         kinds[k].value, side == 0 ? "m" : "v", operators[o],
                         side == 0 ? "v" : "m");
                const char *op = operators[o];
                bool works =
                    (kinds[k].multiplies && (op[0] == '*' || strcmp(op, "/") == 0)) ||
                    (strcmp(op, "^") == 0 && side == 0 &&
                     strcmp(kinds[k].value, "3") == 0) ||
                    (strcmp(op, "..") == 0 && (k < 3 || k == 7));
                struct rig r;
                rig_open(&r, NULL);
                bool ran = rig_run(&r, text);
                bool placed = ran || (rig_line(&r) == 2 && strlen(r.fault.message) > 10);
                if (ran != works || !placed || strstr(r.fault.message, "attempt to")) {
                    fprintf(stderr, "%s -> %s %s\n", text, ran ? "ran" : r.fault.id,
                            r.fault.message);
                    bad++;
                }
                rig_close(&r);
            }
        }
    }
    assert_int_equal(bad, 0);
}

static void what_does_not_fit_is_told_with_both_sides(void **state)
{
    (void)state;
    assert_true(fails("ft + ac", "dimension-add", "15 ft is a length, 3 ac is an area"));
    assert_true(fails("ac - ft", "dimension-add", "3 ac is an area, 15 ft is a length"));
    assert_true(
        fails("ft < ac", "dimension-compare", "15 ft is a length, 3 ac is an area"));
    assert_true(
        fails("ft > ac", "dimension-compare", "15 ft is a length, 3 ac is an area"));
    assert_true(fails("ft == ac", "dimension-compare", "15 ft is a length"));
    assert_true(fails("ft ~= ac", "dimension-compare", "15 ft is a length"));
    assert_true(
        fails("ft + 3", "dimension-add", "15 ft is a length, 3 is a bare number"));
    assert_true(
        fails("3 + ft", "dimension-add", "3 is a bare number, 15 ft is a length"));
    assert_true(fails("ft < 3", "dimension-compare", "bare number"));
    assert_true(fails("h + measure(1, 'd')", "dimension-add", "working time"));
    assert_true(
        fails("measure(1, 'stems') + measure(1, 'plants')", "dimension-add", "stems"));
    assert_true(
        fails("ft + '3'", "operand-kind", "cannot work out 15 ft + text (\"3\")"));
    assert_true(
        fails("'3' * ft", "operand-kind", "cannot work out text (\"3\") * 15 ft"));
    assert_true(
        fails("ft + nil", "operand-kind", "cannot work out 15 ft + nil (nothing)"));
    assert_true(fails("{} / ft", "operand-kind", "cannot work out a table / 15 ft"));
    assert_true(
        fails("ft < '3'", "operand-kind", "cannot compare 15 ft with text (\"3\")"));
    assert_true(fails("ft % 2", "operand-kind", "a measure has no remainder (%)"));
    assert_true(fails("ft // 2", "operand-kind", "measures are not divided with //"));
    assert_true(fails("ft ^ 1.3", "dimension-power", "only whole powers"));
    assert_true(fails("2 ^ ft", "operand-kind", "cannot work out 2 ^ 15 ft"));
    assert_true(fails("ft / 0", "divide-by-zero", "zero"));
    assert_true(fails("ft * (0 / 0)", "value-not-finite", ""));
    assert_true(fails("ft * math.huge", "value-not-finite", ""));
    assert_true(fails("ft .. {}", "operand-kind", "cannot work out 15 ft .. a table"));
    assert_true(
        fails("ft()", "script-error", "`ft` is a measure, which cannot be called"));
    assert_true(fails("#ft", "script-error", "`ft` is a measure, which has no length"));
    assert_true(fails("ft | 1", "script-error", "`ft` is a measure, which has no bits"));
    assert_true(
        rig_fails(MEASURES "ft.width = 3", "measure-part", 2, "cannot be changed"));
    assert_true(
        rig_fails(MEASURES "print(ft.nmber)", "measure-part", 2, "has no `nmber`"));
}

/* Lua never asks a metamethod about a measure and a number. */
static void equality_has_its_stated_outcome(void **state)
{
    (void)state;
    assert_true(prints("ft == 15", "false"));
    assert_true(prints("ft ~= 15", "true"));
    assert_true(prints("ft == '15 ft'", "false"));
    assert_true(prints("ft == nil", "false"));
    assert_true(prints("ft == measure(180, 'in')", "true"));
    assert_true(
        prints("measure(0.1, 'ft') + measure(0.2, 'ft') == measure(0.3, 'ft')", "true"));
    assert_true(prints("ft == date(2026, 1, 1)", "false"));
    assert_true(prints("ft ~= measure(15.001, 'ft')", "true"));
    assert_true(
        rig_prints("local t = {} t[measure(15, 'ft')] = 1\n"
                   "print(t[measure(15, 'ft')], t[key(measure(15, 'ft'))])\n"
                   "t[key(measure(15, 'ft'))] = 2 print(t[key(measure(180, 'in'))])",
                   "nil\tnil\n2\n"));
    assert_true(prints("key(ft), key(measure(180, 'in')), ft:key(), key(3), key('x')",
                       "15 ft\t15 ft\t15 ft\t3\tx"));
    assert_true(prints("key(measure(80, 'ft2/ac')) == key(measure(80, 'ft2'))", "false"));
}

static void measures_are_joined_to_texts(void **state)
{
    (void)state;
    assert_true(prints("'width ' .. ft .. '!', ft .. 3, 3 .. ft, ft .. ac",
                       "width 15 ft!\t15 ft3\t315 ft\t15 ft3 ac"));
    assert_true(
        prints("tostring(ft), ('%s|%6s'):format(ft, h), table.concat({ ft, 1 }, ',')",
               "15 ft\t15 ft|   2 h\t15 ft,1"));
    assert_true(prints("measure(1, 'trees'), measure(2, 'trees'), measure(-1, 'ft') * 0",
                       "1 tree\t2 trees\t0 ft"));
    assert_true(fails("('%d'):format(ft)", "script-error",
                      "`format` wants a number as its first value, this is a measure"));
}

static void numbers_come_out_only_in_a_unit_that_is_named(void **state)
{
    (void)state;
    assert_true(
        prints("number(ft, 'in'), ft:number 'yd', number(3), number(n), n:number()",
               "180.0\t5.0\t3\t0.5\t0.5"));
    assert_true(prints(
        "count(measure(7, 'plants'), 'plants'), count(3.0), measure(2, 'ft'):count 'in'",
        "7\t3\t24"));
    assert_true(fails("number(ft)", "unit-missing", "say in which unit"));
    assert_true(fails("number(ft, 'ac')", "dimension-say", "15 ft is a length"));
    assert_true(fails("number(ft, 'foot2x')", "unit-unknown", ""));
    assert_true(fails("number(ft, ac)", "unit-missing", "a unit in quotes is wanted"));
    assert_true(fails("number('3', 'ft')", "operand-kind", "`number` takes measures"));
    assert_true(fails("count(measure(2.5, 'plants'), 'plants')", "count-whole",
                      "no whole count"));
    assert_true(
        fails("measure(ft, 'ft')", "operand-kind", "takes a bare number and a unit"));
    assert_true(fails("measure(3)", "unit-missing", "unit in quotes"));
    assert_true(fails("measure(0 / 0, 'ft')", "value-not-finite", ""));
    assert_true(
        prints("ft:say 'in', ft:say 'yd', ft:named 'width'", "180 in\t5 yd\t15 ft"));
    assert_true(fails("ft:say 'ac'", "dimension-say", "cannot be said in ac"));
    assert_true(fails("ft.say 'ac'", "operand-kind", "this works on a measure"));
}

static void several_and_one(void **state)
{
    (void)state;
    assert_true(
        prints("min(ft, measure(10, 'ft')), max(ft, measure(10, 'ft')), math.max(1, 3)",
               "10 ft\t15 ft\t3"));
    assert_true(
        prints("math.min(ft, measure(2, 'in'), ft), min(2, 1), max(n, 0.7), max(ft)",
               "0.167 ft\t1\t70 percent\t15 ft"));
    assert_true(prints(
        "sum(ft, ft, measure(12, 'in')), sum { ft, ft }, sum(1, 2.5), sum {}, sum()",
        "31 ft\t30 ft\t3.5\t0\t0"));
    assert_true(prints("sum(n, 0.25), sum { 1, 2 }", "75 percent\t3"));
    assert_true(
        prints("ceil(measure(2.1, 'plants')), floor(measure(2.9, 'ft')), ceil(2.1)",
               "3 plants\t2 ft\t3"));
    assert_true(prints("ceil(measure(13, 'in'), 'ft'), math.ceil(ft), math.floor(-2.5)",
                       "2 ft\t15 ft\t-3"));
    assert_true(prints("sqrt(ft * ft), math.sqrt(9), abs(-ft), abs(ft), math.abs(-3)",
                       "15 ft\t3.0\t15 ft\t15 ft\t3"));
    assert_true(
        prints("same(ft, measure(16, 'ft'), measure(1, 'ft')), same(1, 1.05, 0.1)",
               "true\ttrue"));
    assert_true(
        prints("same(ft, measure(16, 'ft'), measure(6, 'in')), same(ft, ft), same(1, 2)",
               "false\ttrue\tfalse"));
    assert_true(fails("max(ft, ac)", "dimension-compare", "15 ft is a length"));
    assert_true(
        fails("max(ft, 'x')", "operand-kind", "`max` takes measures and numbers"));
    assert_true(
        fails("sum { ft, 'x' }", "operand-kind", "`sum` takes measures and numbers"));
    assert_true(fails("sum(ft, ac)", "dimension-add", "length"));
    assert_true(fails("same(ft, ac, ft)", "dimension-compare", ""));
}

static void ranges_are_drawn(void **state)
{
    (void)state;
    assert_true(prints("range(2, 3, 'h'), range(2, 3), range(2, 3, 2.2, 'h')",
                       "2.5 h\t2.5\t2.2 h"));
    assert_true(
        prints("range(ft, measure(20, 'ft')), range(measure(12, 'in'), measure(2, 'ft'))",
               "17.5 ft\t18 in"));
    assert_true(rig_prints("local r = range(2, 3, 'h')\n"
                           "print(('%.2f %.2f'):format(r:low 'h', r:high 'h'))\n"
                           "print(measure(3, 'h'):low 'h')",
                           "2.00 3.00\n3.0\n"));
    assert_true(rig_prints("local a, b = range(2, 3, 'h'), measure(1, 'h')\n"
                           "print(chance(a, b), chance(b, a), chance(3, 2))\n"
                           "local c = chance(a, 2.5 * b) print(c > 0.4 and c < 0.6)",
                           "100 percent\t0 percent\t100 percent\ntrue\n"));
    /* each call is a quantity of its own: the difference of two is not nothing */
    assert_true(
        rig_prints("local function r() return range(2, 3, 'h') end\n"
                   "local d = r() - r()\nprint(d:high 'h' > 0.3, (d - d):high 'h')\n"
                   "local a = r() print((a - a):high 'h')",
                   "true\t0.0\n0.0\n"));
    assert_true(fails("range(3, 2)", "range-order", ""));
    assert_true(fails("range(2)", "range-ends", "two numbers or two measures"));
    assert_true(fails("range(2, ft)", "range-ends", "two numbers or two measures"));
    assert_true(fails("range(ft, ac)", "dimension-say", "cannot be said in ft"));
    assert_true(fails("range(range(1, 2), measure(1, 'ft') / ft)", "range-ends",
                      "cannot be ranges themselves"));
}

static void overlapping_ranges_leave_a_note(void **state)
{
    (void)state;
    struct rig r;
    rig_open(&r, NULL);
    assert_true(rig_run(&r, "local a, b = range(2, 3, 'h'), range(2.5, 4, 'h')\n"
                            "local c = measure(9, 'h')\n"
                            "print(a < c, measure(1, 'h') < c)\n"
                            "for i = 1, 100 do local x = a < b end\n"
                            "print(a == b)"));
    assert_string_equal(r.printed.data, "true\ttrue\nfalse\n");
    assert_int_equal(r.host.warnings.count, 2);
    const struct fault *f = &r.host.warnings.list[0];
    assert_string_equal(f->id, "compare-overlap");
    assert_string_equal(f->message,
                        "compared by their likely values (2.5 h, 3.25 h), but "
                        "their ranges overlap");
    assert_int_equal(source_place(r.host.sources, f->at).line, 4);
    rig_close(&r);
}

/* ---- what holds a quantity ---- */

static const char busy[] =
    "local a, b = measure(15, 'ft'), range(2, 3, 'ft')\n"
    "local keep = {}\n"
    "for i = 1, 20 do\n"
    "  local c = (a + b) * 2 - a / 3 + max(a, b) - abs(-b)\n"
    "  keep[(i - 1) % 5 + 1] = sum { c, a, b, ceil(a) }\n"
    "  local s = tostring(c) .. ' ' .. key(a) .. c\n"
    "  local co = coroutine.wrap(function() coroutine.yield(c + a) return c end)\n"
    "  co() co()\n"
    "  pcall(function() return c + 3 end)\n"
    "  s = s:gsub('%d', function(d) return d .. '.' end):upper():rep(2, '-')\n"
    "  table.sort(keep, function(x, y) return number(x, 'ft') < number(y, 'ft') end)\n"
    "  for k, v in pairs { z = 1, y = c, x = a } do s = s .. k end\n"
    "  local d = date(2026, 1, 1) + measure(i, 'd')\n"
    "end\n"
    "for i = 1, 5 do print(keep[i]) end\n";

static void nothing_is_kept_too_long(void **state)
{
    (void)state;
    struct rig r;
    rig_open(&r, NULL);
    assert_true(rig_run(&r, busy));
    lua_gc(r.host.L, LUA_GCCOLLECT);
    graph_collect(r.host.graph);
    size_t nodes = graph_nodes(r.host.graph);
    for (int i = 0; i < 50; i++)
        assert_true(rig_run(&r, busy));
    lua_gc(r.host.L, LUA_GCCOLLECT);
    graph_collect(r.host.graph);
    assert_int_equal(graph_nodes(r.host.graph), nodes);
    lua_close(r.host.L);
    r.host.L = NULL;
    graph_collect(r.host.graph);
    assert_true(graph_nodes(r.host.graph) <= 1);
    rig_close(&r);
}

/* Collecting at every instruction changes no result and finds no value that was not held.
 *  */
static void collect_hook(lua_State *L, lua_Debug *ar)
{
    (void)ar;
    lua_gc(L, LUA_GCCOLLECT);
    graph_collect(host_of(L)->graph);
}

static void results_do_not_depend_on_collections(void **state)
{
    (void)state;
    struct rig r;
    rig_open(&r, NULL);
    assert_true(rig_run(&r, busy));
    char wanted[200];
    snprintf(wanted, sizeof wanted, "%s", r.printed.data);
    rig_close(&r);
    rig_open(&r, NULL);
    lua_sethook(r.host.L, collect_hook, LUA_MASKCOUNT, 3);
    assert_true(rig_run(&r, busy));
    assert_string_equal(r.printed.data, wanted);
    rig_close(&r);
}

/* Every n-th allocation fails, once or for good, until the script gets through: each time
 * the fault is the memory's, nothing leaks (the sanitizer looks) and nothing breaks. */
static void each_allocation_may_fail(void **state)
{
    (void)state;
    for (int on = 0; on < 2; on++) {
        long n = 1, step = RIG_SANITIZED ? 7 : 1;
        size_t bad = 0;
        for (bool through = false; !through && bad == 0; n += step) {
            struct rig r;
            if (rig_open_failing(&r, NULL, n, on == 1)) {
                limits_start(r.host.L);
                bool ok = rig_run(&r, busy);
                through = ok && r.asked < n;
                bad += !ok && strcmp(r.fault.id, "limit-memory") != 0;
                if (bad)
                    fprintf(stderr, "allocation %ld: %s %s\n", n, r.fault.id,
                            r.fault.message);
            } else {
                bad += r.asked < n;
            }
            rig_close(&r);
        }
        assert_int_equal(bad, 0);
        assert_true(n > 500);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(arithmetic_keeps_units),
        cmocka_unit_test(every_operator_meets_every_kind),
        cmocka_unit_test(what_does_not_fit_is_told_with_both_sides),
        cmocka_unit_test(equality_has_its_stated_outcome),
        cmocka_unit_test(measures_are_joined_to_texts),
        cmocka_unit_test(numbers_come_out_only_in_a_unit_that_is_named),
        cmocka_unit_test(several_and_one),
        cmocka_unit_test(ranges_are_drawn),
        cmocka_unit_test(overlapping_ranges_leave_a_note),
        cmocka_unit_test(nothing_is_kept_too_long),
        cmocka_unit_test(results_do_not_depend_on_collections),
        cmocka_unit_test(each_allocation_may_fail),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

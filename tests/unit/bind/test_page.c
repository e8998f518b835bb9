#include "../page/failing.h"

#include "../unit.h"

#include <lauxlib.h>
#include <lua.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "bind/calendar.h"
#include "bind/measure.h"
#include "bind/page.h"
#include "lang/host.h"
#include "lang/limits.h"
#include "lang/raise.h"
#include "lang/sandbox.h"
#include "lang/settings.h"
#include "page/terminal.h"
#include "quantity/graph.h"

/* A host with nothing but measures, dates and the page: report scripts are run in it as
 * modules, with `measure(low, likely, high, unit)` and `date` at hand. */
struct stage {
    struct host host;
    struct limits limits;
    struct settings settings;
    struct fault fault;
    size_t granted; /* allocations while the report runs; the rest fail */
};

static int given_measure(lua_State *L)
{
    struct graph *g = host_of(L)->graph;
    struct fault f;
    fault_clear(&f);
    double low = luaL_checknumber(L, 1), likely = luaL_checknumber(L, 2);
    double high = luaL_checknumber(L, 3);
    struct unit_id unit = measure_unit(L, 4);
    uint64_t key = graph_key("given", (uint32_t)likely, 0);
    struct origin nowhere = { SPAN_NONE, NULL };
    measure_push(L, graph_range(g, low, likely, high, unit, key, nowhere, &f));
    return 1;
}

static int given_room(lua_State *L)
{
    lua_newtable(L);
    lua_pushcfunction(L, given_measure);
    lua_setfield(L, -2, "measure");
    sandbox_vocabulary(L);
    lua_getfield(L, -1, "date");
    lua_setfield(L, -3, "date");
    lua_pop(L, 1);
    day_push(L, (struct month_day){ 11, 15 });
    lua_setfield(L, -2, "opening_day");
    window_push(L, yearly_of((struct window){ { 11, 15 }, { 3, 31 } }));
    lua_setfield(L, -2, "dormant");
    return 1;
}

static int open_all(lua_State *L)
{
    struct host *host = lua_touserdata(L, 1);
    sandbox_open(L, host);
    measure_open(L);
    calendar_open(L);
    sandbox_room(L, "page", page_room);
    sandbox_room(L, "given", given_room);
    return 0;
}

static void stage_open(struct stage *s)
{
    memset(s, 0, sizeof *s);
    s->settings = settings_plain();
    s->settings.width = 60;
    s->granted = SIZE_MAX;
    limits_init(&s->limits);
    struct host *host = &s->host;
    host->limits = &s->limits;
    host->settings = &s->settings;
    host->sources = sources_new();
    host->units = units_new();
    host->graph = graph_new(host->units);
    host->L = lua_newstate(limits_alloc, &s->limits);
    assert_non_null(host->L);
    *(struct host **)lua_getextraspace(host->L) = host;
    lua_pushcfunction(host->L, open_all);
    lua_pushlightuserdata(host->L, host);
    assert_int_equal(lua_pcall(host->L, 1, 0, 0), LUA_OK);
    limits_start(host->L);
}

static void stage_close(struct stage *s)
{
    lua_close(s->host.L);
    limits_clear(&s->limits);
    graph_free(s->host.graph);
    units_free(s->host.units);
    sources_free(s->host.sources);
}

/* Runs a report; what it returns is on the stack when true. */
static bool run(struct stage *s, const char *body)
{
    lua_State *L = s->host.L;
    struct buf text;
    buf_init(&text);
    buf_puts(&text, "local page, given = need 'page', need 'given' "
                    "local measure, date = given.measure, given.date "
                    "local d = page.doc()\n");
    buf_puts(&text, body);
    sources_add(s->host.sources, "report.lua", text.data, text.length);
    sandbox_module_env(L);
    bool done = host_load(L, "report.lua", text.data, text.length, &s->fault);
    buf_clear(&text);
    failing_after = s->granted;
    done = done && host_call(L, 0, 1, &s->fault);
    failing_after = SIZE_MAX;
    return done;
}

static void prints(const char *body, const char *wanted)
{
    struct stage s;
    char *text = NULL;
    stage_open(&s);
    bool done = run(&s, body);
    if (done && lua_type(s.host.L, -1) == LUA_TSTRING)
        text = strdup(lua_tostring(s.host.L, -1));
    stage_close(&s);
    if (!done)
        print_error("%s\n", s.fault.message);
    assert_true(done);
    assert_non_null(text);
    assert_string_equal(text, wanted);
    free(text);
}

static void refuses(const char *body, const char *id, const char *message,
                    const char *hint)
{
    struct stage s;
    stage_open(&s);
    bool done = run(&s, body);
    stage_close(&s);
    assert_false(done);
    assert_string_equal(s.fault.message, message);
    assert_string_equal(s.fault.id, id);
    assert_string_equal(s.fault.hint, hint);
}

static void a_report_writes_every_kind_of_block(void **state)
{
    (void)state;
    prints("local hours = measure(58, 72, 88, 'h')\n"
           "d:heading(1, 'Quill ', 'Creek')\n"
           "d:definition('walked', { date(2026, 10, 14) })\n"
           "d:paragraph { 'It takes ', hours, ', or ', { value = hours }, ', ',\n"
           "              { { strong = 'not' }, ' alone' }, '.' }\n"
           "d:item('Keep ', 12, ' oaks, ', 2.50, ' to the acre.')\n"
           "d:note { level = 'stop', 'The line is ', { strong = 'not' }, ' surveyed.',\n"
           "         ask = 'a surveyor', source = { 'walked ', date(2026, 10, 14) } }\n"
           "d:heading(2, 'Acts')\n"
           "d:table { columns = { 'act', { 'hours', align = 'number' },\n"
           "                      { 'when', align = 'right', wrap = false } },\n"
           "          rows = { { 'fell', hours, date(2026, 11, 16) },\n"
           "                   { { 'mow', ' twice' } } },\n"
           "          total = { { strong = 'all' }, hours } }\n"
           "d:rule()\n"
           "d:blank()\n"
           "d:strip { rows = { { label = 'fell', from = date(2026, 11, 16),\n"
           "                     to = date(2026, 12, 19),\n"
           "                     { from = date(2026, 11, 15), to = date(2027, 3, 31),\n"
           "                       mark = 'open' } } } }\n"
           "return page.terminal(d)\n",
           "Quill Creek\n"
           "===========\n"
           "\n"
           "  walked  Oct 14 2026\n"
           "\n"
           "  It takes 72 h (58 to 88), or 72 h, not alone.\n"
           "  - Keep 12 oaks, 2.5 to the acre.\n"
           "\n"
           "  STOP     The line is not surveyed.\n"
           "           Ask: a surveyor\n"
           "           Source: walked Oct 14 2026\n"
           "\n"
           "\n"
           "Acts\n"
           "----\n"
           "\n"
           "  act        hours                   when\n"
           "  ---------  ---------------  -----------\n"
           "  fell       72 h (58 to 88)  Nov 16 2026\n"
           "  mow twice\n"
           "  ---------  ---------------  -----------\n"
           "  all        72 h (58 to 88)\n"
           "\n"
           "  ----------------------------------------------------------\n"
           "\n"
           "\n"
           "        2026     2027\n"
           "        Nov Dec  Jan Feb Mar Apr\n"
           "  fell   -#####---------------\n"
           "\n"
           "  # planned   - may be done\n");
}

static void windows_days_and_nothing_print_too(void **state)
{
    (void)state;
    prints("d:paragraph { 'open ', given.dormant, ', from ', given.opening_day }\n"
           "d:item()\n"
           "d:item {}\n"
           "d:table { columns = { 'act' } }\n"
           "return page.terminal(d)\n",
           "  open Nov 15 to Mar 31, from Nov 15\n"
           "  -\n"
           "  -\n"
           "\n"
           "  act\n"
           "  ---\n"
           "  none\n");
}

static void a_heading_may_name_the_unit(void **state)
{
    (void)state;
    prints("local hours = measure(58, 72, 88, 'h')\n"
           "d:table { columns = { 'act', { 'hours', align = 'number' } },\n"
           "          rows = { { 'fell', { bare = hours, spread = true } },\n"
           "                   { 'mow', { bare = hours } },\n"
           "                   { 'in minutes', { bare = hours:say 'min' } } } }\n"
           "return page.terminal(d)\n",
           "  act         hours\n"
           "  ----------  ----------------\n"
           "  fell           72 (58 to 88)\n"
           "  mow            72\n"
           "  in minutes  4,320\n");
}

static void what_cannot_be_printed_is_refused_in_words(void **state)
{
    (void)state;
    const char *hint = "write a text, a number, a measure, a date, { strong = text }, "
                       "{ value = measure } or { bare = measure }";
    refuses("d:paragraph { true }", "page-run", "a paper cannot print a boolean", hint);
    refuses("d:paragraph(print)", "page-run", "a paper cannot print a function", hint);
    const char *table = "a paper cannot print a table";
    refuses("d:item { { strong = 3 } }", "page-run", table, hint);
    refuses("d:item { { value = '' } }", "page-run", table, hint);
    refuses("d:item { { bare = 3 } }", "page-run", table, hint);
    refuses("d:item { { value = measure(3, 3, 3, 'h'), spread = true } }", "page-run", table,
            hint);
    refuses("d:item { { bare = measure(3, 3, 3, 'h'), strong = 'x' } }", "page-run", table,
            hint);
    refuses("d:item { { strogn = 'x' } }", "page-key",
            "a run of a paper knows no `strogn`", "did you mean `strong`?");
    refuses("d:item { { { { { 'x' } } } } }", "page-run", "runs of text lie 4 lists deep",
            "take the inner braces away");
}

static void shapes_of_blocks_are_checked(void **state)
{
    (void)state;
    refuses("d:heading(4, 'x')", "page-value", "the level of a heading is 1, 2 or 3", "");
    refuses("d:heading('x')", "page-value", "the level of a heading is 1, 2 or 3", "");
    refuses("d:definition({ 'x' }, 3)", "page-value", "the key of a definition is a text",
            "write d:definition(\"Walked\", date)");
    refuses("d:note 'x'", "page-value", "a note of a paper is written in braces", "");
    refuses("d:note { level = 'warning' }", "page-value",
            "`level` is one of \"stop\", \"caution\" or \"note\"", "");
    refuses("d:note { 'x', sauce = 'y' }", "page-key",
            "a note of a paper knows no `sauce`", "did you mean `source`?");
    refuses("d:table { rows = {} }", "page-value",
            "a table needs `columns = { ... }`", "");
    refuses("d:table { columns = {} }", "page-value", "a table has 1 to 16 columns", "");
    refuses("d:table { columns = { { align = 'left' } } }", "page-value",
            "a column needs a title",
            "write \"Hours\" or { \"Hours\", align = \"number\" }");
    refuses("d:table { columns = { { 'a', align = 'center' } } }", "page-value",
            "`align` is one of \"left\", \"right\" or \"number\"", "");
    refuses("d:table { columns = { 'a' }, rows = { 'b' } }", "page-value",
            "a row of a table is a list of cells", "");
    refuses("d:table { columns = { 'a' }, rows = { { 'b', 'c' } } }", "page-value",
            "a row has more cells than the table has columns (1)", "");
    refuses("d:table { columns = { 'a' }, rows = 'b' }", "page-value",
            "`rows` is a list of rows", "");
    refuses("d:strip {}", "page-value", "a strip needs `rows = { ... }`", "");
    refuses("d:strip { rows = { 'x' } }", "page-value",
            "a row of a strip is { label = text, ... }", "");
    refuses("d:strip { rows = { { from = 3 } } }", "page-value",
            "a row of a strip needs a label", "");
    refuses("local a, b = date(2027, 2, 1), date(2027, 1, 1) "
            "d:strip { rows = { { label = 'x', from = a, to = b } } }", "page-value",
            "a stretch goes from one date to another that is not before it",
            "write { from = date, to = date }");
    refuses("d.paragraph 'x'", "page-self", "this works on a document of page.doc()",
            "write d:paragraph(...), with a colon");
    refuses("do local e <close> = d end d:rule()", "page-self", "this document is closed",
            "");
}

static void a_fault_leaves_nothing_half_written(void **state)
{
    (void)state;
    prints("d:item 'one'\n"
           "local ok = pcall(d.table, d, { columns = { 'a', 'b' },\n"
           "                               rows = { { 'x', 'y' }, { 'z', true } } })\n"
           "local fine = pcall(d.note, d, { 'x', ask = true })\n"
           "local good = pcall(d.strip, d, { rows = { { label = 'x' }, {} } })\n"
           "d:item(tostring(ok), ' ', tostring(fine), ' ', tostring(good))\n"
           "return page.terminal(d)\n",
           "  - one\n"
           "  - false false false\n");
}

static void a_document_is_handed_to_the_host(void **state)
{
    (void)state;
    struct stage s;
    stage_open(&s);
    bool done = run(&s, "d:paragraph 'Oak.' return d");
    struct doc *d = page_doc_at(s.host.L, -1);
    lua_pushinteger(s.host.L, 3);
    bool none = page_doc_at(s.host.L, -1) == NULL;
    struct buf b;
    buf_init(&b);
    bool printed = d != NULL && terminal_print(d, (struct terminal_look){ 80, false }, &b,
                                               &s.fault);
    stage_close(&s);
    assert_true(done && none && printed);
    assert_string_equal(b.data, "  Oak.\n");
    buf_clear(&b);
}

static void a_paper_without_an_end_runs_into_the_limit(void **state)
{
    (void)state;
    struct stage s;
    stage_open(&s);
    s.limits.bytes_most = 4u << 20;
    s.limits.allowed = s.limits.lua_bytes + s.limits.bytes_most;
    bool done = run(&s, "local words = ('x'):rep(1000) "
                        "while true do pcall(d.paragraph, d, words) end");
    stage_close(&s);
    assert_false(done);
    assert_string_equal(s.fault.id, "limit-memory");
}

static void a_report_is_whole_or_refused_when_memory_runs_out(void **state)
{
    (void)state;
    static const char body[] =
        "local hours = measure(58, 72, 88, 'h')\n"
        "d:note { 'The line.', ask = { 'a surveyor' } }\n"
        "d:table { columns = { 'act', { 'hours', align = 'number' } },\n"
        "          rows = { { 'fell', hours } } }\n"
        "d:strip { rows = { { label = 'fell', from = date(2026, 11, 16),\n"
        "                     to = date(2026, 12, 19) } } }\n"
        "return page.terminal(d)\n";
    size_t whole = 0, refused = 0;
    do {
        struct stage s;
        stage_open(&s);
        failing_seen = false;
        s.granted = whole + refused;
        bool done = run(&s, body);
        bool told = strstr(s.fault.id != NULL ? s.fault.id : "", "memory") != NULL;
        bool ends = done && strstr(lua_tostring(s.host.L, -1), "# planned") != NULL;
        stage_close(&s);
        assert_true(done ? ends : told);
        whole += done;
        refused += !done;
    } while (failing_seen);
    assert_true(refused > 50);
}

#define EVENT "{ key = { 'a' }, from = date(2026, 12, 7), to = date(2026, 12, 9), "

static void a_calendar_has_what_its_events_say(void **state)
{
    (void)state;
    prints("return page.ical(date(2026, 10, 14), {\n"
           "  { key = { 'Quill Creek', 'fell' }, from = date(2026, 12, 7),\n"
           "    to = date(2026, 12, 9), summary = 'Fell, limb', description = 'a;b',\n"
           "    location = 'Bench', categories = { 'work', 'cut' }, alarms = { 2 } },\n"
           "}):gsub('\\r', ''):gsub('UID:[^\\n]*', 'UID:') .. ''\n",
           "BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:-//Spinney//habitat plan//EN\n"
           "CALSCALE:GREGORIAN\nBEGIN:VEVENT\nUID:\nDTSTAMP:20261014T000000Z\n"
           "DTSTART;VALUE=DATE:20261207\nDTEND;VALUE=DATE:20261210\n"
           "SUMMARY:Fell\\, limb\nLOCATION:Bench\nDESCRIPTION:a\\;b\n"
           "CATEGORIES:work,cut\nTRANSP:TRANSPARENT\nBEGIN:VALARM\nACTION:DISPLAY\n"
           "TRIGGER:-P1DT17H\nDESCRIPTION:Fell\\, limb\nEND:VALARM\nEND:VEVENT\n"
           "END:VCALENDAR\n");
    prints("return tostring(page.ical(date(2026, 10, 14), {}))", "nil");
}

static void an_event_that_is_none_is_refused(void **state)
{
    (void)state;
    static const char *const wrong[] = {
        "3", "{}", EVENT "}", EVENT "summary = 3 }", EVENT "summary = '' }",
        EVENT "summary = 'x', key = {} }", EVENT "summary = 'x', alarms = { -1 } }",
        EVENT "summary = 'x', alarms = { 1.5 } }", EVENT "summary = 'x', alarms = 7 }",
        EVENT "summary = 'x', alarms = { 1, 2, 3, 4, 5, 6, 7, 8, 9 } }",
        EVENT "summary = 'x', categories = { 3 } }", EVENT "summary = 'x', sumary = 'y' }",
        EVENT "summary = 'x', from = date(2027, 1, 1) }",
        EVENT "summary = 'x', to = '2026-12-09' }"
    };
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        char body[400];
        snprintf(body, sizeof body,
                 "local good = " EVENT "summary = 'x' }\n"
                 "return tostring(pcall(page.ical, date(2026, 10, 14), { good, %s }))\n",
                 wrong[i]);
        prints(body, "false");
    }
    prints("return tostring(pcall(page.ical, 'today', {}))", "false");
    prints("return tostring(pcall(page.ical, date(2026, 10, 14)))", "false");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_report_writes_every_kind_of_block),
        cmocka_unit_test(windows_days_and_nothing_print_too),
        cmocka_unit_test(a_heading_may_name_the_unit),
        cmocka_unit_test(what_cannot_be_printed_is_refused_in_words),
        cmocka_unit_test(shapes_of_blocks_are_checked),
        cmocka_unit_test(a_fault_leaves_nothing_half_written),
        cmocka_unit_test(a_document_is_handed_to_the_host),
        cmocka_unit_test(a_report_is_whole_or_refused_when_memory_runs_out),
        cmocka_unit_test(a_paper_without_an_end_runs_into_the_limit),
        cmocka_unit_test(a_calendar_has_what_its_events_say),
        cmocka_unit_test(an_event_that_is_none_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

#include "traverse_reading.h"

#include "base/source.h"

/* What the script prints; nothing may be wrong with it. */
static void prints(const char *script, const char *wanted)
{
    struct reading r;
    reading_open(&r, script);
    if (r.host->faults.count > 0)
        fprintf(stderr, "%s: %s\n", script, r.host->faults.list[0].message);
    assert_int_equal(r.host->faults.count, 0);
    assert_string_equal(r.host->printed->data, wanted);
    reading_close(&r);
}

/* Each call of a text, as azimuth and feet. */
static void reads(const char *text, const char *wanted)
{
    char script[4000];
    snprintf(script, sizeof script,
             "local t = tally { notes = [[%s]], given = { pace = 2.5 } }\n"
             "for _, c in ipairs(t.calls) do print(string.format(\"%%.4f %%.3f\", "
             "c.azimuth, c.length)) end",
             text);
    prints(script, wanted);
}

static void bearings_of_all_kinds(void **state)
{
    (void)state;
    reads("N 42 E 130 ft", "42.0000 130.000\n");
    reads("S 45 30 E 130 ft", "134.5000 130.000\n");
    reads("N 10°15'30\" W 20 ft", "349.7417 20.000\n");
    reads("s10d15w 20 ft", "190.2500 20.000\n");
}

static void bearings_in_other_dress(void **state)
{
    (void)state;
    reads("N42E 130ft", "42.0000 130.000\n");
    reads("N. 42 E., 130 ft.", "42.0000 130.000\n");
    reads("thence north 42 degrees 30 minutes east 130 feet", "42.5000 130.000\n");
    reads("S 45-30-36 W 10 ft", "225.5100 10.000\n");
    reads("S 45 – 30 W 10 ft", "225.5000 10.000\n");
    reads("N 10º 15′ 30″ W 20 ft", "349.7417 20.000\n");
    reads("N 10° 15' 30'' W 20 ft", "349.7417 20.000\n");
    reads("N 12.5 E 20 ft", "12.5000 20.000\n");
    reads("N 0 W 20 ft; N 90 E 20 ft; S 90 W 3 ft",
          "0.0000 20.000\n90.0000 20.000\n270.0000 3.000\n");
    reads("due west 20 ft; E 3 ft; SW 4 ft; N 5 ft; south 6 ft; due N 7 ft",
          "270.0000 20.000\n90.0000 3.000\n225.0000 4.000\n0.0000 5.000\n"
          "180.0000 6.000\n0.0000 7.000\n");
    reads("210 deg 55 ft; 210° 55 ft; 210.5 degrees 55 ft; 210°30' 55 ft; az 210 55 ft;"
          "azimuth 210 deg 15 min 36 sec, 55 ft; 360 deg 1 ft",
          "210.0000 55.000\n210.0000 55.000\n210.5000 55.000\n210.5000 55.000\n"
          "210.0000 55.000\n210.2600 55.000\n0.0000 1.000\n");
}

static void lengths_of_all_units(void **state)
{
    (void)state;
    reads("N 3.2 chains; N 3 chains 20 links; N 1 ch 1 lk; N 20 rods; N 2 poles 3 ft;"
          "N 1 perch; N 55 paces; N 10 yards; N 100 m; N .5 ft",
          "0.0000 211.200\n0.0000 211.200\n0.0000 66.660\n0.0000 330.000\n0.0000 36.000\n"
          "0.0000 16.500\n0.0000 137.500\n0.0000 30.000\n0.0000 328.084\n0.0000 0.500\n");
    reads("pace 5 ft\nN 10 paces # the long way\n-- and a remark\n\n;; pace 3 ft; N 2 "
          "paces",
          "0.0000 50.000\n0.0000 6.000\n");
}

/* A square of ten chains by the words of a deed, named points and all. */
static void a_closed_one_is_adjusted(void **state)
{
    (void)state;
    prints(
        "local t = tally { notes = [[\n"
        "  from \"NW corner\"\n"
        "  E 10 chains to \"NE post\"; S 10 chains\n"
        "  thence W 659 ft, to \"SW post\"; N 40 rods\n"
        "  close ]], given = { points = { { name = \"NW corner\", x = 100, y = 50 } } } "
        "}\n"
        "print(t.ending, t.closure, #t.points, t.points[5].x, t.points[5].y)\n"
        "print(string.format(\"%.3f %.1f\", t.area / 43560, t.length))\n"
        "for _, p in ipairs(t.named) do print(p.name, string.format(\"%.3f %.3f\", p.x, "
        "p.y)) end\n"
        "print(t.assumed)",
        "closed\tmisses by 1.0 ft to due east, 1 in 2639\t5\t100.0\t50.0\n"
        "9.992 2639.0\n"
        "NW corner\t100.000 50.000\n"
        "NE post\t759.750 50.000\n"
        "SW post\t100.250 -610.000\n"
        "true\n");
}

static void other_endings(void **state)
{
    (void)state;
    prints("local t = tally { notes = [[N 300 ft; E 400 ft; back to start]] }\n"
           "print(t.ending, string.format(\"%.1f\", t.area), t.one_in, t.closure)\n"
           "t = tally { notes = [[N 300 ft; E 400 ft]] }\n"
           "print(t.ending, t.area, t.points[3].x)\n"
           "t = tally { notes = [[N 300 ft; E 400 ft; close on \"post\"]],\n"
           "  given = { from = { x = 0, y = 0 },\n"
           "    points = { { name = \"post\", x = 403.5, y = 300 } } } }\n"
           "print(t.ending, t.closure, t.points[3].x)\n"
           "t = tally { notes = [[N 30 ft; E 40 ft; S 30 ft; W 40 ft; close]] }\n"
           "print(t.closure)",
           "back\t60000.0\tnil\tnil\n"
           "open\tnil\t400.0\n"
           "tied\tmisses by 3.5 ft to due west, 1 in 200\t403.5\n"
           "closes exactly\n");
}

static void the_needle_and_true_north(void **state)
{
    (void)state;
    prints("local function first(t) return string.format(\"%.3f %.3f\", t.points[2].x, "
           "t.points[2].y) end\n"
           "print(first(tally { notes = [[declination 30 W; N 30 E 100 ft]] }))\n"
           "print(first(tally { notes = [[declination 30 W; N 30 E true 100 ft]] }))\n"
           "print(first(tally { notes = [[declination 29°30 E\n true; N 100 ft; ]] }))\n"
           "print(first(tally { notes = [[N 45 E 100 ft]], given = { declination = -45 } "
           "}))",
           "0.000 100.000\n50.000 86.603\n0.000 100.000\n0.000 100.000\n");
}

static void fault_is(const char *script, const char *id, const char *at,
                     const char *message, const char *hint)
{
    struct reading r;
    reading_open(&r, script);
    const struct fault *f = &r.host->faults.list[0];
    size_t length;
    const char *text = source_text(r.host->sources, r.host->main_source, &length);
    if (r.host->faults.count != 1 || strcmp(f->message, message) != 0 ||
        strcmp(f->hint, hint) != 0 || strcmp(f->id, id) != 0 ||
        f->at.length != strlen(at) || memcmp(text + f->at.at, at, strlen(at)) != 0)
        fprintf(stderr, "%s\n  %zu: %s at `%.*s`: %s / %s\n", script,
                r.host->faults.count, f->id, (int)f->at.length, text + f->at.at,
                f->message, f->hint);
    assert_int_equal(r.host->faults.count, 1);
    assert_string_equal(f->id, id);
    assert_string_equal(f->message, message);
    assert_string_equal(f->hint, hint);
    assert_int_equal(f->at.length, strlen(at));
    assert_memory_equal(text + f->at.at, at, strlen(at));
    reading_close(&r);
}

/* One slip in a text; `at` is what the caret lies under. */
static void slip(const char *text, const char *id, const char *at, const char *message,
                 const char *hint)
{
    char script[600];
    snprintf(script, sizeof script, "tally { notes = [[ N 1 ft; %s ]] }", text);
    fault_is(script, id, at, message, hint);
}

static void slips_in_bearings(void **state)
{
    (void)state;
    slip("N 42 130 ft", "traverse-bearing", "N 42 130 ft",
         "`N 42 130` does not say to which side, east or west",
         "N 42 E leans 42 degrees east from north");
    slip("N 42 Est 130 ft", "traverse-bearing", "N 42 Est",
         "`N 42` does not say to which side, east or west", "did you mean `east`?");
    slip("N 96 E 130 ft", "traverse-angle", "96",
         "an angle from north or south is 90 degrees at most",
         "if it is an azimuth: 96 deg");
    slip("N 42 75 E 130 ft", "traverse-angle", "75", "minutes of an angle are below 60",
         "a length comes behind the bearing, with its unit: 130 ft");
    slip("N 42.5 10 E 130 ft", "traverse-angle", "10", "minutes stand behind a fraction",
         "42.5, or 42 30, not both");
    slip("N 42' E 130 ft", "traverse-angle", "42'",
         "minutes stand where degrees are wanted",
         "degrees, minutes, seconds: N 42°30'15\" E");
    slip("S 1 2 3 4 E 130 ft", "traverse-angle", "4",
         "an angle has degrees, minutes and seconds, no more",
         "N 42 E, S 45 30 E, or 210 deg");
    slip("210 130 ft", "traverse-bearing", "210", "`210` is no bearing",
         "N 210 E from north, or as an azimuth: 210 deg");
    slip("361 deg 130 ft", "traverse-angle", "361", "an azimuth is 360 degrees at most",
         "210 deg");
    slip("due nort 130 ft", "traverse-bearing", "nort",
         "due north, south, east or west is wanted here", "did you mean `north`?");
    slip("nroth 42 E 130 ft", "traverse-call", "nroth", "`nroth` starts no call",
         "did you mean `north`?");
    slip("az E 130 ft", "traverse-angle", "E", "an angle is wanted here",
         "N 42 E, S 45 30 E, or 210 deg");
    slip("\"post\" 130 ft", "traverse-call", "\"post\"", "`\"post\"` starts no call",
         "a bearing and a length: N 42 E 130 ft");
}

static void slips_in_lengths(void **state)
{
    (void)state;
    slip("N 42 E 130", "traverse-unit", "130", "130 has no unit",
         "130 ft; also chains, links, rods, yards, m and paces");
    slip("N 42 E 130 chians", "traverse-unit", "chians",
         "`chians` is no unit of length here", "did you mean `chains`?");
    slip("N 42 E 130'", "traverse-unit", "130'",
         "`130'` is part of an angle, and no length", "130 ft, where feet are meant");
    slip("N 42 E", "traverse-length", " ", "a length is wanted here",
         "130 ft; also chains, links, rods, yards, m and paces");
    slip("N 42 E 1,300 ft", "traverse-length", "1,300",
         "numbers are written without commas", "1300");
    slip("N 42 E 0 ft", "traverse-length", "0 ft",
         "a length lies above 0 and up to 100000 ft", "");
    slip("N 42 E 99 chains 99999 ft", "traverse-length", "99 chains 99999 ft",
         "a length lies above 0 and up to 100000 ft", "");
    slip("N 42 E 55 paces", "traverse-pace", "paces",
         "how long a pace is has not been said", "on a line above: pace 2.6 ft");
    slip("pace 26 ft", "traverse-pace", "26 ft", "a pace lies between 1 and 8 ft",
         "a step is some 2.5 ft, a pace of both feet some 5");
    slip("N 42 E 130 ft more or less", "traverse-call", "more or less",
         "`more or less` is left over here", "a semicolon or a line break between calls");
}

static void slips_in_what_stands_around(void **state)
{
    (void)state;
    slip("N 42 E magnetic 130 ft", "traverse-declination", "magnetic",
         "the bearing is magnetic, and how far the needle is off has not been said",
         "on a line above: declination 3.5 W");
    slip("declination 3.5 W", "traverse-declination", "declination 3.5 W",
         "the declination is said once, before the calls", "");
    slip("declination 3.5", "traverse-declination", "3.5",
         "to which side the needle is off is not said",
         "declination 3.5 W: it points west of true north");
    slip("from \"a\"", "traverse-start", "from \"a\"",
         "where a traverse starts is said once, before its calls", "");
    slip("from a", "traverse-start", "a",
         "the name of the corner is wanted here, in quotes", "from \"NW corner\"");
    slip("E 3 ft to post", "traverse-point", "post",
         "the name of a point is wanted here, in quotes", "to \"corner post\"");
    slip("E 3 ft to \"p\"; E 4 ft to \"p\"", "traverse-point", "\"p\"",
         "there is a point \"p\" already", "each point has a name of its own");
    slip("back to strat", "traverse-end", "back to strat",
         "`back to start` is what can stand here",
         "or `close`, when the last call came back to the start");
    slip("back to start", "traverse-flat", "back to start",
         "1 call cannot go round an area",
         "three calls at least that come back to the start");
    slip("E 3 ft; S 1 ft; W 3 ft; close; N 4 ft", "traverse-end", "N 4 ft",
         "the traverse has ended above", "calls stand before `close`");
    slip("cloze", "traverse-call", "cloze", "`cloze` starts no call",
         "did you mean `close`?");
    slip("E 3 ft; close on \"SE corner\"", "traverse-point", "\"SE corner\"",
         "there is no corner \"SE corner\"",
         "a corner of the map, or a point that was named before");
    slip("€ 4 ft", "traverse-call", "€", "`€` starts no call",
         "a bearing and a length: N 42 E 130 ft");
    fault_is("tally { notes = [[ from \"NW cornr\"; N 1 ft ]],\n"
             "  given = { points = { { name = \"NW corner\", x = 0, y = 0 } } } }",
             "traverse-point", "\"NW cornr\"", "there is no corner \"NW cornr\"",
             "did you mean \"NW corner\"?");
    fault_is("tally { notes = \"\" }", "traverse-empty", "", "a traverse needs a call",
             "N 42 E 130 ft");
    /* Escapes in the string move the bytes; a text that was made has its line told. */
    fault_is("tally { notes = \"N 1 ft\\n\\tN 42 Q 3 ft\" }", "traverse-bearing",
             "N 42 Q", "`N 42` does not say to which side, east or west",
             "N 42 E leans 42 degrees east from north");
    fault_is("local made = 'N 1 ft\\ncanoe'\ntally { notes = made }", "traverse-call",
             "tally", "`canoe` starts no call (line 2 of the notes)",
             "a bearing and a length: N 42 E 130 ft");
}

static void all_slips_are_told_together(void **state)
{
    (void)state;
    struct reading r;
    reading_open(&r, "tally { notes = [[\n N 42 3 ft\n N 4 E 9\n S 5 E 4 chians\n"
                     "close\n blue ]] }");
    assert_int_equal(r.host->faults.count, 4);
    reading_close(&r);
    char many[4000] = "tally { notes = [[";
    for (int i = 0; i < 30; i++)
        strcat(many, "blue;");
    strcat(many, "]] }");
    reading_open(&r, many);
    assert_int_equal(r.host->faults.count, FAULTS_MOST);
    reading_close(&r);
}

static void a_miss_is_told_and_its_likely_slip(void **state)
{
    (void)state;
    fault_is(
        "tally { notes = [[E 10 chains; S 10 chains; W 10 chains; S 10 chains; close]] }",
        "traverse-miss", "close",
        "the traverse misses by 1320.0 ft to due south, 1 in 2; by compass and pace 1 in "
        "50 "
        "is usual",
        "call 2, S 10 chains, may run the other way: due north");
    fault_is(
        "tally { notes = [[N 400 ft; E 300 ft; S 100 ft; close]] }", "traverse-miss",
        "close",
        "the traverse misses by 424.3 ft to N 45° E, 1 in 1; by compass and pace 1 in 50 "
        "is usual",
        "a call is missing or misread; a last side not measured: back to start");
    struct reading r; /* one in 20 is only warned of */
    reading_open(&r, "local t = tally { notes = [[N 100 ft; E 100 ft; S 100 ft; W 80 ft; "
                     "close]] } print(#t.points)");
    assert_int_equal(r.host->faults.count, 0);
    assert_int_equal(r.host->warnings.count, 1);
    assert_string_equal(r.host->warnings.list[0].id, "traverse-miss");
    assert_string_equal(r.host->printed->data, "5\n");
    reading_close(&r);
}

static void too_much_is_refused(void **state)
{
    (void)state;
    struct reading r;
    reading_open(&r, "tally { notes = (\"N 1 ft;\"):rep(1001) }");
    assert_int_equal(r.host->faults.count, 1);
    assert_string_equal(r.host->faults.list[0].id, "traverse-many");
    reading_close(&r);
    reading_open(&r, "tally { notes = (\" \"):rep(70000) }");
    assert_int_equal(r.host->faults.count, 1);
    assert_string_equal(
        r.host->faults.list[0].message,
        "a traverse has at most 65536 bytes; this one has 70000 (line 1 of the "
        "notes)");
    reading_close(&r);
    /* The readers' tools are not the scripts'. */
    prints("print(lpeg == nil and need == nil and survey == nil)", "true\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bearings_of_all_kinds),
        cmocka_unit_test(bearings_in_other_dress),
        cmocka_unit_test(lengths_of_all_units),
        cmocka_unit_test(a_closed_one_is_adjusted),
        cmocka_unit_test(other_endings),
        cmocka_unit_test(the_needle_and_true_north),
        cmocka_unit_test(slips_in_bearings),
        cmocka_unit_test(slips_in_lengths),
        cmocka_unit_test(slips_in_what_stands_around),
        cmocka_unit_test(all_slips_are_told_together),
        cmocka_unit_test(a_miss_is_told_and_its_likely_slip),
        cmocka_unit_test(too_much_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

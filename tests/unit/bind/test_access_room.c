/* need "access", as the built-in Lua calls it: what is found comes out whole, and what is no
 * question is refused without a crash. */
#include "reading.h"

/* ways { near = 250, ... }: a bed of 100 ft square at the origin, a way 300 ft south of it, an
 * opening of 30 ft square on the way, three seats; prints what is found. */
static const char words[] =
    "local access, shapes = need 'access', need 'shapes'\n"
    "local function square(x, y, side)\n"
    "  return shapes.make('area', { { x, y, x + side, y, x + side, y + side, x, y + side } })\n"
    "end\n"
    "return function(t)\n"
    "  local bed, rest = square(0, 0, 100), square(600, -315, 30)\n"
    "  local ask = { near = t.near, upwind = t.upwind, from = t.from, spread = t.spread,\n"
    "    way = t.way ~= false and shapes.make('line', { { -400, -300, 700, -300 } }) or nil,\n"
    "    seats = t.seats and shapes.make('point', { { -200, 0, 50, 50 }, { 400, 0 } }) or nil,\n"
    "    bedding = { bed }, openings = t.open and { rest } or nil }\n"
    "  if t.wrong then ask[t.wrong] = t.as == 'bed' and bed or t.as end\n"
    "  local lines = {}\n"
    "  for i, f in ipairs(access.check(ask)) do\n"
    "    lines[i] = ('%s %s %s %d %d %.0f-%.0f %.0f (%.0f,%.0f)'):format(f.kind,\n"
    "      f.seat and 'seat' or 'way', f.opening and 'opening' or 'bed', f.part, f.area, f.from,\n"
    "      f.to, f.distance, f.x1, f.y1)\n"
    "  end\n"
    "  return #lines > 0 and table.concat(lines, '\\n') or 'nothing'\n"
    "end";

static void prints(const char *ask, const char *wanted)
{
    struct reading r;
    char script[200];
    snprintf(script, sizeof script, "print(ways { %s })", ask);
    reading_begin(&r, "ways", words, script);
    assert_int_equal(r.host->faults.count, 0);
    assert_string_equal(r.host->printed->data, wanted);
    reading_close(&r);
}

static void what_is_found_comes_out_whole(void **state)
{
    (void)state;
    /* 300 ft south of the bed: sqrt(310^2 - 300^2) = 78.1 ft beyond each of its corners; and
     * 310 ft before the opening, up to the way's own end behind it. */
    prints("near = 310, upwind = 0, open = true",
           "near way bed 1 1 322-578 300 (-78,-300)\n"
           "crosses way opening 1 1 1000-1030 0 (600,-300)\n"
           "near way opening 1 1 690-1100 0 (290,-300)\n");
    /* The first part of the seats has two points. */
    prints("way = false, seats = true, near = 120, upwind = 300, from = 270, spread = 20",
           "upwind seat bed 1 1 0-0 200 (-200,0)\n"
           "crosses seat bed 2 1 0-0 0 (50,50)\n"
           "near seat bed 2 1 0-0 0 (50,50)\n"
           "upwind seat bed 2 1 0-0 0 (50,50)\n");
}

static void what_is_not_asked_is_not_told(void **state)
{
    (void)state;
    prints("near = 0, upwind = 0", "nothing\n");
    prints("", "nothing\n");
    prints("way = false, near = 1000, upwind = 1000", "nothing\n");
}

/* A slip of our own is told as one, and nothing is left behind. */
static void what_is_no_question_is_refused(void **state)
{
    (void)state;
    static const char *const asks[] = {
        "wrong = 'way', as = 3",           "wrong = 'way', as = 'bed'",
        "wrong = 'seats', as = 'bed'",     "wrong = 'bedding', as = 3",
        "wrong = 'openings', as = { 3 }",  "wrong = 'near', as = 'far'",
    };
    for (size_t i = 0; i < sizeof asks / sizeof *asks; i++) {
        struct reading r;
        char script[200];
        snprintf(script, sizeof script, "print(ways { %s })", asks[i]);
        reading_begin(&r, "ways", words, script);
        assert_int_equal(r.host->faults.count, 1);
        assert_int_equal(r.host->printed->length, 0);
        reading_close(&r);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_found_comes_out_whole),
        cmocka_unit_test(what_is_not_asked_is_not_told),
        cmocka_unit_test(what_is_no_question_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

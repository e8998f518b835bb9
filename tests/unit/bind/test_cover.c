/* The cover without needles, as openings and trails are laid out in it. */
#include "reading.h"

/* tidy(corners, needles): a round stand of so many corners, radius 1,000 ft, of which so
 * many are needles that stick out by 10 ft and have no width: how many corners and how
 * much of its ground are left. Where a needle was, its two feet stay, in one place. */
static const char words[] = "local covers, shapes = need 'layout/cover', need 'shapes'\n"
                            "return function(t)\n"
                            "  local ring, every = {}, t.corners // t.needles\n"
                            "  local function add(radius, angle)\n"
                            "    ring[#ring + 1], ring[#ring + 2] = radius * "
                            "math.cos(angle), radius * math.sin(angle)\n"
                            "  end\n"
                            "  for i = 0, t.corners - 1 do\n"
                            "    local angle = 2 * math.pi * i / t.corners\n"
                            "    add(1000, angle)\n"
                            "    if i % every == 0 then\n"
                            "      add(1010, angle)\n"
                            "      add(1000, angle)\n"
                            "    end\n"
                            "  end\n"
                            "  local sound = covers.tidy(shapes.make('area', { ring }))\n"
                            "  return #sound:parts()[1] // 2, "
                            "('%.6f'):format(sound:area() / (math.pi * 1000 ^ 2))\n"
                            "end";

static void tells(const char *script, const char *wanted)
{
    struct reading r;
    reading_begin(&r, "tidy", words, script);
    if (r.host->faults.count > 0)
        print_message("%s\n", r.host->faults.list[0].message);
    assert_int_equal(r.host->faults.count, 0);
    assert_string_equal(r.host->printed->data, wanted);
    reading_close(&r);
}

static void needles_are_taken_out(void **state)
{
    (void)state;
    tells("print(tidy { corners = 400, needles = 4 })", "404\t0.999959\n");
}

/* A rim as a laser draws it: the work grows with its corners, and not with their square,
 * which a script is not given the steps for. */
static void a_rim_of_many_needles_is_not_too_much(void **state)
{
    (void)state;
    tells("print(tidy { corners = 20000, needles = 10000 })", "30000\t1.000000\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(needles_are_taken_out),
        cmocka_unit_test(a_rim_of_many_needles_is_not_too_much),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

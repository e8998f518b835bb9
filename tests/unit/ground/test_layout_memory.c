#include "../page/failing.h"

#include "../unit.h"

#include "stand_fixture.h"

/* Memory that runs out at the n-th asking is told, and nothing is left behind (the
 * sanitizers see to that). */
static void memory_that_runs_out_is_told(void **state)
{
    (void)state;
    struct stand s;
    struct fault f;
    fault_clear(&f);
    assert_true(stand_make(&s, 2, 2, 3, &f));
    s.ask.count = 2;
    s.ask.reach = 120;
    s.ask.sight = 70;
    size_t told = 0;
    bool ran_out = true;
    for (size_t n = 0; ran_out && n < 20000; n += 1 + n / 12) {
        struct layout out;
        fault_clear(&f);
        failing_seen = false;
        failing_after = n;
        bool good = layout_design(&s.ask, &out, &f);
        failing_after = SIZE_MAX;
        ran_out = failing_seen;
        if (ran_out && !good)
            told++;
        assert_true(good == !fault_is_set(&f));
        assert_true(good || out.openings.part_count == 0);
        if (good)
            layout_free(&out);
    }
    assert_false(ran_out);
    assert_true(told > 20);
    stand_free(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = { cmocka_unit_test(memory_that_runs_out_is_told) };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

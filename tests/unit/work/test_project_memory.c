#include "../page/failing.h"

#include "../unit.h"

#include "base/fault.h"
#include "project_drawn.h"

/* Memory that runs out at the n-th asking is told, and nothing is left behind (the
 * sanitizers see to that). */
static void memory_that_runs_out_is_told(void **state)
{
    (void)state;
    struct drawn_kind kinds[] = {
        { .count = 12, .duration = 6 },
        { .count = 12, .duration = 4, .horizon = 80, .lags = true, .most = true,
          .by_time = true },
    };
    uint64_t chance = 7;
    size_t told = 0;
    for (int k = 0; k < 8; k++) {
        struct drawn_project d;
        bool ran_out = true;
        drawn_project(&d, &kinds[k % 2], &chance);
        for (size_t n = 0; ran_out && n < 5000; n++) {
            struct project_ask ask = { .schedules = 60, .seed = 1, .steps = 500 };
            struct project_answer out;
            struct fault f;
            fault_clear(&f);
            failing_seen = false;
            failing_after = n;
            bool good = project_solve(&d.p, &ask, &out, &f);
            failing_after = SIZE_MAX;
            ran_out = failing_seen;
            told += ran_out && !good;
            assert_true(good == !fault_is_set(&f));
            assert_true(good || !out.starts);
            if (good)
                project_answer_free(&out);
        }
        assert_false(ran_out);
    }
    assert_true(told > 200);
}

int main(void)
{
    const struct CMUnitTest tests[] = { cmocka_unit_test(memory_that_runs_out_is_told) };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

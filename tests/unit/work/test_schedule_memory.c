/* Memory runs out at each asking in turn: the schedule is whole or refused, and nothing
 * leaks. */
#include "../page/failing.h"

#include "schedule_random.h"

static bool same(const struct schedule *a, const struct schedule *b)
{
    for (size_t i = 0; i < task.job_count; i++) {
        const struct schedule_result *x = schedule_of(a, i), *y = schedule_of(b, i);
        if (x->state != y->state || x->start.day != y->start.day ||
            x->finish.day != y->finish.day || x->day_count != y->day_count ||
            x->filing_count != y->filing_count || !x->reason != !y->reason ||
            (x->reason && strcmp(x->reason, y->reason) != 0))
            return false;
    }
    return true;
}

/* Fails each asking for memory in turn; returns how many there were. */
static size_t sweep(void)
{
    struct fault f = { 0 };
    struct schedule *whole = schedule_new(&task, &f);
    assert_non_null(whole);
    size_t n = 0;
    do {
        fault_clear(&f);
        failing_seen = false;
        failing_after = n++;
        struct schedule *s = schedule_new(&task, &f);
        failing_after = SIZE_MAX;
        if (s)
            assert_true(same(s, whole));
        else
            assert_string_equal(f.id, "memory");
        schedule_free(s);
    } while (failing_seen);
    schedule_free(whole);
    return n;
}

static void a_schedule_is_whole_or_refused(void **state)
{
    (void)state;
    size_t failed = 0;
    random_state = 4;
    for (int round = 0; round < 12; round++) {
        make_task(6 + below(8), round % 3 == 0);
        task.tries = (size_t)(1 + below(3));
        failed += sweep();
    }
    assert_true(failed > 600);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_schedule_is_whole_or_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

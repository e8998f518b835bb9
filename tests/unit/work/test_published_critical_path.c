/* A textbook network: the building of a plant in 14 activities, weeks. Hillier and
 * Lieberman, "Introduction to Operations Research", 7th ed. 2001, chapter on PERT and CPM:
 * network, durations, the path of 44 weeks and the slacks, all from memory. */
#include "../unit.h"

#include "base/fault.h"
#include "work/project.h"

enum { A, B, C, D, E, F, G, H, I, J, K, L, M, N, ACTIVITIES };
enum { LENGTH = 44 };

static const int weeks[ACTIVITIES] = { 2, 4, 10, 6, 4, 5, 7, 9, 7, 8, 4, 5, 2, 6 };
static const int slack[ACTIVITIES] = { 0, 0, 0, 4, 0, 0, 4, 4, 2, 0, 1, 0, 4, 0 };
static const int earliest[ACTIVITIES] = { 0,  2,  6,  16, 16, 20, 22,
                                          29, 16, 25, 33, 33, 38, 38 };
static const struct project_order orders[] = {
    { A, B, 0, PROJECT_NO_END }, { B, C, 0, PROJECT_NO_END }, { C, D, 0, PROJECT_NO_END },
    { C, E, 0, PROJECT_NO_END }, { C, I, 0, PROJECT_NO_END }, { D, G, 0, PROJECT_NO_END },
    { E, F, 0, PROJECT_NO_END }, { E, H, 0, PROJECT_NO_END }, { G, H, 0, PROJECT_NO_END },
    { F, J, 0, PROJECT_NO_END }, { I, J, 0, PROJECT_NO_END }, { J, K, 0, PROJECT_NO_END },
    { J, L, 0, PROJECT_NO_END }, { H, M, 0, PROJECT_NO_END }, { K, N, 0, PROJECT_NO_END },
    { L, N, 0, PROJECT_NO_END },
};

/* The finish when one activity may not start before that week. */
static struct project_answer solve(int held, int from)
{
    struct fault f;
    struct project_answer out;
    struct project_activity list[ACTIVITIES];
    fault_clear(&f);
    for (int i = 0; i < ACTIVITIES; i++)
        list[i] = (struct project_activity){ .duration = weeks[i],
                                             .earliest = i == held ? from : 0,
                                             .latest = PROJECT_NO_END };
    struct project p = { .activities = list,
                         .count = ACTIVITIES,
                         .orders = orders,
                         .order_count = sizeof orders / sizeof orders[0] };
    struct project_ask ask = { .schedules = 20, .seed = 1, .steps = 1000 };
    assert_true(project_solve(&p, &ask, &out, &f));
    assert_int_equal(out.state, PROJECT_FOUND);
    return out;
}

static void the_path_is_44_weeks_long(void **state)
{
    (void)state;
    struct project_answer out = solve(A, 0);
    assert_int_equal(out.finish, LENGTH);
    assert_int_equal(out.bounds.path, LENGTH);
    assert_true(out.optimal);
    project_answer_free(&out);
}

/* An activity may be held up by its slack, and by no week more. */
static void each_activity_has_its_slack(void **state)
{
    (void)state;
    for (int i = 0; i < ACTIVITIES; i++) {
        struct project_answer out = solve(i, earliest[i] + slack[i]);
        assert_int_equal(out.finish, LENGTH);
        project_answer_free(&out);
        out = solve(i, earliest[i] + slack[i] + 1);
        assert_int_equal(out.finish, LENGTH + 1);
        project_answer_free(&out);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_path_is_44_weeks_long),
        cmocka_unit_test(each_activity_has_its_slack),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

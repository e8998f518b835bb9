/* Projects in Patterson's form, as the benches read, write and draw them. */
#include "../unit.h"

#include "../../bench/project_files.h"

#include "base/fault.h"
#include "project_checker.h"

/* Read from text; the caller clears it. */
static bool read_text(struct project_file *a, const char *text)
{
    FILE *f = tmpfile();
    assert_non_null(f);
    fputs(text, f);
    rewind(f);
    bool good = project_file_read_from(a, f);
    fclose(f);
    return good;
}

/* Lines may end in any way and anywhere; dummies are first and last. */
static void text_is_read(void **state)
{
    (void)state;
    static const char *const texts[] = {
        "5 2\n4 3\n0 0 0 2 2 3\n3 2 1 1 4\n4 3 0 1 5\n2 2 3 1 5\n0 0 0 0\n",
        "5 2\r\n\r\n4 3\r\n 0 0 0 2\r\n2 3\r\n3 2 1 1 4\r\n4 3 0 1\r\n 5\r\n"
        "2 2 3 1 5 0 0 0 0",
    };
    for (size_t k = 0; k < 2; k++) {
        struct project_file a;
        struct fault f;
        struct project_answer out;
        struct project_ask ask = { 50, 1, 1000 };
        fault_clear(&f);
        assert_true(read_text(&a, texts[k]));
        assert_int_equal(a.p.count, 5);
        assert_int_equal(a.p.order_count, 5);
        assert_int_equal(a.resources[1].capacity, 3);
        assert_int_equal(a.activities[3].demands[1], 3);
        assert_int_equal(a.orders[2].after, 3);
        assert_true(project_solve(&a.p, &ask, &out, &f));
        /* Of the first resource's 4 they take 2, 3 and 2, the last after the first: no
         * two can run together. 3 + 4 + 2. */
        assert_int_equal(out.bounds.path, 5);
        assert_int_equal(out.finish, project_try_all(&a.p, 12));
        assert_int_equal(out.finish, 9);
        project_answer_free(&out);
        project_file_clear(&a);
    }
}

static void what_is_no_project_is_refused(void **state)
{
    (void)state;
    static const char *const texts[] = {
        "",
        "nothing",
        "2",
        "2 1\n",
        "2 1\n4\n0 0 1 2\n0 0",
        "2 1\n4\n0 0 1 3\n0 0 0",
        "2 1\n4\n0 0 1 0\n0 0 0",
        "2 1\n4\n-1 0 1 2\n0 0 0",
        "2 1\n40000\n0 0 1 2\n0 0 0",
        "-2 1\n4\n",
        "99999999 1\n4\n",
    };
    for (size_t k = 0; k < sizeof texts / sizeof *texts; k++) {
        struct project_file a;
        assert_false(read_text(&a, texts[k]));
        assert_null(a.activities);
    }
}

static void same(const struct project_file *a, const struct project_file *b)
{
    size_t demands = a->p.count * a->p.resource_count;
    assert_int_equal(a->p.count, b->p.count);
    assert_int_equal(a->p.resource_count, b->p.resource_count);
    assert_int_equal(a->p.order_count, b->p.order_count);
    for (size_t i = 0; i < a->p.count; i++)
        assert_int_equal(a->activities[i].duration, b->activities[i].duration);
    for (size_t r = 0; r < a->p.resource_count; r++)
        assert_int_equal(a->resources[r].capacity, b->resources[r].capacity);
    assert_memory_equal(a->demands, b->demands, demands * sizeof *a->demands);
}

/* What the recipe asks of those drawn: arcs, shares, capacities between their ends. */
static void as_the_recipe_says(const struct project_file *a, struct project_levels l)
{
    size_t used = 0, n = a->p.count;
    int after[200] = { 0 }, before[200] = { 0 };
    assert_int_equal(a->p.order_count, (size_t)(l.complexity * (double)n + 0.5));
    for (size_t k = 0; k < a->p.order_count; k++) {
        assert_true(a->orders[k].before < a->orders[k].after);
        after[a->orders[k].before]++;
        before[a->orders[k].after]++;
    }
    for (size_t i = 0; i < n; i++) {
        assert_true(after[i] <= FILE_ENDS && before[i] <= FILE_ENDS);
        assert_true((after[i] > 0 || i + 1 == n) && (before[i] > 0 || i == 0));
        for (size_t r = 0; r < FILE_RESOURCES; r++) {
            used += a->activities[i].demands[r] > 0;
            assert_true(a->activities[i].demands[r] <= a->resources[r].capacity);
        }
    }
    assert_int_equal(used, (size_t)(l.factor * (double)(n - 2) * FILE_RESOURCES + 0.5));
}

static void drawn_ones_come_back(void **state)
{
    (void)state;
    for (size_t count = 30; count <= 120; count += 90)
        for (size_t level = 0; level < project_level_count(count); level++) {
            struct project_levels l = project_level(count, level);
            struct project_file a, b;
            uint64_t chance = level;
            FILE *f = tmpfile();
            assert_non_null(f);
            assert_true(project_file_draw(&a, count, l.complexity, l.factor, l.strength,
                                          &chance));
            as_the_recipe_says(&a, l);
            project_file_write(&a, f);
            rewind(f);
            assert_true(project_file_read_from(&b, f));
            fclose(f);
            same(&a, &b);
            project_file_clear(&a);
            project_file_clear(&b);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(text_is_read),
        cmocka_unit_test(what_is_no_project_is_refused),
        cmocka_unit_test(drawn_ones_come_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

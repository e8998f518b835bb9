/* Work of GEOS that takes too long is given up. A program of its own: GEOS 3.11 itself
 * leaves memory behind when it is broken off, which would hide what we might. */
#include "ground.h"
#include "ground/overlay.h"
#include "ground/session_geos.h"

const char *__lsan_default_suppressions(void);
const char *__lsan_default_suppressions(void)
{
    return "leak:libgeos\n";
}

static void work_that_takes_too_long_is_given_up(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct shape line = { .kind = SHAPE_LINES }, out;
    struct point *points = malloc(20000 * sizeof *points);
    assert_non_null(points);
    for (size_t i = 0; i < 20000; i++)
        points[i] = (struct point){ 900 * cos((double)i * 2.1), 900 * sin((double)i * 1.3) };
    assert_true(shape_add_part(&line, points, 20000, false, &f));
    free(points);
    session_seconds = 0.2;
    bool ok = overlay_buffer(&line, 20, OVERLAY_ROUND, &out, &f);
    session_seconds = 20;
    assert_false(ok);
    assert_true(told(&f, "shape-slow", "could not be widened within", "leave points out"));
    assert_true(shape_is_empty(&out));
    shape_free(&line);
    /* And the next one goes as ever. */
    fault_clear(&f);
    struct shape stand = rectangle(0, 0, 100, 100);
    assert_true(overlay_buffer(&stand, 20, OVERLAY_FLAT, &out, &f));
    shape_free(&out);
    shape_free(&stand);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(work_that_takes_too_long_is_given_up),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

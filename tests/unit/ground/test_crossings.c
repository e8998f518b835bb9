/* Outlines that cross themselves again and again. */
#include "../page/failing.h"

#include <math.h>
#include <stdlib.h>

#include "../unit.h"
#include "base/fault.h"
#include "ground/crossings.h"
#include "ground/shape.h"

static bool exceeds(const struct point *ring, size_t count, size_t most)
{
    struct fault f = { 0 };
    struct shape s = { .kind = SHAPE_AREAS };
    bool answer = false;
    assert_true(shape_add_part(&s, ring, count, false, &f));
    assert_true(crossings_exceed(&s, most, &answer, &f));
    shape_free(&s);
    return answer;
}

static void neighbours_do_not_cross(void **state)
{
    (void)state;
    static const struct point square[] = {
        { 0, 0 }, { 100, 0 }, { 100, 100 }, { 0, 100 }
    };
    assert_false(exceeds(square, 4, 0));
    static const struct point eight[] = {
        { 0, 0 }, { 100, 100 }, { 100, 0 }, { 0, 100 }
    };
    assert_true(exceeds(eight, 4, 0));
    assert_false(exceeds(eight, 4, 1));
}

/* A star of 2k + 1 corners, each joined to the k-th from it, crosses itself
 * (2k + 1)(k - 1) times: each pair of its chords that shares no corner. */
static void a_star_crosses_as_often_as_its_chords_do(void **state)
{
    (void)state;
    for (size_t k = 2; k < 40; k++) {
        size_t corners = 2 * k + 1, crossings = corners * (k - 1);
        struct point ring[79];
        for (size_t i = 0; i < corners; i++) {
            double turn = 6.283185307179586 * (double)(i * k % corners) / (double)corners;
            ring[i] = (struct point){ 1000 * cos(turn + 0.1), 1000 * sin(turn + 0.1) };
        }
        assert_true(exceeds(ring, corners, crossings - 1));
        assert_false(exceeds(ring, corners, crossings));
    }
}

/* Long strips side by side: all overlap from west to east, so the tests run out. */
static void what_never_crosses_ends_too(void **state)
{
    (void)state;
    enum { STRIPS = 40000 };
    struct point *ring = malloc((2 * STRIPS + 1) * sizeof *ring);
    assert_non_null(ring);
    for (size_t i = 0; i < 2 * STRIPS; i++)
        ring[i] = (struct point){ (i + 1) / 2 % 2 ? 9000 : 1, (double)i / 2 };
    ring[2 * STRIPS] = (struct point){ 0, STRIPS };
    assert_false(exceeds(ring, 2 * STRIPS + 1, 0));
    free(ring);
}

static void no_memory_is_told(void **state)
{
    (void)state;
    static const struct point square[] = {
        { 0, 0 }, { 100, 0 }, { 100, 100 }, { 0, 100 }
    };
    struct fault f = { 0 };
    struct shape s = { .kind = SHAPE_AREAS };
    bool answer = false;
    assert_true(shape_add_part(&s, square, 4, false, &f));
    failing_after = 0;
    bool found_out = crossings_exceed(&s, 0, &answer, &f);
    failing_after = SIZE_MAX;
    assert_false(found_out);
    assert_string_equal(f.id, "memory");
    shape_free(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(neighbours_do_not_cross),
        cmocka_unit_test(a_star_crosses_as_often_as_its_chords_do),
        cmocka_unit_test(what_never_crosses_ends_too),
        cmocka_unit_test(no_memory_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

#include "../page/failing.h"

#include "../unit.h"

#include <math.h>

#include "base/fault.h"
#include "ground/flags.h"

#define near(value, wanted, within) assert_true(fabs((value) - (wanted)) <= (within))

static void add(struct shape *s, const struct point *points, size_t count)
{
    struct fault f = { .id = NULL };
    assert_true(shape_add_part(s, points, count, false, &f));
}

#define ADD(s, ...)                               \
    add(s, (const struct point[]){ __VA_ARGS__ }, \
        sizeof((const struct point[]){ __VA_ARGS__ }) / sizeof(struct point))

static void bends(struct flags *all, enum flag_kind kind, const char *name,
                  const struct shape *s, double within)
{
    struct fault f = { .id = NULL };
    assert_true(flags_bends(all, kind, name, s, within, &f));
}

static void a_trail_is_flagged_where_it_bends(void **state)
{
    (void)state;
    struct shape trail = { .kind = SHAPE_LINES };
    ADD(&trail, { 0, 0 }, { 50, 1 }, { 100, 0 }, { 101, 50 }, { 100, 100 }, { 200, 102 });
    struct flags all = { .list = NULL };
    bends(&all, FLAG_TRAIL, "trail 2", &trail, 5);
    assert_int_equal(all.count, 4);
    assert_string_equal(all.list[0].name, "trail 2, start");
    assert_string_equal(all.list[1].name, "trail 2, bend 1");
    near(all.list[1].at.x, 100, 0);
    near(all.list[1].at.y, 0, 0);
    assert_string_equal(all.list[2].name, "trail 2, bend 2");
    assert_string_equal(all.list[3].name, "trail 2, end");
    ADD(&trail, { 7, 7 }, { 9, 9 });
    bends(&all, FLAG_TRAIL, "west", &trail, 500);
    assert_int_equal(all.count, 8);
    assert_string_equal(all.list[5].name, "west part 1, end");
    assert_string_equal(all.list[6].name, "west part 2, start");
    assert_string_equal(flag_kind_word(all.list[6].kind), "trail");
    flags_free(&all);
    shape_free(&trail);
}

/* Whoever walks straight from flag to flag stays near the trail. */
static void between_the_flags_the_trail_is_near(void **state)
{
    (void)state;
    enum { MANY = 400 };
    struct point p[MANY];
    for (int i = 0; i < MANY; i++)
        p[i] = (struct point){ 5 * i, 60 * sin(i / 15.0) + 25 * sin(i / 4.0) };
    struct shape trail = { .kind = SHAPE_LINES };
    add(&trail, p, MANY);
    for (double within = 1; within < 70; within *= 2) {
        struct flags all = { .list = NULL };
        bends(&all, FLAG_TRAIL, "t", &trail, within);
        assert_true(all.count > 2 && all.count < MANY);
        struct shape walked = { .kind = SHAPE_LINES };
        struct point *q = malloc(all.count * sizeof *q);
        assert_non_null(q);
        for (size_t i = 0; i < all.count; i++)
            q[i] = all.list[i].at;
        add(&walked, q, all.count);
        for (int i = 0; i < MANY; i++)
            assert_true(shape_distance(&walked, p[i], NULL) <= within + 1e-9);
        free(q);
        shape_free(&walked);
        flags_free(&all);
    }
    shape_free(&trail);
}

static void corners_points_and_centers(void **state)
{
    (void)state;
    struct shape area = { .kind = SHAPE_AREAS };
    ADD(&area, { 0, 0 }, { 50, 0.5 }, { 100, 0 }, { 100, 100 }, { 0, 100 });
    struct flags all = { .list = NULL };
    struct fault f = { .id = NULL };
    bends(&all, FLAG_BUFFER, "creek buffer", &area, 2);
    assert_int_equal(all.count, 4);
    assert_string_equal(all.list[3].name, "creek buffer, corner 4");
    near(all.list[1].at.x, 100, 0);
    assert_true(flags_center(&all, "opening 1", &area, &f));
    near(all.list[4].at.x, 50, 0.1);
    assert_int_equal(all.list[4].kind, FLAG_OPENING);
    struct shape dots = { .kind = SHAPE_POINTS }, none = { .kind = SHAPE_LINES };
    ADD(&dots, { 1, 2 });
    bends(&all, FLAG_OTHER, "den tree", &dots, 1);
    assert_string_equal(all.list[5].name, "den tree");
    bends(&all, FLAG_OTHER, "none", &none, 1);
    assert_true(flags_center(&all, "none", &none, &f));
    assert_int_equal(all.count, 6);
    shape_free(&area);
    /* The center of a crescent is moved into it. */
    ADD(&area, { 0, 0 }, { 200, 0 }, { 200, 200 }, { 0, 200 }, { 0, 170 }, { 170, 170 },
        { 170, 30 }, { 0, 30 });
    assert_false(shape_has(&area, shape_center(&area)));
    assert_true(flags_center(&all, "crescent", &area, &f));
    assert_true(shape_has(&area, all.list[6].at));
    shape_free(&area);
    shape_free(&dots);
    flags_free(&all);
}

static void out_of_memory_adds_nothing(void **state)
{
    (void)state;
    struct shape trail = { .kind = SHAPE_LINES };
    ADD(&trail, { 0, 0 }, { 50, 40 }, { 100, 0 });
    ADD(&trail, { 0, 10 }, { 50, 50 }, { 100, 10 });
    for (size_t after = 0;; after++) {
        assert_true(after < 60);
        struct flags all = { .list = NULL };
        struct fault f = { .id = NULL };
        failing_seen = false;
        failing_after = after;
        bool made = flags_bends(&all, FLAG_TRAIL, "t", &trail, 1, &f);
        failing_after = SIZE_MAX;
        assert_int_equal(made, !failing_seen);
        assert_int_equal(all.count, made ? 6 : 0);
        assert_int_equal(made, f.id == NULL);
        flags_free(&all);
        if (made)
            break;
    }
    shape_free(&trail);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_trail_is_flagged_where_it_bends),
        cmocka_unit_test(between_the_flags_the_trail_is_near),
        cmocka_unit_test(corners_points_and_centers),
        cmocka_unit_test(out_of_memory_adds_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* Buffers, unions, intersections and differences against what arithmetic says. */
#include "ground.h"
#include "ground/overlay.h"

static const double PI = 3.14159265358979323846;

static void a_round_buffer_of_a_point_is_a_circle(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct shape dot = { .kind = SHAPE_POINTS }, out;
    PART(&dot, false, 100, 200);
    assert_true(overlay_buffer(&dot, 66, OVERLAY_ROUND, &out, &f));
    double circle = PI * 66 * 66, got = shape_area(&out);
    assert_true(got < circle && got > circle * (1 - 1.0 / 19000));
    assert_true(shape_has(&out, (struct point){ 100 + 65.9, 200 }));
    assert_false(shape_has(&out, (struct point){ 100 + 66.1, 200 }));
    shape_free(&out);
    shape_free(&dot);
}

static void a_buffer_of_a_line_ends_round_or_flat(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct shape creek = path(0, 0, 1000, 0), round, flat;
    assert_true(overlay_buffer(&creek, 50, OVERLAY_ROUND, &round, &f));
    assert_true(overlay_buffer(&creek, 50, OVERLAY_FLAT, &flat, &f));
    assert_true(fabs(shape_area(&flat) - 100000) < 1e-6);
    double stadium = 100000 + PI * 50 * 50;
    assert_true(fabs(shape_area(&round) / stadium - 1) < 1.0 / 19000);
    shape_free(&round);
    shape_free(&flat);
    shape_free(&creek);
}

static void an_area_is_taken_in_from_its_rim(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct shape stand = rectangle(0, 0, 500, 300), out, none, line = path(0, 0, 1, 1);
    assert_true(overlay_buffer(&stand, -50, OVERLAY_ROUND, &out, &f));
    assert_true(fabs(shape_area(&out) - 400 * 200) < 1e-6);
    assert_true(overlay_buffer(&stand, -150, OVERLAY_ROUND, &none, &f));
    assert_true(shape_is_empty(&none));
    shape_free(&none);
    shape_free(&out);
    assert_false(overlay_buffer(&line, -1, OVERLAY_ROUND, &none, &f));
    assert_true(told(&f, "shape-kind", "only an area can be taken in", ""));
    fault_clear(&f);
    assert_false(overlay_buffer(&stand, (double)NAN, OVERLAY_ROUND, &none, &f));
    assert_true(told(&f, "shape-kind", "must be a number", ""));
    shape_free(&line);
    shape_free(&stand);
}

static void overlaps_are_counted_once(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct shape a = rectangle(0, 0, 100, 100), b = rectangle(50, 50, 100, 100);
    struct shape c = rectangle(500, 0, 10, 10), all, both, rest, back;
    const struct shape *list[] = { &a, &b, &c };
    assert_true(overlay_union(list, 3, &all, &f));
    assert_int_equal(all.part_count, 2);
    assert_true(fabs(shape_area(&all) - (20000 - 2500 + 100)) < 1e-6);
    assert_true(overlay_intersection(&a, &b, &both, &f));
    assert_true(fabs(shape_area(&both) - 2500) < 1e-9);
    assert_true(overlay_difference(&a, &b, &rest, &f));
    assert_true(fabs(shape_area(&rest) - 7500) < 1e-9);
    const struct shape *again[] = { &both, &rest };
    assert_true(overlay_union(again, 2, &back, &f));
    assert_true(fabs(shape_area(&back) - 10000) < 1e-9);
    shape_free(&back);
    shape_free(&rest);
    shape_free(&both);
    shape_free(&all);
    shape_free(&c);
    shape_free(&b);
    shape_free(&a);
}

static void a_hole_stays_a_hole_whatever_order_the_rings_come_in(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct shape s = area(), cut = rectangle(0, 0, 100, 50), out;
    PART(&s, true, 40, 40, 60, 40, 60, 60, 40, 60);       /* of the second ring */
    PART(&s, false, 200, 0, 300, 0, 300, 100, 200, 100);
    PART(&s, false, 0, 0, 0, 100, 100, 100, 100, 0);      /* winds to the right */
    assert_true(overlay_difference(&s, &cut, &out, &f));
    assert_true(fabs(shape_area(&out) - (10000 + 5000 - 200)) < 1e-9);
    assert_false(shape_has(&out, (struct point){ 50, 55 }));
    shape_free(&cut);
    shape_free(&out);
    shape_free(&s);
}

static double signed_area(const struct shape *s, size_t i)
{
    const struct point *p = s->points + s->parts[i].first;
    double sum = 0;
    for (size_t k = 0, n = s->parts[i].count; k < n; k++)
        sum += p[k].x * p[(k + 1) % n].y - p[(k + 1) % n].x * p[k].y;
    return sum / 2;
}

static void rings_wind_to_the_left_and_holes_to_the_right(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct shape stand = rectangle(0, 0, 100, 100), hole = rectangle(30, 30, 10, 10), out;
    assert_true(overlay_difference(&stand, &hole, &out, &f));
    assert_int_equal(out.part_count, 2);
    assert_true(!out.parts[0].hole && signed_area(&out, 0) > 0);
    assert_true(out.parts[1].hole && signed_area(&out, 1) < 0);
    assert_int_equal(out.parts[0].count, 4);
    shape_free(&out);
    shape_free(&hole);
    shape_free(&stand);
}

static void a_line_in_an_area_is_a_line(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct shape stand = rectangle(0, 0, 100, 100), trail = path(-50, 50, 150, 50);
    struct shape within, without, touching, edge = rectangle(100, 0, 50, 100);
    assert_true(overlay_intersection(&stand, &trail, &within, &f));
    assert_int_equal(within.kind, SHAPE_LINES);
    assert_true(fabs(shape_length(&within) - 100) < 1e-9);
    assert_true(overlay_difference(&trail, &stand, &without, &f));
    assert_int_equal(without.part_count, 2);
    assert_true(fabs(shape_length(&without) - 100) < 1e-9);
    assert_true(overlay_intersection(&stand, &edge, &touching, &f));
    assert_true(shape_is_empty(&touching));
    shape_free(&touching);
    shape_free(&without);
    shape_free(&within);
    shape_free(&edge);
    shape_free(&trail);
    shape_free(&stand);
}

static void shapes_of_two_kinds_are_not_joined(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct shape stand = rectangle(0, 0, 100, 100), trail = path(0, 0, 1, 1), out;
    const struct shape *list[] = { &stand, &trail };
    assert_false(overlay_union(list, 2, &out, &f));
    assert_true(told(&f, "shape-kind", "one kind only", ""));
    assert_true(shape_is_empty(&out));
    shape_free(&trail);
    shape_free(&stand);
}

static void nothing_is_no_trouble(void **state)
{
    (void)state;
    struct fault f = { 0 };
    struct shape none = area(), stand = rectangle(0, 0, 10, 10), out;
    const struct shape *list[] = { &none, &stand };
    assert_true(overlay_union(NULL, 0, &out, &f) && shape_is_empty(&out));
    assert_true(overlay_union(list, 2, &out, &f));
    assert_true(fabs(shape_area(&out) - 100) < 1e-9);
    shape_free(&out);
    assert_true(overlay_intersection(&none, &stand, &out, &f) && shape_is_empty(&out));
    assert_true(overlay_difference(&stand, &none, &out, &f));
    assert_true(fabs(shape_area(&out) - 100) < 1e-9);
    shape_free(&out);
    assert_true(overlay_buffer(&none, 10, OVERLAY_FLAT, &out, &f) && shape_is_empty(&out));
    shape_free(&stand);
}

/* What is cut, kept and left of a stand adds up to it: on random strips and blots. */
static void parts_add_up_to_the_whole(void **state)
{
    (void)state;
    unsigned seed = 7;
    for (int round = 0; round < 300; round++) {
        struct fault f = { 0 };
        struct shape stand = area(), strip, in, out, line = { .kind = SHAPE_LINES };
        double ring[24], way[10];
        for (int i = 0; i < 12; i++) {
            double far = 500 + rand_r(&seed) % 900, turn = i * PI / 6;
            ring[2 * i] = far * cos(turn);
            ring[2 * i + 1] = far * sin(turn);
        }
        for (int i = 0; i < 10; i++)
            way[i] = rand_r(&seed) % 3000 - 1500;
        part(&stand, false, ring, 12);
        part(&line, false, way, 5);
        assert_true(overlay_buffer(&line, 20 + rand_r(&seed) % 100, OVERLAY_FLAT, &strip, &f));
        assert_true(overlay_intersection(&stand, &strip, &in, &f));
        assert_true(overlay_difference(&stand, &strip, &out, &f));
        double whole = shape_area(&stand);
        assert_true(fabs(shape_area(&in) + shape_area(&out) - whole) < 1e-6 * whole);
        shape_free(&in);
        shape_free(&out);
        shape_free(&strip);
        shape_free(&line);
        shape_free(&stand);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_round_buffer_of_a_point_is_a_circle),
        cmocka_unit_test(a_buffer_of_a_line_ends_round_or_flat),
        cmocka_unit_test(an_area_is_taken_in_from_its_rim),
        cmocka_unit_test(overlaps_are_counted_once),
        cmocka_unit_test(a_hole_stays_a_hole_whatever_order_the_rings_come_in),
        cmocka_unit_test(rings_wind_to_the_left_and_holes_to_the_right),
        cmocka_unit_test(a_line_in_an_area_is_a_line),
        cmocka_unit_test(shapes_of_two_kinds_are_not_joined),
        cmocka_unit_test(nothing_is_no_trouble),
        cmocka_unit_test(parts_add_up_to_the_whole),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

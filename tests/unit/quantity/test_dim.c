#include "../unit.h"

#include "quantity/dim.h"

static void a_length_times_a_length_is_an_area(void **state)
{
    (void)state;
    struct dim length = dim_of(DIM_LENGTH, 1), out;
    assert_true(dim_multiply(length, length, &out));
    assert_true(dim_equal(out, dim_of(DIM_LENGTH, 2)));
    assert_false(dim_equal(out, length));
}

static void a_quantity_over_its_own_kind_is_a_number(void **state)
{
    (void)state;
    struct dim out;
    assert_true(dim_divide(dim_of(DIM_MONEY, 1), dim_of(DIM_MONEY, 1), &out));
    assert_true(dim_is_number(out));
    assert_false(dim_is_number(dim_of(DIM_STEMS, 1)));
}

static void working_time_is_not_calendar_time(void **state)
{
    (void)state;
    struct dim out;
    assert_false(dim_equal(dim_of(DIM_WORK, 1), dim_of(DIM_CALENDAR, 1)));
    assert_true(dim_divide(dim_of(DIM_WORK, 1), dim_of(DIM_CALENDAR, 1), &out));
    assert_false(dim_is_number(out));
}

static void square_and_cube_roots_come_back_to_where_they_started(void **state)
{
    (void)state;
    struct dim root, back;
    for (int base = 0; base < DIM_BASES; base++)
        for (int denominator = 2; denominator <= 3; denominator++) {
            assert_true(dim_power(dim_of(base, 1), 1, denominator, &root));
            assert_true(dim_power(root, denominator, 1, &back));
            assert_true(dim_equal(back, dim_of(base, 1)));
        }
}

static void a_fifth_root_is_refused(void **state)
{
    (void)state;
    struct dim out;
    assert_false(dim_power(dim_of(DIM_LENGTH, 1), 1, 5, &out));
    assert_true(dim_power(dim_of(DIM_LENGTH, 5), 1, 5, &out));
    assert_true(dim_equal(out, dim_of(DIM_LENGTH, 1)));
    assert_false(dim_power(dim_of(DIM_LENGTH, 1), 1, 0, &out));
}

static void exponents_stop_at_21(void **state)
{
    (void)state;
    struct dim out;
    assert_true(dim_multiply(dim_of(DIM_LENGTH, 20), dim_of(DIM_LENGTH, 1), &out));
    assert_false(dim_multiply(out, dim_of(DIM_LENGTH, 1), &out));
    assert_true(dim_divide(dim_of(DIM_LENGTH, -20), dim_of(DIM_LENGTH, 1), &out));
    assert_false(dim_divide(out, dim_of(DIM_LENGTH, 1), &out));
    assert_false(dim_power(dim_of(DIM_LENGTH, 11), 2, 1, &out));
    assert_false(dim_power(dim_of(DIM_LENGTH, 1), 2000000000, 1, &out));
    assert_true(dim_power(dim_of(DIM_LENGTH, 21), -1, 1, &out));
    assert_true(dim_equal(out, dim_of(DIM_LENGTH, -21)));
}

static void a_refused_result_leaves_the_place_for_it_alone(void **state)
{
    (void)state;
    struct dim out = dim_of(DIM_TREES, 3);
    assert_false(dim_power(dim_of(DIM_LENGTH, 1), 1, 4, &out));
    assert_true(dim_equal(out, dim_of(DIM_TREES, 3)));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_length_times_a_length_is_an_area),
        cmocka_unit_test(a_quantity_over_its_own_kind_is_a_number),
        cmocka_unit_test(working_time_is_not_calendar_time),
        cmocka_unit_test(square_and_cube_roots_come_back_to_where_they_started),
        cmocka_unit_test(a_fifth_root_is_refused),
        cmocka_unit_test(exponents_stop_at_21),
        cmocka_unit_test(a_refused_result_leaves_the_place_for_it_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

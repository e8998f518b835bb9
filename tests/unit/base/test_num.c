#include "../unit.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "../comma_locale.h"
#include "base/buf.h"
#include "base/num.h"

static size_t take(const char *text, double *out)
{
    return num_read(text, strlen(text), out);
}

static void check_fixed(double value, int decimals, bool thousands, const char *wanted)
{
    struct buf b;
    buf_init(&b);
    num_fixed(&b, value, decimals, thousands);
    assert_string_equal(b.data, wanted);
    buf_clear(&b);
}

static void check_trade(double value, const char *wanted)
{
    struct buf b;
    buf_init(&b);
    num_trade(&b, value);
    assert_string_equal(b.data, wanted);
    buf_clear(&b);
}

static void check_data(double value, const char *wanted)
{
    struct buf b;
    buf_init(&b);
    num_data(&b, value);
    assert_string_equal(b.data, wanted);
    buf_clear(&b);
}

static void numbers_are_read_as_lua_writes_them(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        size_t taken;
        double value;
    } cases[] = {
        { "3", 1, 3 },
        { "3.4", 3, 3.4 },
        { ".5 ac", 2, 0.5 },
        { "5. ft", 2, 5 },
        { "1e3 ft", 3, 1000 },
        { "1E-2", 4, 0.01 },
        { "2e+1x", 4, 20 },
        { "1e", 1, 1 },
        { "1e+", 1, 1 },
        { "1ex", 1, 1 },
        { "3 to 4", 1, 3 },
        { "0x10", 1, 0 },
        { "3,4", 1, 3 },
        { "1_000", 1, 1 },
        { "3..4", 2, 3 },
        { "007", 3, 7 },
        { "0", 1, 0 },
        { "1e-400", 6, 0 },
        { "1.7976931348623157e308", 22, 1.7976931348623157e308 },
        { "5e-324", 6, 5e-324 },
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        double value = -1;
        assert_int_equal(take(cases[i].text, &value), cases[i].taken);
        assert_true(value == cases[i].value);
    }
}

static void what_is_no_number_is_left_alone(void **state)
{
    (void)state;
    static const char *const cases[] = {
        "", ".", "e5", "-3", "+3", "inf", "nan", "x", " 3", ".e1", "1e999", "ac",
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        double value = -1;
        assert_int_equal(take(cases[i], &value), 0);
        assert_true(value == -1);
    }
}

static void only_the_bytes_given_are_read(void **state)
{
    (void)state;
    double value = -1;
    assert_int_equal(num_read("3456", 2, &value), 2);
    assert_true(value == 34);
    assert_int_equal(num_read("3e5", 2, &value), 1);
    assert_true(value == 3);
    assert_int_equal(num_read("3\0.5", 4, &value), 1);
    assert_int_equal(num_read("3", 0, &value), 0);
    /* Right against the end of a block of memory: a byte more would be found out. */
    char *tight = malloc(3);
    memcpy(tight, "1.5", 3);
    assert_int_equal(num_read(tight, 3, &value), 3);
    assert_true(value == 1.5);
    free(tight);
}

static void reading_rounds_to_the_nearest_double(void **state)
{
    (void)state;
    double value;
    /* Half way between 1 and the next double, a digit less and a digit more. */
    take("1.00000000000000011102230246251565404236316680908203125", &value);
    assert_true(value == 1);
    take("1.00000000000000011102230246251565404236316680908203124", &value);
    assert_true(value == 1);
    take("1.00000000000000011102230246251565404236316680908203126", &value);
    assert_true(value == 1.0000000000000002);
    take("9007199254740993", &value);
    assert_true(value == 9007199254740992.0);
    take("8.5e-1", &value);
    assert_true(value == 0.85);
}

static void a_number_of_many_digits_is_read_whole(void **state)
{
    (void)state;
    char text[3001];
    memset(text, '0', 3000);
    memcpy(text, "0.", 2);
    memcpy(text + 2990, "1e2985", 6);
    double value;
    assert_int_equal(num_read(text, 2996, &value), 2996);
    assert_true(value == 1e-4);
}

static void a_thousand_random_doubles_are_read_back(void **state)
{
    (void)state;
    uint64_t seed = 42;
    for (int i = 0; i < 1000; i++) {
        double wanted, value;
        seed = seed * 6364136223846793005u + 1442695040888963407u;
        uint64_t bits = seed & 0x7FFFFFFFFFFFFFFFu;
        memcpy(&wanted, &bits, sizeof wanted);
        if (!isfinite(wanted))
            continue;
        char text[64];
        snprintf(text, sizeof text, "%.17g", wanted);
        assert_int_equal(take(text, &value), strlen(text));
        assert_true(value == wanted);
    }
}

static void halves_go_away_from_zero_as_typed(void **state)
{
    (void)state;
    check_fixed(2.675, 2, false, "2.68"); /* the double is a little less than that */
    check_fixed(1.005, 2, false, "1.01");
    check_fixed(0.125, 2, false, "0.13");
    check_fixed(-0.125, 2, false, "-0.13");
    check_fixed(0.5, 0, false, "1");
    check_fixed(1.5, 0, false, "2");
    check_fixed(2.5, 0, false, "3");
    check_fixed(-2.5, 0, false, "-3");
    check_fixed(2.4999, 0, false, "2");
    check_fixed(0.4999999, 0, false, "0");
    check_fixed(0.05, 1, false, "0.1");
    check_fixed(0.04, 1, false, "0.0");
}

static void nines_carry_into_a_new_digit(void **state)
{
    (void)state;
    check_fixed(9.995, 2, false, "10.00");
    check_fixed(999.5, 0, true, "1,000");
    check_fixed(0.9999, 3, false, "1.000");
    check_fixed(0.0999, 2, false, "0.10");
    check_fixed(99999.95, 1, true, "100,000.0");
}

static void zero_has_no_sign(void **state)
{
    (void)state;
    check_fixed(-0.0, 2, false, "0.00");
    check_fixed(-0.004, 2, false, "0.00");
    check_fixed(0, 0, true, "0");
    check_fixed(0, 3, false, "0.000");
    check_fixed(1e-300, 9, false, "0.000000000");
}

static void thousands_have_commas_when_asked(void **state)
{
    (void)state;
    check_fixed(1234.5, 1, true, "1,234.5");
    check_fixed(1234.5, 1, false, "1234.5");
    check_fixed(999, 0, true, "999");
    check_fixed(1000, 0, true, "1,000");
    check_fixed(-1234567.891, 2, true, "-1,234,567.89");
    check_fixed(1e15, 0, true, "1,000,000,000,000,000");
    check_fixed(1e22, 1, false, "10000000000000000000000.0");
}

static void what_is_not_finite_is_a_question_mark_on_paper(void **state)
{
    (void)state;
    check_fixed((double)NAN, 2, false, "?");
    check_fixed((double)INFINITY, 2, true, "?");
    check_trade((double)-INFINITY, "?");
}

static void papers_show_three_digits_at_least(void **state)
{
    (void)state;
    check_trade(0.3441, "0.344");
    check_trade(3.4, "3.4");
    check_trade(12.5, "12.5");
    check_trade(12.54, "12.5");
    check_trade(12.55, "12.6");
    check_trade(109.3, "109");
    check_trade(3150, "3,150");
    check_trade(3150.4, "3,150");
    check_trade(1234567.8, "1,234,568");
    check_trade(0.05, "0.05");
    check_trade(0.0012345, "0.00123");
    check_trade(0.00012, "0.00012");
    check_trade(1, "1");
    check_trade(10, "10");
    check_trade(100, "100");
    check_trade(0, "0");
    check_trade(-0.0, "0");
    check_trade(-3.456, "-3.46");
}

static void papers_round_before_they_count_digits(void **state)
{
    (void)state;
    check_trade(9.996, "10");
    check_trade(99.96, "100");
    check_trade(99.94, "99.9");
    check_trade(999.6, "1,000");
    check_trade(0.9996, "1");
    check_trade(0.09996, "0.1");
}

static void dust_of_rounding_is_zero_on_paper(void **state)
{
    (void)state;
    check_trade(0.1 + 0.2 - 0.3, "0");
    check_trade(-4e-10, "0");
    check_trade(6e-10, "0.000000001");
    check_trade(1e300, "1e300");
}

static void data_are_short_and_exact_to_twelve_digits(void **state)
{
    (void)state;
    check_data(3, "3");
    check_data(-3, "-3");
    check_data(0.1 + 0.2, "0.3");
    check_data(1.0 / 3, "0.333333333333");
    check_data(2.0 / 3, "0.666666666667");
    check_data(3.4, "3.4");
    check_data(1234.5, "1234.5");
    check_data(43560, "43560");
    check_data(0, "0");
    check_data(-0.0, "0");
    check_data(0.001, "0.001");
    check_data(1.23e-5, "0.0000123");
    check_data(1.5e-9, "1.5e-9");
    check_data(1e-7, "1e-7");
    check_data(123456789012345, "123456789012345");
    check_data(1e15, "1e15");
    check_data(1e21, "1e21");
    check_data(-1.25e30, "-1.25e30");
    check_data(99.9999999999999, "100");
    check_data((double)NAN, "null");
    check_data((double)-INFINITY, "null");
}

static void data_read_back_within_their_digits(void **state)
{
    (void)state;
    uint64_t seed = 7;
    for (int i = 0; i < 2000; i++) {
        seed = seed * 6364136223846793005u + 1442695040888963407u;
        double unit = (double)(seed >> 11) / 9007199254740992.0;
        double value = (unit + 1e-3) * pow(10, (double)(i % 60 - 30)), back = 0;
        struct buf b;
        buf_init(&b);
        num_data(&b, value);
        assert_int_equal(num_read(b.data, b.length, &back), b.length);
        assert_true(fabs(back - value) <= 5e-12 * value);
        buf_clear(&b);
    }
}

static void a_comma_locale_changes_nothing(void **state)
{
    (void)state;
    assert_true(comma_locale_begin());
    char spoiled[32];
    snprintf(spoiled, sizeof spoiled, "%.1f", 3.5);
    assert_string_equal(spoiled, "3,5"); /* the locale is really in force */
    double value = 0;
    size_t taken = take("3.4", &value);
    double with_comma = 0;
    size_t taken_comma = take("3,4", &with_comma);
    /* A real locale can be in force for the thread alone; it must still be afterwards. */
    snprintf(spoiled, sizeof spoiled, "%.1f", 3.5);
    assert_string_equal(spoiled, "3,5");
    assert_int_equal(taken, 3);
    assert_true(value == 3.4);
    assert_int_equal(taken_comma, 1);
    assert_true(with_comma == 3);
    check_fixed(1234.5, 1, true, "1,234.5");
    check_fixed(2.675, 2, false, "2.68");
    check_trade(0.3441, "0.344");
    check_trade(3150, "3,150");
    check_data(1.0 / 3, "0.333333333333");
    check_data(1.5e-9, "1.5e-9");
    comma_locale_end();
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_are_read_as_lua_writes_them),
        cmocka_unit_test(what_is_no_number_is_left_alone),
        cmocka_unit_test(only_the_bytes_given_are_read),
        cmocka_unit_test(reading_rounds_to_the_nearest_double),
        cmocka_unit_test(a_number_of_many_digits_is_read_whole),
        cmocka_unit_test(a_thousand_random_doubles_are_read_back),
        cmocka_unit_test(halves_go_away_from_zero_as_typed),
        cmocka_unit_test(nines_carry_into_a_new_digit),
        cmocka_unit_test(zero_has_no_sign),
        cmocka_unit_test(thousands_have_commas_when_asked),
        cmocka_unit_test(what_is_not_finite_is_a_question_mark_on_paper),
        cmocka_unit_test(papers_show_three_digits_at_least),
        cmocka_unit_test(papers_round_before_they_count_digits),
        cmocka_unit_test(dust_of_rounding_is_zero_on_paper),
        cmocka_unit_test(data_are_short_and_exact_to_twelve_digits),
        cmocka_unit_test(data_read_back_within_their_digits),
        cmocka_unit_test(a_comma_locale_changes_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

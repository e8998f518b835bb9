/* Numbers by chance: the same on every machine, and evenly spread. */
#include "../unit.h"
#include "base/chance.h"

/* The first five from 1234567, as published beside many ports of the generator; from
 * memory. */
static void the_numbers_are_splitmix64s(void **state)
{
    (void)state;
    static const uint64_t wanted[] = { UINT64_C(6457827717110365317),
                                       UINT64_C(3203168211198807973),
                                       UINT64_C(9817491932198370423),
                                       UINT64_C(4593380528125082431),
                                       UINT64_C(16408922859458223821) };
    uint64_t seed = 1234567;
    for (size_t i = 0; i < 5; i++)
        assert_true(chance_next(&seed) == wanted[i]);
}

static void parts_lie_from_0_to_below_1_and_evenly(void **state)
{
    (void)state;
    enum { CELLS = 10, DRAWS = 100000 };
    int count[CELLS] = { 0 };
    uint64_t seed = 1;
    for (int i = 0; i < DRAWS; i++) {
        double part = chance_unit(&seed);
        assert_true(part >= 0 && part < 1);
        count[chance_below(&seed, CELLS)]++;
    }
    /* Five standard deviations of a count of tenths: sqrt(n 0.1 0.9) = 95. */
    for (int i = 0; i < CELLS; i++)
        assert_in_range(count[i], DRAWS / CELLS - 475, DRAWS / CELLS + 475);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_numbers_are_splitmix64s),
        cmocka_unit_test(parts_lie_from_0_to_below_1_and_evenly),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

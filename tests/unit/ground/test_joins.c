#include "../unit.h"

#include <math.h>

#include "base/fault.h"
#include "best_net.h"
#include "base/chance.h"

static struct fault fault;

/* Openings and exits by chance in a square, each linked to those nearest to it. */
static size_t make_links(uint64_t *chance, int openings, int exits, size_t most,
                         struct joins_link *links)
{
    double x[16], y[16];
    size_t count = 0;
    for (int i = 0; i < openings + exits; i++) {
        x[i] = 500 * chance_unit(chance);
        y[i] = 500 * chance_unit(chance);
    }
    for (double far = 100; count < most && far < 800; far += 20) {
        for (int a = 0; a < openings; a++) {
            for (int b = a + 1; b < openings + exits && count < most; b++) {
                double d = hypot(x[a] - x[b], y[a] - y[b]);
                if (d <= far && (d > far - 20 || far == 100))
                    links[count++] = (struct joins_link){ a, b, d };
            }
        }
    }
    return count;
}

static void ways_out_are_as_many_as_any_set_of_routes(void **state)
{
    (void)state;
    uint64_t chance = 1;
    for (int n = 0; n < 3000; n++) {
        struct joins_link links[BEST_LINKS];
        uint8_t used[BEST_LINKS];
        struct joins net = { .openings = 2 + (int)chance_below(&chance, 5),
                             .exits = 1 + (int)chance_below(&chance, 4), .links = links };
        net.link_count = make_links(&chance, net.openings, net.exits, 12, links);
        for (size_t e = 0; e < net.link_count; e++)
            used[e] = chance_unit(&chance) < 0.8;
        assert_true(joins_begin(&net, &fault));
        for (int i = 0; i < net.openings; i++)
            assert_int_equal(joins_count(&net, used, i, 3),
                             best_routes(&net, used, 0, 0, i, i, 3));
        joins_end(&net);
    }
}

/* Every opening has its ways, and the length is that of the shortest choice or a little
 * more: 1.10 on the mean is the bar, printed is what it is. */
static void the_choice_is_close_to_the_shortest(void **state)
{
    (void)state;
    uint64_t chance = 2;
    double sum = 0, worst = 1;
    int count = 0;
    for (int n = 0; n < 150; n++) {
        static struct best_net best;
        struct joins_link links[BEST_LINKS];
        uint8_t used[BEST_LINKS];
        int wanted = 2 + n % 2;
        struct joins net = { .openings = 3 + (int)chance_below(&chance, 3), .exits = 3,
                             .links = links };
        net.link_count = make_links(&chance, net.openings, net.exits, 16, links);
        double least = best_length(&best, &net, wanted);
        assert_true(joins_begin(&net, &fault));
        double length = joins_choose(&net, wanted, (uint64_t)n, used, &fault);
        if (least < HUGE_VAL) {
            assert_true(best_serves(&best, used));
            assert_true(length >= least - 1e-6);
            sum += length / least;
            worst = fmax(worst, length / least);
            count++;
        }
        joins_end(&net);
    }
    print_message("%d nets: length %.4f of the shortest on the mean, %.4f at most\n",
                  count, sum / count, worst);
    assert_true(count > 60);
    assert_true(sum / count <= 1.10);
}

static void who_cannot_have_so_many_keeps_what_it_can_have(void **state)
{
    (void)state;
    /* 0 hangs on 1 by one link; 1 has two exits. */
    struct joins_link links[] = { { 0, 1, 10 }, { 1, 2, 20 }, { 1, 3, 30 } };
    struct joins net = { .openings = 2, .exits = 2, .links = links, .link_count = 3 };
    uint8_t used[3];
    assert_true(joins_begin(&net, &fault));
    assert_true(fabs(joins_choose(&net, 2, 1, used, &fault) - 60) < 1e-9);
    assert_int_equal(joins_count(&net, used, 0, 2), 1);
    assert_int_equal(joins_count(&net, used, 1, 2), 2);
    joins_end(&net);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(ways_out_are_as_many_as_any_set_of_routes),
        cmocka_unit_test(the_choice_is_close_to_the_shortest),
        cmocka_unit_test(who_cannot_have_so_many_keeps_what_it_can_have),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

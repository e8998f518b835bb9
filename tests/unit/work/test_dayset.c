/* Sets of days against a plain list of them, one by one. */
#include "../unit.h"

#include "base/fault.h"
#include "work/dayset.h"

enum { DAYS = 1000, ROUNDS = 400 };

static uint64_t random_state = 1;

static int below(int n)
{
    random_state = random_state * UINT64_C(6364136223846793005) + 1442695040888963407u;
    return (int)((random_state >> 33) % (uint64_t)n);
}

static struct yearly some_window(void)
{
    struct window w = { { (int8_t)(1 + below(12)), (int8_t)(1 + below(28)) },
                        { (int8_t)(1 + below(12)), (int8_t)(1 + below(28)) } };
    return yearly_of(w);
}

static void stretch(struct dayset *set, bool *list, bool on)
{
    int from = below(DAYS + 40) - 20, to = from + below(200);
    struct date a = { set->first.day + from }, b = { set->first.day + to };
    if (on)
        dayset_add(set, a, b);
    else
        dayset_remove(set, a, b);
    for (int d = from < 0 ? 0 : from; d <= to && d < DAYS; d++)
        list[d] = on;
}

static void yearly(struct dayset *set, bool *list)
{
    struct yearly window = some_window();
    dayset_add_yearly(set, window);
    for (int d = 0; d < DAYS; d++)
        list[d] |= yearly_has(window, (struct date){ set->first.day + d });
}

static int next(const bool *list, int day, bool wanted)
{
    for (; day < DAYS; day++)
        if (list[day] == wanted)
            return day;
    return DAYS;
}

static void are_alike(const struct dayset *set, const bool *list)
{
    for (int d = 0; d < DAYS; d++) {
        assert_int_equal(dayset_has(set, d), list[d]);
        assert_int_equal(dayset_next(set, d), next(list, d, true));
        assert_int_equal(dayset_next_gap(set, d), next(list, d, false));
    }
    int from = below(DAYS), to = from + below(300), count = 0;
    for (int d = from; d <= to && d < DAYS; d++)
        count += list[d];
    assert_int_equal(dayset_count(set, from, to), count);
    for (int week = 0; week * 7 < DAYS; week++) {
        int days = 0;
        for (int d = week * 7; d < week * 7 + 7 && d < DAYS; d++)
            days += list[d];
        assert_int_equal(dayset_week(set, week), days);
    }
}

static void sets_hold_the_days_that_a_list_holds(void **state)
{
    (void)state;
    for (int round = 0; round < ROUNDS; round++) {
        struct fault f;
        struct dayset a, b;
        bool in_a[DAYS] = { false }, in_b[DAYS] = { false };
        struct date first = { 8000 + below(20000) };
        fault_clear(&f);
        assert_true(dayset_init(&a, first, DAYS, &f) && dayset_init(&b, first, DAYS, &f));
        for (int i = below(4); i >= 0; i--) {
            yearly(&a, in_a);
            stretch(&a, in_a, below(2) == 0);
            yearly(&b, in_b);
            stretch(&b, in_b, below(2) == 0);
        }
        are_alike(&a, in_a);
        int day = below(DAYS), both = day;
        while (both < DAYS && !(in_a[both] && in_b[both]))
            both++;
        assert_int_equal(dayset_next_both(&a, &b, day), both);
        bool meet = below(2) == 0;
        for (int d = 0; d < DAYS; d++)
            in_a[d] = meet ? in_a[d] && in_b[d] : in_a[d] || in_b[d];
        if (meet)
            dayset_and(&a, &b);
        else
            dayset_or(&a, &b);
        are_alike(&a, in_a);
        dayset_clear(&a);
        dayset_clear(&b);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sets_hold_the_days_that_a_list_holds),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* The check of the ledger: it must find ground that is told twice, lost or below nothing,
 * so it is shown such, in place of what the ledger itself says. */
#include "reading.h"

/* books { acres = 10, kept = 1, ... }: does a stand whose ground goes so pass? */
static const char words[] =
    "local host, ledger, quantity = need 'host', need 'ledger', need 'quantity'\n"
    "return function(t)\n"
    "  local stand = { name = 'Bench', place = host.here('books'),\n"
    "    area = quantity.leaf(t.acres, 'ac', 'a test') }\n"
    "  return ledger.check({ stand }, function() return { rows = t } end)\n"
    "end";

static void passes(const char *rows, const char *wanted, const char *told)
{
    struct reading r;
    char script[400];
    snprintf(script, sizeof script, "print(books { acres = 10, %s })", rows);
    reading_begin(&r, "books", words, script);
    assert_string_equal(r.host->printed->data, wanted);
    assert_int_equal(r.host->faults.count, told != NULL);
    if (told) {
        assert_string_equal(r.host->faults.list[0].id, "ledger");
        assert_non_null(strstr(r.host->faults.list[0].message, told));
    }
    reading_close(&r);
}

static void what_adds_up_passes(void **state)
{
    (void)state;
    passes("kept = 1, open = 0.5, trail = 0.25, buffer = 2, cut = 4, worked = 1, "
           "untouched = 1.25",
           "true\n", NULL);
    passes("kept = 0, open = 0, trail = 0, buffer = 0, cut = 0, worked = 0, "
           "untouched = 10.0000005",
           "true\n", NULL);
}

static void what_does_not_is_a_fault(void **state)
{
    (void)state;
    passes("kept = 1, open = 0.5, trail = 0.25, buffer = 2, cut = 4, worked = 1, "
           "untouched = 1.250002",
           "false\n", "its parts have 10.000002 ac");
    passes("kept = 0, open = 0, trail = 0, buffer = 0, cut = 0, worked = 0, untouched = 9.9",
           "false\n", "it has 10.000000 ac");
    passes("kept = -1, open = 0, trail = 0, buffer = 0, cut = 0, worked = 0, untouched = 11",
           "false\n", "kept clumps: -1");
    passes("open = 0, trail = 0, buffer = 0, cut = 0, worked = 0, untouched = 10",
           "false\n", "kept clumps");
    passes("kept = 0, open = 0, trail = 0, buffer = 0, cut = 0/0, worked = 0, untouched = 10",
           "false\n", "cut over");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_adds_up_passes),
        cmocka_unit_test(what_does_not_is_a_fault),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

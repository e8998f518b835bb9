#include "../unit.h"

#include <math.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "forest/limit.h"

#define same_number(value, wanted) assert_true(fabs((value) - (wanted)) < 1e-12)

static void read_as(const char *const *words, size_t count, double baf, double diameter,
                    double slope) {
    struct fault f = { .id = NULL };
    struct limit l;
    assert_true(limit_read(words, count, &l, &f));
    same_number(l.baf, baf);
    same_number(l.diameter_in, diameter);
    same_number(l.slope_percent, slope);
}

static void numbers_are_read_with_and_without_units(void **state) {
    (void)state;
    read_as((const char *const[]){ "10", "12.4" }, 2, 10, 12.4, 0);
    read_as((const char *const[]){ "20", "14.1", "30%" }, 3, 20, 14.1, 30);
    read_as((const char *const[]){ "baf", "20", "14.1", "in", "30", "percent" }, 6, 20,
            14.1, 30);
    read_as((const char *const[]){ "10ft2/ac", "12in", "5" }, 3, 10, 12, 5);
    read_as((const char *const[]){ "10", "30%" }, 2, 10, 0, 30);
    read_as((const char *const[]){ "10 12.4 in" }, 1, 10, 12.4, 0);
}

static void refused(const char *word, const char *other, const char *message) {
    struct fault f = { .id = NULL };
    struct limit l;
    const char *words[] = { word, other };
    assert_false(limit_read(words, other ? 2 : word ? 1 : 0, &l, &f));
    assert_string_equal(f.id, "line");
    assert_string_equal(f.message, message);
}

static void slips_are_told_in_words(void **state) {
    (void)state;
    refused(NULL, NULL,
            "limit wants a basal area factor, and mostly a diameter in inches");
    refused("30%", NULL,
            "limit wants a basal area factor, and mostly a diameter in inches");
    refused("ten", NULL, "`ten` is not read by limit");
    refused("10", "12ft", "`12ft` is not read by limit");
    refused("10", "12 30% 40%", "`40%` is not read by limit");
    refused("10", "12 13 14", "`14` is not read by limit");
    refused("10", "12,5", "`12,5` is not read by limit");
    refused("10", "-12", "`-12` is not read by limit");
    refused("200", "12", "a basal area factor lies between 1 and 100 ft2/ac");
    refused("10", "0", "a diameter lies between 0.5 and 60 in");
    refused("10", "12 200%", "a slope lies between 0 and 150 percent");
}

static void says(struct limit ask, const char *words) {
    struct buf out;
    buf_init(&out);
    limit_say(&ask, &out);
    assert_non_null(strstr(out.data, words));
    buf_clear(&out);
}

/* By hand: 33 sqrt(10) / (12 sqrt(10)) = 2.75 ft an inch; a 12-in tree 33 ft, its face
 * half a foot nearer; 1/cos of 30 percent 1.04403. BAF 40, 4 in: 5.5 and 5.33 ft. */
static void distances_are_printed(void **state) {
    (void)state;
    says((struct limit){ 10, 12, 0 },
         "  tape level, to the tree's center              33.00 ft\n");
    says((struct limit){ 10, 12, 0 },
         "  tape level, to its face                       32.50 ft\n");
    says((struct limit){ 10, 12, 30 },
         "  tape up or down the slope, to the center      34.45 ft\n");
    says((struct limit){ 10, 12, 30 },
         "  tape up or down the slope, to its face        33.93 ft\n");
    says((struct limit){ 40, 0, 0 }, "    4 in        5.50        5.33\n");
    says((struct limit){ 40, 0, 0 }, "   30 in       41.25       40.00\n");
    says((struct limit){ 10, 12, 0 }, "every other such tree");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_are_read_with_and_without_units),
        cmocka_unit_test(slips_are_told_in_words),
        cmocka_unit_test(distances_are_printed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

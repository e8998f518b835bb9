/* What an inventory knows of itself, however it was made. */
#include "../unit.h"
#include "woods.h"

#include "forest/eye.h"

static double stout_of(const char *notes) {
    struct species_table *t = woods_table();
    struct inventory *inv = woods_cruise(t, notes);
    double stout = inv->stout_in;
    inventory_free(inv);
    species_table_free(t);
    return stout;
}

static void a_tenth_of_the_basal_area_is_thicker(void **state) {
    (void)state;
    /* Basal area goes with the squares: 900 of 1964, 144 of 1144: more than a tenth. */
    close_to(stout_of("size 1/10 ac\nplot 1: BTA 10x10; RO 30\nplot 2: BTA 8\n"), 30, 0);
    close_to(stout_of("size 1/10 ac\nplot 1: BTA 10x10; RO 12\n"), 12, 0);
    /* 144 of 2144: less; the next are the tens, of whatever species. */
    close_to(stout_of("size 1/10 ac\nplot 1: BTA 10x12; RM 12; RO 10x8\n"), 10, 0);
    /* By a prism each counts as much: one of eleven is less than a tenth, two are more. */
    close_to(stout_of("baf 10\nplot 1: RO 20; RM 14; BTA 6x9\n"), 14, 0);
    close_to(stout_of("baf 10\nplot 1: none\n"), 0, 0);
    close_to(stout_of("baf 10\nplot 1: RO 9; snags: RO 24\n"), 9, 0);
}

/* Oak, a quarter of the basal area, lies like a gable over 10 to 16 in; a tenth of all is
 * four tenths of it, which is what lies above x where (16 - x)^2 / 18 = 0.4: 13.3 in, in
 * the class of 13. */
static void so_it_is_of_a_stand_judged_by_eye(void **state) {
    (void)state;
    static const struct eye_rules rules = { .density_percent = 30,
                                            .share_points = 12,
                                            .diameter_percent = 10,
                                            .not_walked_times = 2 };
    static const struct eye_share shares[] = {
        { .species = RED_OAK, .percent = 25, .least_in = 10, .most_in = 16 },
        { .species = QUAKING, .percent = 75 },
    };
    const struct eye_estimate judged = { .basis = INVENTORY_EYE,
                                         .judged = JUDGED_BASAL_AREA,
                                         .low = 100,
                                         .likely = 100,
                                         .high = 100,
                                         .least_in = 4,
                                         .most_in = 8,
                                         .shares = shares,
                                         .share_count = 2 };
    struct fault f = { .id = NULL };
    struct species_table *t = woods_table();
    struct inventory *inv = eye_inventory(&judged, &rules, t, "Corner", SPAN_NONE, &f);
    assert_non_null(inv);
    close_to(inv->stout_in, 13, 0);
    inventory_free(inv);
    species_table_free(t);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_tenth_of_the_basal_area_is_thicker),
        cmocka_unit_test(so_it_is_of_a_stand_judged_by_eye),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

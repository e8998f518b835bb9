#include "../unit.h"
#include "woods.h"

#include <stdio.h>
#include <stdlib.h>

static struct tally *read_notes(const char *notes, struct faults *all) {
    struct species_table *t = woods_table();
    *all = (struct faults){ .count = 0 };
    struct tally *tally =
        tally_read(notes, strlen(notes), (struct span){ 7, 1000, 0 }, t, all);
    species_table_free(t);
    return tally;
}

/* The one fault of these notes: its id, and the very bytes it means (the last such). */
static void refused(const char *notes, const char *id, const char *at,
                    const char *message, const char *hint) {
    struct faults all;
    struct tally *t = read_notes(notes, &all);
    assert_null(t);
    assert_int_equal(all.count, 1);
    const struct fault *f = &all.list[0];
    assert_string_equal(f->id, id);
    assert_string_equal(f->message, message);
    assert_string_equal(f->hint, hint);
    assert_int_equal(f->at.source, 7);
    const char *place = strstr(notes, at);
    assert_non_null(place);
    for (const char *later = place; later; later = strstr(later + 1, at)) place = later;
    assert_int_equal(f->at.at, 1000 + (place - notes));
    assert_int_equal(f->at.length, strlen(at));
}

static void notes_as_typed_in_the_field_are_read(void **state) {
    (void)state;
    struct faults all;
    struct tally *t =
        read_notes("\n  baf 10   -- the small prism\r\n"
                   "  plot 1: bigtooth aspen 7 8 8 9x2 11.5; red oak 14; RM 5\n"
                   "     paper birch .5, 6.   # and so on\n"
                   "  Plot 2:\n"
                   "  plot 12 : none\n"
                   "  radius 24 ft\n"
                   "  plot 3: quaking aspens 60\n"
                   "  size 1/10 acre\n"
                   "  plot 4: red oak 7 red maple 8 9",
                   &all);
    assert_non_null(t);
    assert_int_equal(all.count, 0);
    assert_int_equal(t->plot_count, 5);
    assert_int_equal(t->plots[0].number, 1);
    assert_int_equal(t->plots[0].count, 9);
    assert_int_equal(t->plots[1].count, 0);
    assert_int_equal(t->plots[2].number, 12);
    assert_int_equal(t->plots[2].kind, PLOT_POINT);
    close_to(t->plots[2].size, 10, 0);
    assert_int_equal(t->plots[3].kind, PLOT_FIXED);
    close_to(t->plots[3].size, 3.14159265358979 * 576 / 43560, 1e-12);
    close_to(t->plots[4].size, 0.1, 1e-15);
    assert_int_equal(t->trees[3].count, 2);
    close_to(t->trees[3].diameter_in, 9, 0);
    close_to(t->trees[4].diameter_in, 11.5, 0);
    assert_int_equal(t->trees[5].species, RED_OAK);
    assert_int_equal(t->trees[7].species, PAPER_BIRCH);
    close_to(t->trees[7].diameter_in, 0.5, 0);
    close_to(t->trees[8].diameter_in, 6, 0);
    assert_int_equal(t->trees[12].plot, 4);
    tally_free(t);
}

static void a_metric_radius_is_read_too(void **state) {
    (void)state;
    struct faults all;
    struct tally *t = read_notes("radius 5.64 m\nplot 1: none", &all);
    assert_non_null(t);
    /* 99.93 m2 of 4,046.856 m2 in an acre */
    close_to(t->plots[0].size, 3.14159265358979 * 5.64 * 5.64 / 4046.8564224, 1e-12);
    tally_free(t);
}

static void a_slip_is_told_at_its_very_place(void **state) {
    (void)state;
    refused("baf 10\nplot 1: red oka 14", "species-unknown", "red oka",
            "no species or group is called `red oka`", "did you mean `red oak`?");
    refused("baf 10\nplot 1: aspen 7", "species-group", "aspen",
            "`aspen` is a group, not one species",
            "say which: bigtooth aspen, quaking aspen");
    refused("baf 10\nplot 1 red oak 14", "tally-plot", "plot 1",
            "a colon is missing after plot 1", "plot 1: red oak 14");
    refused("baf 10\nplot 3, in the swale: red oak 14", "tally-plot", "in the swale",
            "`in the swale` between the plot's number and its colon is not read here",
            "plot 3: red oak 14, or plot 3, slope 25%, half: red oak 14");
    refused("baf 10\nplot one: red oak 14", "tally-plot", "one",
            "a plot has a whole number, 1 to 99999", "plot 1: red oak 14");
    refused("baf 10\nplot 1: none\n plto 2: red oak 9", "tally-plot", "plto",
            "`plto` does not start a plot", "did you mean `plot`?");
    refused("baf 10\nplot 1: none\nplot 2: none\nplot 1: red maple 9x2 \n", "tally-twice",
            "plot 1", "plot 1 is there twice", "");
}

static void a_method_is_needed_and_must_make_sense(void **state) {
    (void)state;
    refused("plot 1: red oak 14\nplot 2: red oak 13", "tally-method", "plot 1",
            "how plot 1 was taken is not said",
            "a line above it: baf 10, or radius 24 ft, or size 1/10 ac");
    refused("baf ten\nplot 1: none", "tally-method", "baf ten",
            "`baf ten` does not say how plots were taken", "baf 10");
    refused("radius 24\nplot 1: none", "tally-method", "radius 24",
            "`radius 24` does not say how plots were taken",
            "radius 24 ft, or size 1/10 ac");
    refused("size 1/0 ac\nplot 1: none", "tally-method", "size 1/0 ac",
            "`size 1/0 ac` does not say how plots were taken",
            "radius 24 ft, or size 1/10 ac");
    refused("baf 1000\nplot 1: none", "tally-method", "1000",
            "a basal area factor lies between 1 and 100 ft2/ac", "");
    refused("radius 2000 ft\nplot 1: none", "tally-method", "2000 ft",
            "a plot lies between 1/10000 and 10 acres", "");
}

static void a_diameter_must_make_sense(void **state) {
    (void)state;
    refused("baf 10\nplot 1: red oak 140", "tally-diameter", "140",
            "a diameter of 140 in is outside 0.5 to 60 in",
            "is a blank or a point missing?");
    refused("baf 10\nplot 1: red oak 0.4", "tally-diameter", "0.4",
            "a diameter of 0.4 in is outside 0.5 to 60 in",
            "is a blank or a point missing?");
    refused("baf 10\nplot 1: red oak 14in", "tally-diameter", "14in",
            "`14in` is not a diameter",
            "inches as a bare number: 7, 6.5, or 7x3 for three sevens");
    refused("baf 10\nplot 1: red oak -14", "tally-diameter", "-14",
            "`-14` is not a diameter",
            "inches as a bare number: 7, 6.5, or 7x3 for three sevens");
    refused("baf 10\nplot 1: 14 red oak 9", "tally-species", "14",
            "no species before the diameter 14", "plot 1: red oak 14");
    refused("baf 10\nplot 1: red oak; red maple 9", "tally-diameter", "red oak",
            "no diameters after red oak",
            "leave the species out when there was none of it");
    refused("baf 10\nplot 1: red oak 7x0", "tally-count", "7x0",
            "`7x0`: the number after x is how many trees, 1 to 500", "");
    refused("baf 10\nplot 1: red oak 7x2.5", "tally-count", "7x2.5",
            "`7x2.5`: the number after x is how many trees, 1 to 500", "");
    refused("baf 10\nplot 1: red oak 7; none", "tally-plot", "plot 1",
            "plot 1 says none, but has trees", "");
}

static void a_comma_between_digits_is_not_guessed_at(void **state) {
    (void)state;
    refused("baf 10\nplot 1: red oak 9, 12,5 14", "tally-comma", "12,5",
            "`12,5` may be one diameter or several: the comma stands between digits",
            "write 12.5, or put a blank after the comma");
    refused("baf 10\nplot 1: red oak 12,13,14x2; red maple 7", "tally-comma", "12,13,14x2",
            "`12,13,14x2` may be one diameter or several: the comma stands between digits",
            "put a blank after each comma; parts of an inch have a point");
    struct faults all;
    struct tally *t = read_notes("baf 10\nplot 1: red oak 9, 12 ,5, red maple 7,", &all);
    assert_non_null(t);
    assert_int_equal(t->tree_count, 4);
    tally_free(t);
}

static void notes_without_a_plot_are_refused(void **state) {
    (void)state;
    refused("baf 10\n", "tally-empty", "baf 10\n", "no plot in these cruise notes",
            "baf 10, then a line for each plot: plot 1: red oak 14");
}

static void all_slips_are_told_together_up_to_ten(void **state) {
    (void)state;
    struct faults all;
    assert_null(read_notes("baf 10\n"
                           "plot 1: red oka 14 999; red mapel 7\n"
                           "plot 1: red oak 7y\n",
                           &all));
    assert_int_equal(all.count, 5);
    for (size_t i = 1; i < all.count; i++)
        assert_true(all.list[i - 1].at.at < all.list[i].at.at);
    assert_string_equal(all.list[3].id, "tally-twice");
    assert_int_equal(all.list[3].other.at, 1007);
    char many[4096] = "baf 10\nplot 1:";
    for (size_t i = 0; i < 200; i++) strcat(many, " birch tree 3;");
    assert_null(read_notes(many, &all));
    assert_int_equal(all.count, FAULTS_MOST);
}

static void limits_hold(void **state) {
    (void)state;
    struct faults all;
    size_t size = 400000;
    char *notes = malloc(size);
    assert_non_null(notes);
    strcpy(notes, "baf 10\n");
    char *end = notes + strlen(notes);
    for (int i = 1; i <= TALLY_PLOTS_MOST + 1; i++) end += sprintf(end, "plot %d:\n", i);
    assert_null(read_notes(notes, &all));
    assert_string_equal(all.list[0].message, "more than 1000 plots in one tally");
    end = notes + sprintf(notes, "baf 10\nplot 1: red oak");
    for (int i = 0; i <= TALLY_TREES_MOST; i++) end += sprintf(end, " 7");
    assert_null(read_notes(notes, &all));
    assert_string_equal(all.list[0].message, "more than 20000 diameters in one tally");
    free(notes);
}

static void what_stands_beside_plain_trees_is_read(void **state) {
    (void)state;
    struct faults all;
    struct tally *t = read_notes(
        "\xEF\xBB\xBF" "baf 10\n"
        "saplings on 1/100 ac, below 4 in\n"
        "Regen on radius 3.72 ft\n"
        "plot 1: red oak 14 half 12x2 double; snag red maple 9; RM 7\n"
        "  saplings: red maple 1x3 2, bigtooth aspen 3.5\n"
        "  regeneration: bigtooth aspen 12 under 1 ft, 5 1-3 ft, 2 3 to 5 ft, 1 over 5 ft;\n"
        "    red oak 4\n"
        "  snags: 12 red oak 14; 15 half; none\n"
        "  den trees: red maple 18; trees: red oak 11\n"
        "plot 2: none; snags: none\n"
        "no saplings\nno regeneration\n"
        "plot 3: red oak 3\n",
        &all);
    assert_non_null(t);
    assert_int_equal(t->tree_count, 13); /* the last of plot 3 */
    static const struct {
        double diameter, times;
        enum tree_state state;
        bool sapling;
        uint16_t species, count;
    } want[] = {
        { 14, 0.5, TREE_LIVING, false, RED_OAK, 1 },
        { 12, 2, TREE_LIVING, false, RED_OAK, 2 },
        { 9, 1, TREE_SNAG, false, RED_MAPLE, 1 },
        { 7, 1, TREE_LIVING, false, RED_MAPLE, 1 },
        { 1, 1, TREE_LIVING, true, RED_MAPLE, 3 },
        { 2, 1, TREE_LIVING, true, RED_MAPLE, 1 },
        { 3.5, 1, TREE_LIVING, true, BIGTOOTH, 1 },
        { 12, 1, TREE_SNAG, false, TALLY_NO_SPECIES, 1 },
        { 14, 1, TREE_SNAG, false, RED_OAK, 1 },
        { 15, 0.5, TREE_SNAG, false, RED_OAK, 1 },
        { 18, 1, TREE_DEN, false, RED_MAPLE, 1 },
        { 11, 1, TREE_LIVING, false, RED_OAK, 1 },
    };
    for (size_t i = 0; i < 12; i++) {
        close_to(t->trees[i].diameter_in, want[i].diameter, 0);
        close_to(t->trees[i].times, want[i].times, 0);
        assert_int_equal(t->trees[i].state, want[i].state);
        assert_int_equal(t->trees[i].sapling, want[i].sapling);
        assert_int_equal(t->trees[i].species, want[i].species);
        assert_int_equal(t->trees[i].count, want[i].count);
    }
    static const double stems[][3] = {
        { 12, 0, 1 }, { 5, 1, 3 }, { 2, 3, 5 }, { 1, 5, HUGE_VAL }, { 4, 0, HUGE_VAL }
    };
    assert_int_equal(t->stem_count, 5);
    for (size_t i = 0; i < 5; i++) {
        assert_int_equal(t->stems[i].count, (int)stems[i][0]);
        close_to(t->stems[i].from_ft, stems[i][1], 0);
        assert_true(t->stems[i].below_ft >= stems[i][2] &&
                    t->stems[i].below_ft <= stems[i][2]);
        assert_int_equal(t->stems[i].species, i < 4 ? BIGTOOTH : RED_OAK);
    }
    assert_true(t->plots[0].snags_told && t->plots[0].dens_told);
    assert_true(t->plots[1].snags_told && !t->plots[1].dens_told);
    close_to(t->plots[1].saplings_ac, 0.01, 1e-15);
    close_to(t->plots[1].stems_ac, 0.001, 2e-6);
    close_to(t->plots[2].saplings_ac + t->plots[2].stems_ac, 0, 0);
    tally_free(t);
}

static void slope_and_parts_of_plots_are_read(void **state) {
    (void)state;
    struct faults all;
    struct tally *t = read_notes("baf 10\nslope 30 percent\nplot 1: none\n"
                                 "plot 2, slope 25%, corrected, half: none\n"
                                 "plot 3 quarter: none\nslope 12.5%, corrected\n"
                                 "plot 4: none\nplot 5, slope 0%: none\n",
                                 &all);
    assert_non_null(t);
    static const double slopes[] = { 30, 25, 30, 12.5, 0 };
    static const bool corrected[] = { false, true, false, true, false };
    static const unsigned parts[] = { 0, 2, 4, 0, 0 };
    for (size_t i = 0; i < 5; i++) {
        close_to(t->plots[i].slope, slopes[i], 0);
        assert_int_equal(t->plots[i].corrected, corrected[i]);
        assert_int_equal(t->plots[i].parts, parts[i]);
    }
    tally_free(t);
}

static void stands_have_their_own_plots_and_slope(void **state) {
    (void)state;
    struct faults all;
    struct fault f = { .id = NULL };
    static const char notes[] = "stand Bench aspen\nbaf 10\nslope 20%\n"
                                "plot 1: red oak 12 9\nplot 2: none\n"
                                "stand: \"Oak ridge\"\nplot 1: red maple 7; snags: 9\n";
    struct tally *t = read_notes(notes, &all);
    assert_non_null(t);
    assert_int_equal(t->stand_count, 2);
    assert_string_equal(t->stands[1].name, "Oak ridge");
    assert_int_equal(t->stands[1].at.at, 1000 + (strstr(notes, "Oak") - notes));
    assert_int_equal(t->stands[0].count, 2);
    close_to(t->plots[2].slope, 0, 0);
    struct tally *ridge = tally_of_stand(t, 1, &f);
    assert_non_null(ridge);
    assert_int_equal(ridge->plot_count, 1);
    assert_int_equal(ridge->tree_count, 2);
    assert_int_equal(ridge->trees[0].plot, 0);
    assert_int_equal(ridge->trees[0].species, RED_MAPLE);
    assert_int_equal(ridge->plots[0].first, 0);
    tally_free(ridge);
    tally_free(t);
}

static void slips_of_the_wider_notes_are_told_at_their_place(void **state) {
    (void)state;
    refused("baf 10\nslope 200%\nplot 1: none", "tally-slope", "200%",
            "a slope of 200% is steeper than 150 percent", "");
    refused("baf 10\nplot 1: none\nstand Oak ridge\nplot 2: none", "tally-stand",
            "stand Oak ridge", "plot 1, above this line, is of no stand",
            "start the notes with the name of their stand: stand Bench aspen");
    refused("baf 10\nsaplings on 1/100 ac\nplot 1: red oak 4", "tally-part", "4",
            "trees below 5 in are counted with the saplings here: 4",
            "where saplings end is said with their plots: saplings on 1/100 ac, below 4 in");
    refused("baf 10\nplot 1: red oak 14?", "tally-diameter", "14?", "`14?` is not a diameter",
            "a borderline tree that counts half: 14 half");
    refused("baf 10\nregeneration on 1/1000 ac\nplot 1: regen: red oak 3 1-3 in",
            "tally-height", "3 1-3 in", "`3 1-3 in` is not a count in a height class",
            "12 under 1 ft, 5 1-3 ft, 2 3-5 ft, 1 over 5 ft");
    refused("baf 10\nplot 1: none; den trees: red oak 20", "tally-plot", "plot 1",
            "plot 1 says none, but has trees", "");
    struct faults all;
    struct tally *t = read_notes("baf 10\nplot 1: none; snags: 12", &all);
    assert_non_null(t); /* none lives */
    tally_free(t);
}

static void control_characters_do_not_reach_a_message(void **state) {
    (void)state;
    struct faults all;
    struct species_table *t = woods_table();
    static const char notes[] = "baf 10\nplot 1: red oak \x1b[2J\0x";
    all.count = 0;
    assert_null(tally_read(notes, sizeof notes - 1, (struct span){ 0, 0, 0 }, t, &all));
    for (size_t i = 0; i < all.count; i++)
        for (const char *c = all.list[i].message; *c; c++)
            assert_true((unsigned char)*c >= 0x20);
    species_table_free(t);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(notes_as_typed_in_the_field_are_read),
        cmocka_unit_test(a_metric_radius_is_read_too),
        cmocka_unit_test(a_slip_is_told_at_its_very_place),
        cmocka_unit_test(a_method_is_needed_and_must_make_sense),
        cmocka_unit_test(a_diameter_must_make_sense),
        cmocka_unit_test(a_comma_between_digits_is_not_guessed_at),
        cmocka_unit_test(notes_without_a_plot_are_refused),
        cmocka_unit_test(all_slips_are_told_together_up_to_ten),
        cmocka_unit_test(limits_hold),
        cmocka_unit_test(what_stands_beside_plain_trees_is_read),
        cmocka_unit_test(slope_and_parts_of_plots_are_read),
        cmocka_unit_test(stands_have_their_own_plots_and_slope),
        cmocka_unit_test(slips_of_the_wider_notes_are_told_at_their_place),
        cmocka_unit_test(control_characters_do_not_reach_a_message),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

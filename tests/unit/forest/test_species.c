#include "../unit.h"
#include "woods.h"

static size_t found(const struct species_table *t, const char *word) {
    struct fault f = { .id = NULL };
    size_t index = SPECIES_MOST;
    return species_find(t, word, strlen(word), &index, &f) ? index : SPECIES_MOST;
}

static void
a_species_is_known_by_name_plural_code_alias_and_scientific_name(void **state) {
    (void)state;
    struct species_table *t = woods_table();
    static const char *const words[] = {
        "bigtooth aspen",         "Bigtooth Aspens", "bta",
        "populus  grandidentata", "bigtooth_aspen",  " bigtooth-aspen "
    };
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        assert_int_equal(found(t, words[i]), BIGTOOTH);
    assert_int_equal(found(t, "red oak"), RED_OAK);
    assert_int_equal(found(t, "red oaks"), RED_OAK);
    assert_int_equal(found(t, "paper birches"), PAPER_BIRCH);
    assert_string_equal(species_at(t, PAPER_BIRCH)->plural, "paper birches");
    species_table_free(t);
}

static void an_unknown_name_is_refused_with_the_nearest(void **state) {
    (void)state;
    struct species_table *t = woods_table();
    struct fault f = { .id = NULL };
    size_t index;
    assert_false(species_find(t, "red mapel", 9, &index, &f));
    assert_string_equal(f.id, "species-unknown");
    assert_string_equal(f.message, "no species or group is called `red mapel`");
    assert_string_equal(f.hint, "did you mean `red maple`?");
    fault_clear(&f);
    assert_false(species_find(t, "cactus tree", 11, &index, &f));
    assert_string_equal(f.hint, "add it with: species \"cactus tree\" { ... }");
    fault_clear(&f);
    assert_false(species_find(t, "", 0, &index, &f));
    assert_string_equal(f.id, "species-unknown");
    species_table_free(t);
}

static void a_group_is_several_species_and_not_one(void **state) {
    (void)state;
    struct species_table *t = woods_table();
    struct fault f = { .id = NULL };
    struct species_set set;
    assert_true(species_select(t, "Aspens", 6, &set, &f));
    assert_true(species_set_has(&set, BIGTOOTH));
    assert_true(species_set_has(&set, QUAKING));
    assert_false(species_set_has(&set, RED_OAK));
    size_t index;
    assert_false(species_find(t, "aspen", 5, &index, &f));
    assert_string_equal(f.id, "species-group");
    assert_string_equal(f.hint, "say which: bigtooth aspen, quaking aspen");
    assert_int_equal(found(t, "maple"), RED_MAPLE); /* a group of one is that one */
    species_table_free(t);
}

static void flags_select_as_groups_do(void **state) {
    (void)state;
    struct species_table *t = woods_table();
    struct fault f = { .id = NULL };
    struct species_set set;
    assert_true(species_select(t, "mast", 4, &set, &f));
    for (size_t i = 0; i < WOODS_COUNT; i++)
        assert_int_equal(species_set_has(&set, i), i == RED_OAK || i == PIN_OAK);
    assert_true(species_select(t, "evergreen", 9, &set, &f));
    assert_true(species_set_is_empty(&set));
    assert_true(species_select(t, "all", 3, &set, &f));
    assert_true(species_set_has(&set, HAZEL));
    assert_string_equal(species_group_at(t, RED_OAK, 0), "hardwood");
    assert_string_equal(species_group_at(t, RED_OAK, 1), "oak");
    assert_string_equal(species_group_at(t, RED_OAK, 3), "sprouts");
    assert_null(species_group_at(t, RED_OAK, 6));
    assert_int_equal(species_flag_find("wilts"), SPECIES_WILTS);
    assert_int_equal(species_flag_find("wilt"), 0);
    species_table_free(t);
}

static void a_later_layer_replaces_a_row_and_both_are_remembered(void **state) {
    (void)state;
    struct species_table *t = woods_table();
    struct fault f = { .id = NULL };
    static const char *const groups[] = { "soft woods", NULL };
    struct species_row row = {
        .name = "Paper Birch", .code = "WB", .groups = groups, .layer = "plan.rx:3"
    };
    assert_true(species_add(t, &row, &f));
    assert_int_equal(species_count(t), WOODS_COUNT);
    assert_int_equal(found(t, "WB"), PAPER_BIRCH);
    assert_int_equal(found(t, "PB"), SPECIES_MOST);
    assert_string_equal(species_at(t, PAPER_BIRCH)->layer, "plan.rx:3");
    assert_string_equal(species_at(t, PAPER_BIRCH)->replaced_layer, "stdlib");
    struct species_set set;
    assert_true(species_select(t, "hardwood", 8, &set, &f));
    assert_false(species_set_has(&set, PAPER_BIRCH));
    species_table_free(t);
}

static void a_later_row_keeps_what_it_does_not_say(void **state) {
    (void)state;
    struct species_table *t = woods_table();
    struct fault f = { .id = NULL };
    double first[SPECIES_TRAITS], second[SPECIES_TRAITS], late[SPECIES_TRAITS];
    for (size_t i = 0; i < SPECIES_TRAITS; i++) first[i] = second[i] = late[i] = NAN;
    first[SPECIES_CROWN_START] = 3, first[SPECIES_CROWN_SLOPE] = 1.8;
    second[SPECIES_CROWN_SLOPE] = 2.1;
    late[SPECIES_CROWN_SLOPE] = 9, late[SPECIES_WOOD_GRAVITY] = 0.48;
    struct species before = *species_at(t, PAPER_BIRCH);
    struct species_row row = { .name = "paper birch", .traits = first, .traits_source = "one",
                               .layer = "region" };
    assert_true(species_add(t, &row, &f));
    row = (struct species_row){ .name = "paper birch", .traits = second,
                                .traits_source = "two", .layer = "plan.rx:3" };
    assert_true(species_add(t, &row, &f));
    assert_true(species_fill_traits(t, PAPER_BIRCH, late, "three", &f));
    const struct species *s = species_at(t, PAPER_BIRCH);
    assert_true(s->traits[SPECIES_CROWN_START] >= 3 && s->traits[SPECIES_CROWN_START] <= 3);
    assert_true(s->traits[SPECIES_CROWN_SLOPE] > 2 && s->traits[SPECIES_CROWN_SLOPE] < 2.2);
    assert_true(s->traits[SPECIES_WOOD_GRAVITY] > 0.47);
    assert_string_equal(s->traits_source[SPECIES_CROWN_START], "one");
    assert_string_equal(s->traits_source[SPECIES_CROWN_SLOPE], "two");
    assert_string_equal(s->traits_source[SPECIES_WOOD_GRAVITY], "three");
    assert_true(isnan(s->traits[SPECIES_MAST_0]));
    assert_string_equal(s->code, before.code);
    assert_int_equal(s->flags, before.flags);
    assert_int_equal(found(t, "PB"), PAPER_BIRCH);
    struct species_set set;
    assert_true(species_select(t, "hardwood", 8, &set, &f));
    assert_true(species_set_has(&set, PAPER_BIRCH));
    species_table_free(t);
}

static void a_word_of_another_species_is_refused_and_nothing_changes(void **state) {
    (void)state;
    struct species_table *t = woods_table();
    struct fault f = { .id = NULL };
    static const char *const taken[] = { "new word", "red oak", NULL };
    struct species_row row = { .name = "sessile oak", .aliases = taken };
    assert_false(species_add(t, &row, &f));
    assert_string_equal(f.id, "species-taken");
    assert_string_equal(f.message, "`red oak` already names northern red oak");
    assert_int_equal(species_count(t), WOODS_COUNT);
    assert_int_equal(found(t, "new word"), SPECIES_MOST);
    fault_clear(&f);
    row = (struct species_row){ .name = "red oak" };
    assert_false(species_add(t, &row, &f));
    assert_string_equal(f.hint, "to change that species, use its name, northern red oak");
    fault_clear(&f);
    row = (struct species_row){ .name = "oak" };
    assert_false(species_add(t, &row, &f));
    assert_string_equal(f.message, "`oak` is already the name of a group");
    fault_clear(&f);
    row = (struct species_row){ .name = " - " };
    assert_false(species_add(t, &row, &f));
    assert_string_equal(f.id, "species-name");
    species_table_free(t);
}

static void the_table_says_when_it_is_full(void **state) {
    (void)state;
    struct species_table *t = species_table_new();
    struct fault f = { .id = NULL };
    char name[] = "tree aa";
    for (size_t i = 0; i < SPECIES_MOST; i++) {
        name[5] = (char)('a' + i / 26);
        name[6] = (char)('a' + i % 26);
        assert_true(species_add(t, &(struct species_row){ .name = name }, &f));
    }
    assert_false(species_add(t, &(struct species_row){ .name = "one more" }, &f));
    assert_string_equal(f.id, "species-full");
    species_table_free(t);
}

static void a_group_and_its_plural_are_one_group(void **state) {
    (void)state;
    struct species_table *t = woods_table();
    struct fault f = { .id = NULL };
    static const char *const groups[] = { "den trees", "oaks", NULL };
    static const char *const again[] = { "den tree", NULL };
    struct species_row rows[] = { { .name = "swamp white oak", .groups = groups },
                                  { .name = "silver maple", .groups = again } };
    assert_true(species_add(t, &rows[0], &f) && species_add(t, &rows[1], &f));
    struct species_set set;
    assert_true(species_select(t, "oak", 3, &set, &f));
    assert_true(species_set_has(&set, WOODS_COUNT) && species_set_has(&set, RED_OAK));
    assert_true(species_select(t, "den tree", 8, &set, &f));
    assert_true(species_set_has(&set, WOODS_COUNT + 1));
    species_table_free(t);
}

static void sets_join_and_leave_out(void **state) {
    (void)state;
    struct species_set a = { { 0 } }, b = { { 0 } };
    assert_true(species_set_is_empty(&a));
    species_set_put(&a, 3, true);
    species_set_put(&b, 200, true);
    assert_false(species_set_meets(&a, &b));
    species_set_join(&a, &b);
    assert_true(species_set_has(&a, 3) && species_set_has(&a, 200));
    assert_true(species_set_meets(&a, &b) && species_set_meets(&b, &a));
    species_set_without(&a, &b);
    assert_true(species_set_has(&a, 3) && !species_set_has(&a, 200));
    assert_false(species_set_meets(&a, &b));
    species_set_put(&a, SPECIES_MOST, true);
    assert_false(species_set_has(&a, SPECIES_MOST));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(
            a_species_is_known_by_name_plural_code_alias_and_scientific_name),
        cmocka_unit_test(an_unknown_name_is_refused_with_the_nearest),
        cmocka_unit_test(a_group_is_several_species_and_not_one),
        cmocka_unit_test(flags_select_as_groups_do),
        cmocka_unit_test(a_later_layer_replaces_a_row_and_both_are_remembered),
        cmocka_unit_test(a_later_row_keeps_what_it_does_not_say),
        cmocka_unit_test(a_word_of_another_species_is_refused_and_nothing_changes),
        cmocka_unit_test(the_table_says_when_it_is_full),
        cmocka_unit_test(a_group_and_its_plural_are_one_group),
        cmocka_unit_test(sets_join_and_leave_out),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

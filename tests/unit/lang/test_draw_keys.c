#include "../unit.h"

#include <string.h>

#include "base/source.h"
#include "lang/draw_keys.h"

struct script {
    struct sources *all;
    struct draw_keys *keys;
};

static struct script read(const char *name, const char *text)
{
    struct script s = { sources_new(), NULL };
    assert_non_null(s.all);
    uint32_t id = sources_add(s.all, name, text, strlen(text));
    assert_true(id != 0);
    s.keys = draw_keys_new(s.all, id, name);
    assert_non_null(s.keys);
    return s;
}

static void forget(struct script *s)
{
    draw_keys_free(s->keys);
    sources_free(s->all);
}

static void a_line_put_in_before_changes_no_key(void **state)
{
    (void)state;
    struct script a = read("plan.rx", "job { hours = 2 to 3 h }\n\n  x = 4 to 5 h\n");
    struct script b = read("plan.rx", "y = 4 to 5 ft\njob { hours = 2 to 3 h }\n"
                                      "  x = 4 to 5 h\n");
    assert_true(draw_keys_at(a.keys, 1, 15, 0) == draw_keys_at(b.keys, 2, 15, 0));
    assert_true(draw_keys_at(a.keys, 3, 7, 0) == draw_keys_at(b.keys, 3, 7, 0));
    forget(&a), forget(&b);
}

static void what_is_not_the_same_range_has_another_key(void **state)
{
    (void)state;
    struct script a = read("plan.rx", "x = 2 to 3 h\nx = 2 to 3 h\nz = 2 to 3 h\n");
    struct script b = read("property.rx", "x = 2 to 3 h\n");
    const uint64_t keys[] = {
        draw_keys_at(a.keys, 1, 5, 0), draw_keys_at(a.keys, 1, 5, 1),
        draw_keys_at(a.keys, 1, 0, 0), draw_keys_at(a.keys, 2, 5, 0),
        draw_keys_at(a.keys, 3, 5, 0), draw_keys_at(b.keys, 1, 5, 0),
    };
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        for (size_t k = 0; k < i; k++)
            assert_true(keys[i] != keys[k]);
    forget(&a), forget(&b);
}

static void the_second_of_two_equal_lines_stays_the_second(void **state)
{
    (void)state;
    struct script a = read("plan.rx", "x = 2 to 3 h\nx = 2 to 3 h\n");
    struct script b = read("plan.rx", "x = 2 to 3 h\ny = 1\n\tx = 2 to 3 h\n");
    assert_true(draw_keys_at(a.keys, 2, 5, 0) == draw_keys_at(b.keys, 3, 5, 0));
    forget(&a), forget(&b);
}

static void an_empty_script_has_no_lines_to_know(void **state)
{
    (void)state;
    struct script a = read("plan.rx", "");
    assert_true(draw_keys_at(a.keys, 7, 1, 0) != draw_keys_at(a.keys, 7, 1, 1));
    forget(&a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_line_put_in_before_changes_no_key),
        cmocka_unit_test(what_is_not_the_same_range_has_another_key),
        cmocka_unit_test(the_second_of_two_equal_lines_stays_the_second),
        cmocka_unit_test(an_empty_script_has_no_lines_to_know),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

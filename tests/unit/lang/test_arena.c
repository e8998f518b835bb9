#include "../unit.h"

#include <stdlib.h>
#include <string.h>

#include "lang/arena.h"

static void blocks_are_apart_aligned_and_inside(void **state)
{
    (void)state;
    struct arena a;
    arena_init(&a, 1 << 16);
    assert_non_null(a.start);
    char *blocks[300];
    size_t count = 0;
    for (size_t size = 1; count < 300; size = size % ARENA_LARGEST + 7) {
        if (size > ARENA_LARGEST)
            size = 1;
        char *block = arena_take(&a, size);
        if (!block)
            break;
        assert_true(arena_holds(&a, block));
        assert_true(arena_holds(&a, block + size - 1));
        assert_int_equal((uintptr_t)block % ARENA_STEP, 0);
        memset(block, (int)(count % 251), size);
        blocks[count++] = block;
    }
    assert_true(count > 100);
    for (size_t i = 0; i < count; i++) /* nobody has written over another */
        assert_int_equal((unsigned char)blocks[i][0], i % 251);
    arena_clear(&a);
}

static void what_is_given_back_is_taken_again_for_the_same_step_only(void **state)
{
    (void)state;
    struct arena a;
    arena_init(&a, 4096);
    void *small = arena_take(&a, 20), *other = arena_take(&a, 40);
    arena_give(&a, small, 20);
    assert_true(arena_take(&a, 40) != small);
    assert_ptr_equal(arena_take(&a, 32), small); /* 17 to 32 are one step */
    arena_give(&a, other, 40);
    arena_give(&a, small, 32);
    assert_ptr_equal(arena_take(&a, 17), small);
    assert_ptr_equal(arena_take(&a, 48), other);
    arena_clear(&a);
}

static void it_gives_until_nothing_is_left(void **state)
{
    (void)state;
    struct arena a;
    arena_init(&a, 1000); /* 62 steps of 16 */
    size_t count = 0;
    while (arena_take(&a, 16))
        count++;
    assert_int_equal(count, 62);
    assert_null(arena_take(&a, 1));
    arena_clear(&a);
}

static void large_and_empty_blocks_are_left_to_malloc(void **state)
{
    (void)state;
    struct arena a;
    arena_init(&a, 4096);
    assert_null(arena_take(&a, 0));
    assert_null(arena_take(&a, ARENA_LARGEST + 1));
    assert_non_null(arena_take(&a, ARENA_LARGEST));
    int outside;
    assert_false(arena_holds(&a, &outside));
    assert_false(arena_holds(&a, NULL));
    assert_false(arena_holds(&a, a.end));
    arena_clear(&a);
}

static void one_of_no_size_holds_nothing(void **state)
{
    (void)state;
    struct arena a;
    arena_init(&a, 0);
    int outside;
    assert_null(arena_take(&a, 16));
    assert_false(arena_holds(&a, &outside));
    assert_false(arena_holds(&a, NULL));
    arena_clear(&a);
}

static void a_block_may_change_its_size_within_its_step(void **state)
{
    (void)state;
    assert_true(arena_fits(1, 16));
    assert_true(arena_fits(16, 1));
    assert_false(arena_fits(16, 17));
    assert_true(arena_fits(17, 32));
    assert_false(arena_fits(512, 513));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(blocks_are_apart_aligned_and_inside),
        cmocka_unit_test(what_is_given_back_is_taken_again_for_the_same_step_only),
        cmocka_unit_test(it_gives_until_nothing_is_left),
        cmocka_unit_test(large_and_empty_blocks_are_left_to_malloc),
        cmocka_unit_test(one_of_no_size_holds_nothing),
        cmocka_unit_test(a_block_may_change_its_size_within_its_step),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

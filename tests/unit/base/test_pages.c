#include "../unit.h"

#include <stdlib.h>
#include <string.h>

#include "base/pages.h"

static void blocks_of_every_size_can_be_filled_moved_and_freed(void **state)
{
    (void)state;
    static const size_t sizes[] = {
        1, 1000, 1 << 19, 1 << 20, (1 << 21) - 1, 1 << 21, (1 << 21) + 1, 5 << 20
    };
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        char *block = pages_get(sizes[i]);
        assert_non_null(block);
        memset(block, 7, sizes[i]);
        char *moved = realloc(block, sizes[i] * 2);
        assert_non_null(moved);
        assert_int_equal(moved[0], 7);
        assert_int_equal(moved[sizes[i] - 1], 7);
        free(moved);
    }
}

/* After pages_heap, as the program calls it. */
static void the_heap_goes_on_past_its_large_page(void **state)
{
    (void)state;
    enum { BLOCKS = 1024, BYTES = 5000 }; /* more than two large pages */
    static char *blocks[BLOCKS];
    for (int i = 0; i < BLOCKS; i++) {
        blocks[i] = malloc(BYTES);
        assert_non_null(blocks[i]);
        memset(blocks[i], i % 100, BYTES);
    }
    for (int i = 0; i < BLOCKS; i++) {
        assert_int_equal(blocks[i][0], i % 100);
        assert_int_equal(blocks[i][BYTES - 1], i % 100);
        free(blocks[i]);
    }
}

int main(void)
{
    pages_heap();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(blocks_of_every_size_can_be_filled_moved_and_freed),
        cmocka_unit_test(the_heap_goes_on_past_its_large_page),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

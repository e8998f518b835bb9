/* paper.h: what the tests of the terminal share: a document printed and compared, text
 * and bytes. */
#ifndef SPINNEY_TESTS_PAGE_PAPER_H
#define SPINNEY_TESTS_PAGE_PAPER_H

#include "base/fault.h"
#include "page/terminal.h"

static inline void paper_check(struct doc *d, int columns, bool colour,
                               const char *wanted)
{
    struct terminal_look look = { .columns = columns, .colour = colour };
    struct buf b;
    struct fault f;
    buf_init(&b);
    fault_clear(&f);
    assert_true(terminal_print(d, look, &b, &f));
    assert_false(fault_is_set(&f));
    assert_string_equal(b.data, wanted);
    buf_clear(&b);
}

#endif

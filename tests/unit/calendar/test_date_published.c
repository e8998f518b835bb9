/* Every day of 1900 to 2200 against date(1) of the GNU core utilities, one process: the
 * days go to it in a file, what it prints comes back line by line. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

#include "base/buf.h"
#include "base/fault.h"
#include "calendar/date.h"

static void every_day_agrees_with_date_1(void **state)
{
    (void)state;
    struct date last;
    struct fault f = { 0 };
    assert_true(date_make(2200, 12, 31, &last, &f));

    char path[] = "/tmp/spinney-days-XXXXXX";
    int fd = mkstemp(path);
    assert_true(fd >= 0);
    FILE *days = fdopen(fd, "w");
    assert_non_null(days);
    struct buf b;
    buf_init(&b);
    for (struct date d = { 0 }; d.day <= last.day; d.day++) {
        date_print(d, DATE_DATA, &b);
        buf_putc(&b, '\n');
    }
    assert_int_equal(fwrite(b.data, 1, b.length, days), b.length);
    assert_int_equal(fclose(days), 0);

    /* %s: seconds since 1970, so that the count of days is checked too. */
    char command[160];
    snprintf(command, sizeof command,
             "LC_ALL=C TZ=UTC0 date -u -f %s '+%%F %%G %%V %%u %%b %%-d %%Y %%s'", path);
    FILE *told = popen(command, "r");
    assert_non_null(told);
    struct date epoch;
    assert_true(date_make(1970, 1, 1, &epoch, &f));
    int32_t seen = 0;
    char line[128];
    while (fgets(line, sizeof line, told) != NULL) {
        struct date d = { seen };
        int iso_year, week = date_iso_week(d, &iso_year);
        b.length = 0;
        date_print(d, DATE_DATA, &b);
        buf_printf(&b, " %d %02d %d ", iso_year, week, date_weekday(d));
        date_print(d, DATE_PAPER, &b);
        buf_printf(&b, " %lld\n", (long long)(d.day - epoch.day) * 86400);
        if (strcmp(b.data, line) != 0)
            fail_msg("date(1) says %s, we say %s", line, b.data);
        seen++;
    }
    int status = pclose(told);
    unlink(path);
    buf_clear(&b);
    assert_int_equal(status, 0);
    assert_int_equal(seen, last.day + 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_day_agrees_with_date_1),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

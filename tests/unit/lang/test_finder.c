/* What `use` may read: files of the property's folder, no links, no pipes, nothing huge. */
#include <fcntl.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

#include "base/fault.h"
#include "lang/finder.h"

struct yard {
    char folder[64], plan[160];
    struct finder *find;
};

static void path_in(const struct yard *y, const char *name, char out[160])
{
    snprintf(out, 160, "%s/%s", y->folder, name);
}

static void put(const struct yard *y, const char *name, size_t length)
{
    char path[160];
    path_in(y, name, path);
    FILE *file = fopen(path, "wb");
    if (!file)
        abort();
    for (size_t i = 0; i < length; i++)
        fputc('\n', file);
    if (fclose(file) != 0)
        abort();
}

static int yard_open(void **state)
{
    struct yard *y = calloc(1, sizeof *y);
    struct fault f = { .id = NULL };
    if (!y)
        return -1;
    strcpy(y->folder, "/tmp/spinney-finder-XXXXXX");
    if (!mkdtemp(y->folder))
        return -1;
    path_in(y, "plan.rx", y->plan);
    y->find = finder_new();
    *state = y;
    return y->find && finder_set_property(y->find, y->plan, &f) ? 0 : -1;
}

static int yard_close(void **state)
{
    struct yard *y = *state;
    static const char *const names[] = { "good.rx", "large.rx", "pipe.rx", "link.rx",
                                         "under/good.rx" };
    char path[160];
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        path_in(y, names[i], path);
        unlink(path);
    }
    path_in(y, "linked", path);
    unlink(path);
    path_in(y, "under", path);
    rmdir(path);
    rmdir(y->folder);
    finder_free(y->find);
    free(y);
    return 0;
}

/* Is the name refused so? */
static bool refused(const struct yard *y, const char *name, const char *id,
                    const char *words, const char *hint)
{
    struct found file;
    struct fault f = { .id = NULL };
    bool read = finder_read(y->find, name, &file, &f);
    found_clear(&file);
    if (read || !f.id || strcmp(f.id, id) != 0 || !strstr(f.message, words) ||
        !strstr(f.hint, hint)) {
        print_error("%s: %s, %s, try: %s\n", name, read ? "read" : f.id, f.message,
                    f.hint);
        return false;
    }
    return true;
}

static void a_file_of_the_property_is_read(void **state)
{
    const struct yard *y = *state;
    struct found file;
    struct fault f = { .id = NULL };
    put(y, "good.rx", 3);
    bool read = finder_read(y->find, "good.rx", &file, &f);
    size_t length = file.text.length;
    found_clear(&file);
    assert_true(read);
    assert_int_equal(length, 3);
}

static void a_pipe_is_refused_without_waiting_for_it(void **state)
{
    const struct yard *y = *state;
    char path[160];
    path_in(y, "pipe.rx", path);
    assert_int_equal(mkfifo(path, 0600), 0);
    assert_true(refused(y, "pipe.rx", "file-kind", "not a file of text", ""));
}

static void a_file_of_more_than_a_megabyte_is_refused(void **state)
{
    const struct yard *y = *state;
    put(y, "large.rx", (1 << 20) + 1);
    assert_true(refused(y, "large.rx", "file-size", "larger than a script may be", ""));
}

static void links_are_not_followed_wherever_they_stand(void **state)
{
    const struct yard *y = *state;
    char path[160], under[160];
    path_in(y, "under", under);
    assert_int_equal(mkdir(under, 0700), 0);
    put(y, "under/good.rx", 1);
    path_in(y, "linked", path);
    assert_int_equal(symlink("under", path), 0);
    path_in(y, "link.rx", path);
    assert_int_equal(symlink("/etc/hostname", path), 0);
    assert_true(refused(y, "link.rx", "file-kind", "is a link", ""));
    assert_true(refused(y, "linked/good.rx", "file-kind", "is a link", ""));
}

static void a_slip_gets_the_name_that_is_meant(void **state)
{
    const struct yard *y = *state;
    put(y, "good.rx", 1);
    assert_true(refused(y, "goood.rx", "file-missing", "no script", "\"good.rx\""));
    assert_true(refused(y, "zzzzzz.rx", "file-missing", "no script", "looked for"));
}

static void names_stay_below_the_folder(void **state)
{
    const struct yard *y = *state;
    static const char *const names[] = { "..",   "../x.rx",   "/etc/passwd", "a//b.rx",
                                         "a/..", "a/../b.rx", "a/" };
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        assert_true(refused(y, names[i], "use-name", "leads out", ""));
    assert_true(refused(y, "", "use-name", "no name", ""));
    assert_true(refused(y, "./a.rx", "use-name", "needs none", "\"a.rx\""));
    assert_true(refused(y, "a\\b.rx", "use-name", "separated", ""));
}

/* Data: the same rules, a size of its own, and none need be there. */
static void data_is_found_by_the_same_rules(void **state)
{
    const struct yard *y = *state;
    struct found file;
    struct fault f = { .id = NULL };
    put(y, "good.rx", 7);
    assert_true(finder_read_data(y->find, "good.rx", 7, false, &file, &f));
    assert_int_equal(file.text.length, 7);
    found_clear(&file);
    assert_false(finder_read_data(y->find, "good.rx", 6, true, &file, &f));
    assert_string_equal(f.id, "file-size");
    assert_non_null(strstr(f.message, "larger than a map may be"));
    found_clear(&file);
    fault_clear(&f);
    assert_false(finder_read_data(y->find, "goood.rx", 7, true, &file, &f));
    assert_false(fault_is_set(&f));
    found_clear(&file);
    assert_false(finder_read_data(y->find, "goood.rx", 7, false, &file, &f));
    assert_string_equal(f.id, "file-missing");
    assert_string_equal(f.hint, "did you mean \"good.rx\"?");
    found_clear(&file);
    fault_clear(&f);
    assert_false(finder_read_data(y->find, "../good.rx", 7, true, &file, &f));
    assert_string_equal(f.id, "use-name");
    found_clear(&file);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_file_of_the_property_is_read, yard_open,
                                        yard_close),
        cmocka_unit_test_setup_teardown(a_pipe_is_refused_without_waiting_for_it,
                                        yard_open, yard_close),
        cmocka_unit_test_setup_teardown(a_file_of_more_than_a_megabyte_is_refused,
                                        yard_open, yard_close),
        cmocka_unit_test_setup_teardown(links_are_not_followed_wherever_they_stand,
                                        yard_open, yard_close),
        cmocka_unit_test_setup_teardown(a_slip_gets_the_name_that_is_meant, yard_open,
                                        yard_close),
        cmocka_unit_test_setup_teardown(names_stay_below_the_folder, yard_open,
                                        yard_close),
        cmocka_unit_test_setup_teardown(data_is_found_by_the_same_rules, yard_open,
                                        yard_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

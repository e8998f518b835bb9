/* comma_locale.h: a locale that writes three and a half as "3,5", on any machine.
 *
 *     assert_true(comma_locale_begin());
 *     ...
 *     comma_locale_end();
 *
 * Few machines have such a locale installed, so the numbers' part of one is written to
 * the temporary folder, as the C library of Debian reads it, and put in force. */
#ifndef SPINNEY_TESTS_COMMA_LOCALE_H
#define SPINNEY_TESTS_COMMA_LOCALE_H

#include <locale.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static inline bool comma_locale_begin(void)
{
    /* Mark, count and places of the six fields, then the fields (glibc, LC_NUMERIC). */
    const struct {
        uint32_t mark, count, at[6];
        char point[4], thousands[4], grouping[4];
        uint32_t wide_point, wide_thousands;
        char codeset[8];
    } numbers = {
        0x20031115u ^ LC_NUMERIC, 6, { 32, 36, 40, 44, 48, 52 },
        ",", ".", "\3\3", ',', '.', "UTF-8",
    };
    char folder[] = "/tmp/comma_locale_XXXXXX", path[128];
    if (!mkdtemp(folder))
        return false;
    snprintf(path, sizeof path, "%s/xx_XX.UTF-8", folder);
    mkdir(path, 0755);
    strcat(path, "/LC_NUMERIC");
    FILE *file = fopen(path, "wb");
    bool good = file && fwrite(&numbers, sizeof numbers, 1, file) == 1;
    if (file)
        fclose(file);
    setenv("LOCPATH", folder, 1);
    good = good && setlocale(LC_NUMERIC, "xx_XX.UTF-8") != NULL;
    unsetenv("LOCPATH");
    remove(path);
    *strrchr(path, '/') = '\0';
    rmdir(path);
    rmdir(folder);
    return good && strcmp(localeconv()->decimal_point, ",") == 0;
}

static inline void comma_locale_end(void)
{
    setlocale(LC_NUMERIC, "C");
}

#endif

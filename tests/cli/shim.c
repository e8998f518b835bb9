/* Put before the C library by the tests (LD_PRELOAD): a surrounding in which the same input
 * must still give the same bytes. The locale writes a comma; the time since 1970 is what
 * SHIM_TIME says (Lua seeds its hashes with it); whoever asks for the date, the time zone or
 * a random number ends the program, since no paper may depend on them. */
#define _GNU_SOURCE
#include <locale.h>
#include <stdlib.h>
#include <sys/time.h>
#include <time.h>
#include <unistd.h>

#include "../unit/comma_locale.h"

__attribute__((constructor)) static void begin(void)
{
    if (getenv("SHIM_LOCALE") && !comma_locale_begin())
        _exit(90);
}

static void forbidden(void)
{
    static const char words[] = "shim: the clock, the time zone or chance was asked\n";
    if (write(STDERR_FILENO, words, sizeof words - 1) < 0)
        _exit(92);
    _exit(91);
}

time_t time(time_t *out)
{
    const char *said = getenv("SHIM_TIME");
    time_t now = said ? (time_t)atoll(said) : 0;
    if (out)
        *out = now;
    return now;
}

int gettimeofday(struct timeval *restrict now, void *restrict zone)
{
    (void)now;
    (void)zone;
    forbidden();
    return -1;
}

struct tm *localtime(const time_t *when)
{
    (void)when;
    forbidden();
    return NULL;
}

struct tm *localtime_r(const time_t *restrict when, struct tm *restrict out)
{
    (void)when;
    (void)out;
    forbidden();
    return NULL;
}

struct tm *gmtime(const time_t *when)
{
    (void)when;
    forbidden();
    return NULL;
}

time_t mktime(struct tm *when)
{
    (void)when;
    forbidden();
    return 0;
}

int rand(void)
{
    forbidden();
    return 0;
}

long random(void)
{
    forbidden();
    return 0;
}

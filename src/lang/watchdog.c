#include "lang/watchdog.h"

#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>

static const char script[] =
    "spinney: stopped: the script has used up its time on the processor\n"
    "    try: look for a loop that never ends, or for tables that call themselves\n";

/* The words are made in the one that is not said. */
static char texts[2][600];
static volatile sig_atomic_t said;
static volatile sig_atomic_t status_then;

static void out_of_time(int number)
{
    (void)number;
    const char *words = texts[said];
    if (write(STDERR_FILENO, words, strlen(words)) < 0)
        _exit(status_then);
    _exit(status_then);
}

bool watchdog_start(unsigned seconds, int status)
{
    struct rlimit limit;
    status_then = status;
    watchdog_suspect(NULL, NULL);
    if (signal(SIGXCPU, out_of_time) == SIG_ERR || getrlimit(RLIMIT_CPU, &limit) != 0)
        return false;
    if (limit.rlim_cur == RLIM_INFINITY || limit.rlim_cur > seconds)
        limit.rlim_cur = seconds;
    return setrlimit(RLIMIT_CPU, &limit) == 0;
}

void watchdog_suspect(const char *what, const char *mend)
{
    char *text = texts[!said];
    if (what)
        snprintf(text, sizeof texts[0], "spinney: stopped: %.300s\n    try: %.200s\n",
                 what, mend);
    else
        memcpy(text, script, sizeof script);
    said = !said;
}

/* watchdog.h: the last line of defence, whatever hangs: the limits of scripts end sooner,
 * but they are looked at between two instructions of Lua, and one call can take for ever.
 *
 *     watchdog_start(90, EXIT_SCRIPT);       // seconds of processor time
 *     watchdog_suspect("reading the map `farm.gpkg` takes too long", "save it again");
 *
 * A signal comes without an owner, so what it would say is the one thing that belongs to
 * the process; written when something is begun that may hang, never in the signal. */
#ifndef SPINNEY_LANG_WATCHDOG_H
#define SPINNEY_LANG_WATCHDOG_H

#include <stdbool.h>

/* False when the machine does not allow it. */
bool watchdog_start(unsigned seconds, int status);
/* What is wrong and the mend when the time is up, until the next; NULL: a script's loop.
 * Both are cut to what fits. */
void watchdog_suspect(const char *what, const char *mend);

#endif

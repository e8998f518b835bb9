/* host.h: one run of Spinney: the Lua state and everything a script builds.
 *
 *     struct host *host = host_new(&settings, f);
 *     if (host && host_run(host, "plan.rx", HOST_WRITES)) ok = host_report(host, "plan", &out);
 *     host_problems(host, true, &problems);
 *     host_free(host);
 *
 * There is no other state: nothing global, no clock, no environment. The host is reached
 * from a Lua function by host_of. It owns all that it points at. Faults of scripts are
 * kept in `faults` and told by host_problems; a false answer means that there are
 * some. */
#ifndef SPINNEY_LANG_HOST_H
#define SPINNEY_LANG_HOST_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/fault.h"
#include "base/source.h"

struct buf;
struct finder;
struct graph;
struct limits;
struct loads;
struct lua_State;
struct plan;
struct script;
struct settings;
struct species_table;
struct units;

struct host {
    struct lua_State *L;
    struct sources *sources;
    struct units *units;
    struct graph *graph;
    struct plan *plan;
    struct species_table *species;
    struct limits *limits;
    struct finder *finder;
    struct loads *loads;     /* scripts read so far, with their layers (load.h) */
    const struct settings *settings;
    struct faults faults;    /* errors of this stage */
    struct faults warnings;
    struct buf *printed;     /* what scripts print */
    uint32_t main_source;    /* the plan's own text, 0 before it is read */
    bool settled;            /* the script has ended: quantities of acts may be read */
    bool trace;              /* show Lua's own traceback beside a fault */
};

struct host *host_of(struct lua_State *L);

/* Keeps a fault that was caught. A value that is not there, once other faults are told,
 * is most likely what they left behind, and is not told too. */
void host_told(struct host *host, const struct fault *f);

/* Opens the sandbox, the built-in vocabulary and the packs. `settings` is borrowed until
 * host_free. NULL with the fault when there is no such pack or no memory; what is wrong
 * in a pack's scripts is among the host's faults, and nothing runs then. */
struct host *host_new(const struct settings *settings, struct fault *f);
void host_free(struct host *host);
/* What a plan is run for. Papers are drawn for while it is settled. */
enum host_aim { HOST_WRITES, HOST_ASKS, HOST_CHECKS };
/* Evaluates a plan and settles it: quantities, limits, schedule, findings. A script that
 * describes no property is no plan: refused, unless the aim is to check it (a
 * prescription, a file of rates) and it holds nothing that would need one. */
bool host_run(struct host *host, const char *path, enum host_aim aim);
/* Appends a paper ("plan", "json") of the settled plan. */
bool host_report(struct host *host, const char *paper, struct buf *out);
/* Appends the text of a file of the settled plan; without a name the names of all, a line
 * each: the name, a tab and what it says, nothing behind the tab when this plan has no
 * such file (lang/papers.h). */
bool host_file(struct host *host, const char *name, struct buf *out);
/* Appends the explanation of a quantity; with a kind ("rule", "season", "condition",
 * "notice", "rate", "price") of a layered name: which layer's word holds. */
bool host_why(struct host *host, const char *name, const char *kind, struct buf *out);
/* Appends help on a word, or the overview when it is NULL. */
bool host_help(struct host *host, const char *word, struct buf *out);
/* Appends what is in a map's file, and what to write of it into a script; where a feature
 * of it is broken, all the rest is still told. Without a plan. */
bool host_map(struct host *host, const char *path, struct buf *out);
/* Does the settled plan hold a stop? */
bool host_has_stop(const struct host *host);
/* Appends what scripts printed, what was wrong and what was warned of, in order of the
 * sources; with `findings` also the plan's findings, a line each. Meant for standard
 * error: a paper stays a paper whatever a script prints. */
void host_problems(const struct host *host, bool findings, struct buf *out);

#endif

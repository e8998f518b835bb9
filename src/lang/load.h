/* load.h: scripts into the state: found, read for literals, compiled, run once, each with
 * the layer it belongs to.
 *
 *     if (!load_use(host, "property.rx", from, f)) ...
 *     const struct layer *layer = load_layer(host, source);
 *
 * A script already run is not run again; one that is still running is a circle and told
 * as the chain of names. */
#ifndef SPINNEY_LANG_LOAD_H
#define SPINNEY_LANG_LOAD_H

#include <stdbool.h>
#include <stdint.h>

#include "base/source.h"
#include "lang/finder.h"

struct fault;
struct host;
struct loads;
struct lua_State;
struct script;

struct layer {
    enum layer_kind kind;
    int order;       /* among packs, and among files of one kind */
    char words[160]; /* "built-in", "region lake-states", "pack our-county", "plan" */
};

struct loads *loads_new(void);
void loads_free(struct loads *all);

/* Reads the text of a source for literals and runs it in the scripts' environment. Faults
 * of the text go to host->faults; what it raises goes to *f. */
bool load_source(struct host *host, uint32_t source, const char *key,
                 const struct layer *layer, struct fault *f);
/* `use`: finds the name, runs it when it is new. `from` is where it was asked for. */
bool load_use(struct host *host, const char *name, struct span from, struct fault *f);
/* A script that is built in, under a layer that is told, then the packs' files of the
 * same name over it; false without a fault when there is none. */
bool load_named(struct host *host, const char *name, enum layer_kind kind, const char *words,
                struct fault *f);
/* A script of one pack; false without a fault when the pack has no such file. */
bool load_from_pack(struct host *host, size_t pack, const char *name, struct fault *f);
/* The layer of a source; the built-in one for unknown sources. */
const struct layer *load_layer(const struct host *host, uint32_t source);
/* By what the range at `at` is drawn: a literal, or a call of range() on that line. */
bool load_draw_key(struct host *host, struct span at, bool literal, uint32_t occurrence,
                   uint64_t *key, struct fault *f);
/* What the literal pass learned of a source; NULL when it has not been read. */
struct script *load_script(const struct host *host, uint32_t source);
/* Pushes the environment that the plan and the files of its property share. */
void load_env(struct lua_State *L);
/* How many scripts have been run: their order. */
int load_count(const struct host *host);

#endif

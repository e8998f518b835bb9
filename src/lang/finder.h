/* finder.h: which file a script means by a name, and which layer that file belongs to.
 * Reading stays inside the property's folder, the packs and what is built in.
 *
 *     struct finder *find = finder_new();
 *     finder_set_property(find, "farm/plan.rx", f);
 *     finder_add_pack(find, "our-county", f);
 *     struct found file;
 *     if (finder_read(find, "property.rx", &file, f)) ... file.text, file.layer
 *     found_clear(&file);
 *
 * A name is a relative path with `/`; it may not climb out (`..`), and no link below the
 * folder is followed, so that a name cannot lead elsewhere. Order: the property's folder,
 * the packs from last to first, what is built in. Two names for one file give one key. */
#ifndef SPINNEY_LANG_FINDER_H
#define SPINNEY_LANG_FINDER_H

#include <stdbool.h>
#include <stddef.h>

#include "base/buf.h"

struct fault;
struct finder;

enum layer_kind {
    LAYER_BUILT_IN, LAYER_REGION, LAYER_STATE, LAYER_PACK, LAYER_PROPERTY, LAYER_PLAN
};

enum { FOUND_NAME = 320 };

struct found {
    struct buf text;
    char name[FOUND_NAME]; /* as messages show it: "property.rx", "our-county/rates.rx" */
    size_t folder;         /* so much of it is the property's folder, as it was typed */
    enum layer_kind layer; /* LAYER_PROPERTY, LAYER_PACK or LAYER_BUILT_IN */
    int order;             /* packs: which one, 1 the first */
};

struct finder *finder_new(void);
void finder_free(struct finder *find);
/* The folder of the plan becomes the property's. */
bool finder_set_property(struct finder *find, const char *plan_path, struct fault *f);
/* Faults: file-missing, file-kind. */
bool finder_add_pack(struct finder *find, const char *folder, struct fault *f);
size_t finder_packs(const struct finder *find);
/* The name of a pack as messages say it: its folder's last part. */
const char *finder_pack_name(const struct finder *find, size_t index);
/* Faults: use-name (climbs out, absolute, empty), file-missing, file-kind, file-size. */
bool finder_read(const struct finder *find, const char *name, struct found *out,
                 struct fault *f);
/* The same in one pack only; false without a fault when the pack has no such file. */
bool finder_read_pack(const struct finder *find, size_t pack, const char *name,
                      struct found *out, struct fault *f);
/* The same for a file of data (a map) of at most so many bytes, found in the property's
 * folder or in a pack by the same rules; its size is asked before it is read. `optional`:
 * false without a fault when there is none. Further fault: file-size. */
bool finder_read_data(const struct finder *find, const char *name, size_t most,
                      bool optional, struct found *out, struct fault *f);
void found_clear(struct found *file);
/* Names of `folder`'s scripts in the packs and built in, of prescriptions in the property
 * too, without folder and ".rx", sorted, each once, a line each. */
bool finder_list(const struct finder *find, const char *folder, struct buf *out);

#endif

/* command.h: the command line as it was typed: its words, and its options read and checked.
 *
 *     struct command c = { .settings = settings_plain(), .words = room_for_all };
 *     if (command_read(count, words, &c, f) && command_fits(&c, VERB_RUN, f))
 *         ... c.words[1], c.into
 *
 * Texts are borrowed. Fault: line. */
#ifndef SPINNEY_LANG_COMMAND_H
#define SPINNEY_LANG_COMMAND_H

#include <stdbool.h>
#include <stddef.h>

#include "lang/settings.h"

struct fault;

enum verb {
    VERB_RUN = 1, VERB_CHECK = 2, VERB_WHY = 4, VERB_HELP = 8, VERB_LIMIT = 16,
    VERB_MAP = 32
};

struct command {
    struct settings settings;
    bool json;
    const char *into;   /* the folder to write to, NULL: print */
    const char **words; /* the caller's: the verb and what follows, without options */
    size_t count;
    unsigned given;     /* the options, a bit each */
};

/* SPINNEY_PATH: folders with colons between, before those of --pack; read first. The text
 * is cut in place and lives as long as the run. False when there are too many. */
bool command_path(struct settings *s, char *path);
/* Options may stand anywhere before `--`. */
bool command_read(int count, char **words, struct command *c, struct fault *f);
/* An option that would do nothing is refused. */
bool command_fits(const struct command *c, enum verb verb, struct fault *f);

#endif

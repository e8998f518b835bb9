#include "lang/command.h"

#include <string.h>

#include "base/fault.h"
#include "base/num.h"
#include "base/suggest.h"

enum { WITH_LUA = VERB_RUN | VERB_CHECK | VERB_WHY | VERB_HELP | VERB_MAP };
enum option { JSON, INTO, SET, PACK, IDS, TRACE, STEPS, MEMORY, OPTIONS };
static const struct {
    const char *name, *value; /* what the value is called; NULL for none */
    unsigned verbs;
} options[OPTIONS] = {
    [JSON] = { "--json", NULL, VERB_RUN },
    [INTO] = { "-o", "DIR", VERB_RUN },
    [SET] = { "--set", "NAME=VALUE", VERB_RUN | VERB_CHECK | VERB_WHY },
    [PACK] = { "--pack", "DIR", VERB_RUN | VERB_CHECK | VERB_WHY | VERB_HELP },
    [IDS] = { "--ids", NULL, WITH_LUA },
    [TRACE] = { "--trace", NULL, WITH_LUA },
    [STEPS] = { "--steps", "N", WITH_LUA },
    [MEMORY] = { "--memory", "N", WITH_LUA },
};

bool command_path(struct settings *s, char *path)
{
    for (char *part = path; part && *part;) {
        char *colon = strchr(part, ':');
        if (colon)
            *colon = '\0';
        if (*part) {
            if (s->pack_count == SETTINGS_PACKS)
                return false;
            s->packs[s->pack_count++] = part;
        }
        part = colon ? colon + 1 : NULL;
    }
    return true;
}

static bool no_option(const char *word, struct fault *f)
{
    struct suggest near = suggest_for(word, strlen(word));
    for (int i = 0; i < OPTIONS; i++)
        suggest_offer(&near, options[i].name);
    suggest_offer(&near, "--version");
    suggest_offer(&near, "--help");
    fault_set(f, "line", SPAN_NONE, "there is no option `%s`", word);
    if (near.best)
        fault_hint(f, "did you mean `%s`?", near.best);
    return false;
}

static bool number(enum option option, const char *text, double *out, struct fault *f)
{
    size_t length = strlen(text);
    if (length > 0 && num_read(text, length, out) == length && *out > 0)
        return true;
    return fault_set(f, "line", SPAN_NONE, "%s wants a number above zero, not `%s`",
                     options[option].name, text);
}

static bool too_many(enum option option, size_t most, struct fault *f)
{
    return fault_set(f, "line", SPAN_NONE, "%s is given more than %zu times",
                     options[option].name, most);
}

static bool take(struct command *c, enum option option, const char *value,
                 struct fault *f)
{
    struct settings *s = &c->settings;
    c->given |= 1u << option;
    switch (option) {
    case TRACE: s->trace = true; break;
    case IDS: s->ids = true; break;
    case STEPS: return number(option, value, &s->steps, f);
    case MEMORY: return number(option, value, &s->memory, f);
    case PACK:
        if (s->pack_count == SETTINGS_PACKS)
            return too_many(option, SETTINGS_PACKS, f);
        s->packs[s->pack_count++] = value;
        break;
    case INTO:
        if (c->into)
            return fault_set(f, "line", SPAN_NONE, "-o is given twice");
        if (value[0] == '\0' || value[0] == '-')
            return fault_set(f, "line", SPAN_NONE, "-o wants a folder, not `%s`", value);
        c->into = value;
        break;
    case SET:
        if (value[strspn(value, " \t")] == '=' || !strchr(value, '='))
            return fault_set(f, "line", SPAN_NONE, "--set wants NAME=VALUE, not `%s`",
                             value);
        if (s->input_count == SETTINGS_INPUTS)
            return too_many(option, SETTINGS_INPUTS, f);
        s->inputs[s->input_count++] = value;
        break;
    case JSON: c->json = true; break;
    case OPTIONS: break;
    }
    return true;
}

bool command_read(int count, char **words, struct command *c, struct fault *f)
{
    bool ended = false;
    for (int i = 1; i < count; i++) {
        const char *word = words[i];
        bool alone = c->count == 0 &&
                     (strcmp(word, "--version") == 0 || strcmp(word, "--help") == 0);
        if (!ended && strcmp(word, "--") == 0) {
            ended = true;
            continue;
        }
        if (ended || alone || word[0] != '-' || word[1] == '\0') {
            c->words[c->count++] = word;
            continue;
        }
        int option = 0;
        while (option < OPTIONS && strcmp(word, options[option].name) != 0)
            option++;
        if (option == OPTIONS)
            return no_option(word, f);
        const char *value = NULL;
        if (options[option].value && i + 1 == count)
            return fault_set(f, "line", SPAN_NONE, "%s wants a value: %s %s", word, word,
                             options[option].value);
        if (options[option].value)
            value = words[++i];
        if (!take(c, (enum option)option, value, f))
            return false;
    }
    return true;
}

bool command_fits(const struct command *c, enum verb verb, struct fault *f)
{
    for (int i = 0; i < OPTIONS; i++)
        if ((c->given & 1u << i) && !(options[i].verbs & verb))
            return fault_set(f, "line", SPAN_NONE, "`spinney %s` takes no %s",
                             c->words[0], options[i].name);
    if (c->json && c->into) {
        fault_set(f, "line", SPAN_NONE, "--json prints the data, -o writes it to a file");
        fault_hint(f, "-o alone: plan.json is among its files");
        return false;
    }
    return true;
}

/* The words that name species and groups. */
#include "forest/species_inner.h"

#include <stdlib.h>
#include <string.h>

#include "base/fault.h"

bool species_fold(const char *word, size_t length, char out[WORD_LONGEST + 1])
{
    size_t n = 0;
    bool gap = false;
    for (size_t i = 0; i < length; i++) {
        char c = word[i];
        if (c == ' ' || c == '\t' || c == '-' || c == '_') {
            gap = n > 0;
            continue;
        }
        if (c == '\0')
            return false;
        if (n + (gap ? 2u : 1u) > WORD_LONGEST)
            return false;
        if (gap)
            out[n++] = ' ';
        gap = false;
        out[n++] = c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
    }
    out[n] = '\0';
    return n > 0;
}

static uint32_t hash(const char *s)
{
    uint32_t h = 2166136261u; /* FNV-1a */
    for (; *s; s++)
        h = (h ^ (unsigned char)*s) * 16777619u;
    return h;
}

/* The slot that holds the word, or the free one where it would go. There is
 * always one: the index is kept half full. */
static size_t slot_of(const struct species_table *t, const char *folded)
{
    size_t i = hash(folded) % WORDS_MOST;
    while (t->words[i].kind != WORD_FREE && strcmp(t->words[i].folded, folded) != 0)
        i = (i + 1) % WORDS_MOST;
    return i;
}

const struct word *species_word(const struct species_table *t, const char *folded)
{
    const struct word *w = &t->words[slot_of(t, folded)];
    return w->kind == WORD_SPECIES || w->kind == WORD_GROUP ? w : NULL;
}

bool species_word_put(struct species_table *t, const char *shown, enum word_kind kind,
                      size_t index, bool only_ask, struct fault *f)
{
    char folded[WORD_LONGEST + 1];
    if (!species_fold(shown, strlen(shown), folded))
        return fault_set(
            f, "species-name", SPAN_NONE,
            "`%.70s` is not a name for a species or a group: 1 to %d letters", shown,
            WORD_LONGEST);
    size_t at = slot_of(t, folded);
    struct word *w = &t->words[at];
    if (w->kind == WORD_FREE) {
        if (t->word_count >= WORDS_MOST / 2)
            return fault_set(f, "species-full", SPAN_NONE,
                             "the table of species is full: more than %d names",
                             WORDS_MOST / 2);
        if (only_ask)
            return true;
        const char *own = species_keep(t, folded), *text = species_keep(t, shown);
        if (!own || !text)
            return fault_no_memory(f);
        *w = (struct word){ own, text, kind, index };
        t->word_count++;
        return true;
    }
    if (w->kind == WORD_DROPPED) {
        if (only_ask)
            return true;
        w->kind = kind;
        w->index = index;
        return true;
    }
    if (w->kind == WORD_GROUP && kind == WORD_GROUP)
        return true; /* the first keeps it */
    /* A species' own word may also be a group's ("hemlock" the tree, in group "hemlock"):
     * then the species keeps it, as it says more. */
    if (w->kind == WORD_SPECIES && kind == WORD_GROUP)
        return true;
    if (w->kind == WORD_GROUP && kind == WORD_SPECIES) {
        fault_set(f, "species-taken", SPAN_NONE, "`%s` is already the name of a group",
                  shown);
        fault_hint(f, "give the species a fuller name");
        return false;
    }
    if (w->index == index)
        return true;
    fault_set(f, "species-taken", SPAN_NONE, "`%s` already names %s", shown,
              t->rows[w->index].name);
    fault_hint(f, "use another code or alias, or change %s itself",
               t->rows[w->index].name);
    return false;
}

bool species_plural(const char *name, char out[WORD_LONGEST + 3])
{
    size_t n = strlen(name);
    if (n < 2 || n > WORD_LONGEST)
        return false;
    char before = name[n - 2], last = name[n - 1];
    bool hissing =
        last == 's' || last == 'x' || (last == 'h' && (before == 'c' || before == 's'));
    bool ies = last == 'y' && !strchr("aeiou", before);
    memcpy(out, name, n);
    strcpy(ies ? out + n - 1 : out + n, ies ? "ies" : hissing ? "es" : "s");
    return true;
}

bool species_group_words(struct species_table *t, size_t g, struct fault *f)
{
    const char *name = t->groups[g].name;
    char plural[WORD_LONGEST + 3];
    bool has_plural = name[strlen(name) - 1] != 's' && species_plural(name, plural);
    return species_word_put(t, name, WORD_GROUP, g, false, f) &&
           (!has_plural || species_word_put(t, plural, WORD_GROUP, g, false, f));
}

/* The group of that word, by its name or its plural; group_count when there is none. */
static size_t group_find(const struct species_table *t, const char *folded)
{
    const struct word *w = species_word(t, folded);
    if (!w)
        return t->group_count;
    if (w->kind == WORD_GROUP)
        return w->index;
    char own[WORD_LONGEST + 1]; /* a species keeps the word for itself: by name, then */
    size_t g = 0;
    while (g < t->group_count &&
           !(species_fold(t->groups[g].name, strlen(t->groups[g].name), own) &&
             strcmp(own, folded) == 0))
        g++;
    return g;
}

bool species_group_join(struct species_table *t, const char *name, size_t index,
                        bool only_ask, struct fault *f)
{
    char folded[WORD_LONGEST + 1], plural[WORD_LONGEST + 3];
    if (!species_fold(name, strlen(name), folded) || !species_plural(name, plural))
        return fault_set(f, "species-name", SPAN_NONE,
                         "`%.70s` is not a name for a group", name);
    size_t g = group_find(t, folded);
    if (g == t->group_count) {
        if (g == GROUPS_MOST)
            return fault_set(f, "species-full", SPAN_NONE,
                             "more than %d groups of species", GROUPS_MOST);
        if (only_ask)
            return true;
        t->groups[g].name = species_keep(t, name);
        if (!t->groups[g].name)
            return fault_no_memory(f);
        t->groups[g].members = (struct species_set){ { 0 } };
        t->group_count++;
    }
    if (only_ask)
        return true;
    species_set_put(&t->groups[g].members, index, true);
    return species_group_words(t, g, f);
}

/* Questions of the table: what a word means, what was meant. */
#include "forest/species_inner.h"

#include <stdio.h>
#include <string.h>

#include "base/fault.h"
#include "base/suggest.h"

void species_offer(const struct species_table *t, struct suggest *s)
{
    for (size_t i = 0; i < WORDS_MOST; i++) {
        const struct word *w = &t->words[i];
        bool empty =
            w->kind == WORD_GROUP && species_set_is_empty(&t->groups[w->index].members);
        if (!empty && (w->kind == WORD_SPECIES || w->kind == WORD_GROUP))
            suggest_offer(s, w->shown);
    }
}

static bool unknown(const struct species_table *t, const char *word, size_t length,
                    struct fault *f)
{
    char shown[WORD_LONGEST + 1];
    size_t n = length > WORD_LONGEST ? WORD_LONGEST : length;
    while (n < length && n > 0 && ((unsigned char)word[n] & 0xC0) == 0x80)
        n--;
    for (size_t i = 0; i < n; i++) {
        unsigned char c = (unsigned char)word[i];
        shown[i] = c < 0x20 || c == 0x7F ? '?' : word[i];
    }
    shown[n] = '\0';
    fault_set(f, "species-unknown", SPAN_NONE, "no species or group is called `%s`",
              shown);
    struct suggest s = suggest_for(word, length);
    species_offer(t, &s);
    if (s.best)
        fault_hint(f, "did you mean `%s`?", s.best);
    else
        fault_hint(f, "add it with: species \"%s\" { ... }", shown);
    return false;
}

static bool names_several(const struct species_table *t, const struct group *g,
                          struct fault *f)
{
    char list[200] = "";
    size_t used = 0, left = 0;
    for (size_t i = 0; i < t->count; i++) {
        if (!species_set_has(&g->members, i))
            continue;
        const char *name = t->rows[i].name;
        size_t need = strlen(name) + 2;
        if (used + need + 16 > sizeof list) {
            left++;
            continue;
        }
        used += (size_t)snprintf(list + used, sizeof list - used, "%s%s",
                                 used ? ", " : "", name);
    }
    if (left)
        snprintf(list + used, sizeof list - used, " and %zu more", left);
    fault_set(f, "species-group", SPAN_NONE, "`%s` is a group, not one species", g->name);
    fault_hint(f, "say which: %s", list);
    return false;
}

bool species_find(const struct species_table *t, const char *word, size_t length,
                  size_t *out, struct fault *f)
{
    char folded[WORD_LONGEST + 1];
    const struct word *w =
        species_fold(word, length, folded) ? species_word(t, folded) : NULL;
    if (!w)
        return unknown(t, word, length, f);
    if (w->kind == WORD_SPECIES) {
        *out = w->index;
        return true;
    }
    const struct group *g = &t->groups[w->index];
    size_t members = 0;
    for (size_t i = 0; i < t->count; i++) {
        if (!species_set_has(&g->members, i))
            continue;
        *out = i;
        members++;
    }
    if (members == 1)
        return true;
    return members == 0 ? unknown(t, word, length, f) : names_several(t, g, f);
}

bool species_select(const struct species_table *t, const char *word, size_t length,
                    struct species_set *out, struct fault *f)
{
    char folded[WORD_LONGEST + 1];
    if (!species_fold(word, length, folded))
        return unknown(t, word, length, f);
    const struct word *w = species_word(t, folded);
    if (!w && (strcmp(folded, "all") == 0 || strcmp(folded, "all species") == 0)) {
        *out = species_set_all();
        return true;
    }
    if (!w)
        return unknown(t, word, length, f);
    *out = (struct species_set){ { 0 } };
    if (w->kind == WORD_SPECIES)
        species_set_put(out, w->index, true);
    else
        *out = t->groups[w->index].members;
    return true;
}

#include "forest/species_inner.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"

/* The words of the flags, in order of their numbers: groups by themselves. */
const char *const species_flag_words[FLAG_COUNT] = { "suckers", "sprouts",   "wilts",
                                                     "mast",    "evergreen", "shrub",
                                                     "invasive" };

static const char *const trait_words[SPECIES_TRAITS] = {
    [SPECIES_WOOD_GRAVITY] = "wood_gravity",
    [SPECIES_CROWN_START] = "crown_start",
    [SPECIES_CROWN_SLOPE] = "crown_slope",
    [SPECIES_INSIDE_BARK] = "inside_bark",
    [SPECIES_SHADE_TOLERANCE] = "shade_tolerance",
    [SPECIES_BROWSE_RANK] = "browse_rank",
    [SPECIES_SPROUT_FROM] = "sprout_from",
    [SPECIES_SPROUT_SHARE_FROM] = "sprout_share_from",
    [SPECIES_SPROUT_TO] = "sprout_to",
    [SPECIES_SPROUT_SHARE_TO] = "sprout_share_to",
    [SPECIES_MAST_0] = "mast_0",
    [SPECIES_MAST_1] = "mast_1",
    [SPECIES_MAST_2] = "mast_2",
    [SPECIES_MAST_3] = "mast_3",
    [SPECIES_MAST_4] = "mast_4",
    [SPECIES_MAST_FROM] = "mast_from",
    [SPECIES_MAST_TO] = "mast_to",
    [SPECIES_BIOMASS_0] = "biomass_0",
    [SPECIES_BIOMASS_1] = "biomass_1",
};

void species_table_free(struct species_table *t)
{
    if (!t)
        return;
    while (t->pieces) {
        struct piece *next = t->pieces->next;
        free(t->pieces);
        t->pieces = next;
    }
    free(t);
}

const char *species_keep(struct species_table *t, const char *text)
{
    if (!text)
        return "";
    size_t size = strlen(text) + 1;
    struct piece *p = malloc(sizeof *p + size);
    if (!p)
        return NULL;
    memcpy(p->text, text, size);
    p->next = t->pieces;
    t->pieces = p;
    return p->text;
}

/* Is the word the row's own code, plural or scientific name, which a new row tells anew? */
static bool is_own_word(const struct species *s, const char *folded)
{
    const char *const own[] = { s->plural, s->scientific, s->code };
    char other[WORD_LONGEST + 1];
    for (size_t i = 0; i < sizeof own / sizeof own[0]; i++)
        if (species_fold(own[i], strlen(own[i]), other) && strcmp(other, folded) == 0)
            return true;
    return false;
}

/* Forgets the words and groups of a row that a later layer says anew; aliases, groups and
 * flags only where the new row has its own. */
static void row_drop(struct species_table *t, size_t index, const struct species_row *by)
{
    bool aliases = by->aliases && by->aliases[0], groups = by->groups && by->groups[0];
    for (size_t i = 0; i < WORDS_MOST; i++) {
        struct word *w = &t->words[i];
        if (w->kind == WORD_SPECIES && w->index == index &&
            (aliases || is_own_word(&t->rows[index], w->folded)))
            w->kind = WORD_DROPPED;
    }
    for (size_t g = 0; g < t->group_count; g++)
        if (g < FLAG_COUNT || groups)
            species_set_put(&t->groups[g].members, index, false);
}

static bool words_put(struct species_table *t, const struct species_row *row,
                      size_t index, const struct species *s, bool only_ask,
                      struct fault *f)
{
    char plural[WORD_LONGEST + 3];
    const char *const own[] = { row->name, s->plural, s->scientific, s->code };
    for (size_t i = 0; i < sizeof own / sizeof own[0]; i++)
        if (own[i][0] && !species_word_put(t, own[i], WORD_SPECIES, index, only_ask, f))
            return false;
    for (const char *const *a = row->aliases; a && *a; a++)
        if (!species_word_put(t, *a, WORD_SPECIES, index, only_ask, f) ||
            (species_plural(*a, plural) &&
             !species_word_put(t, plural, WORD_SPECIES, index, only_ask, f)))
            return false;
    for (const char *const *g = row->groups; g && *g; g++)
        if (!species_group_join(t, *g, index, only_ask, f))
            return false;
    for (size_t i = 0; i < FLAG_COUNT; i++)
        if (row->flags & (1u << i) &&
            !species_group_join(t, species_flag_words[i], index, only_ask, f))
            return false;
    return true;
}

/* Traits of the row over those of the row it replaces. */
static bool traits_put(struct species_table *t, const struct species_row *row,
                       const struct species *before, struct species *s)
{
    const char *source = species_keep(t, row->traits_source);
    for (size_t i = 0; source && i < SPECIES_TRAITS; i++) {
        bool told = row->traits && !isnan(row->traits[i]);
        s->traits[i] = told ? row->traits[i] : before ? before->traits[i] : NAN;
        s->traits_source[i] = told ? source : before ? before->traits_source[i] : "";
    }
    return source != NULL;
}

static bool is_told(const char *text)
{
    return text && text[0];
}

/* The row with what it leaves unsaid filled in from the one it replaces. */
static struct species_row over(const struct species *before, struct species_row row)
{
    row.plural = is_told(row.plural) ? row.plural : before->plural;
    row.scientific = is_told(row.scientific) ? row.scientific : before->scientific;
    row.code = is_told(row.code) ? row.code : before->code;
    row.flags = row.flags ? row.flags : before->flags;
    if (row.tons_per_cord <= 0) {
        row.tons_per_cord = before->tons_per_cord;
        row.tons_source = before->tons_source;
    }
    row.source = is_told(row.source) ? row.source : before->source;
    return row;
}

bool species_fill_traits(struct species_table *t, size_t index,
                         const double traits[SPECIES_TRAITS], const char *source,
                         struct fault *f)
{
    const char *kept = species_keep(t, source);
    if (!kept)
        return fault_no_memory(f);
    struct species *s = &t->rows[index];
    for (size_t i = 0; i < SPECIES_TRAITS; i++) {
        if (!isnan(s->traits[i]) || isnan(traits[i]))
            continue;
        s->traits[i] = traits[i];
        s->traits_source[i] = kept;
    }
    return true;
}

const char *species_trait_word(size_t trait)
{
    return trait < SPECIES_TRAITS ? trait_words[trait] : NULL;
}

bool species_add(struct species_table *t, const struct species_row *row, struct fault *f)
{
    char folded[WORD_LONGEST + 1], plural[WORD_LONGEST + 3];
    if (!row->name || !species_fold(row->name, strlen(row->name), folded) ||
        !species_plural(row->name, plural))
        return fault_set(f, "species-name", SPAN_NONE,
                         "a species needs a name of 1 to %d letters", WORD_LONGEST);
    const struct word *known = species_word(t, folded);
    bool again = known && known->kind == WORD_SPECIES;
    size_t index = again ? known->index : t->count;
    if (index == SPECIES_MOST)
        return fault_set(f, "species-full", SPAN_NONE, "more than %d species",
                         SPECIES_MOST);
    if (again) {
        /* An alias may not stand for the row it belongs to: that would rename it. */
        char own[WORD_LONGEST + 1];
        const char *name = t->rows[index].name;
        if (!species_fold(name, strlen(name), own) || strcmp(own, folded) != 0) {
            fault_set(f, "species-taken", SPAN_NONE, "`%s` already names %s", row->name,
                      name);
            fault_hint(f, "to change that species, use its name, %s", name);
            return false;
        }
    }
    const struct species *before = again ? &t->rows[index] : NULL;
    struct species_row r = *row;
    r.plural = row->plural ? row->plural : again ? NULL : plural;
    if (again)
        r = over(before, r);
    struct species s = { .name = species_keep(t, r.name),
                         .plural = species_keep(t, r.plural),
                         .scientific = species_keep(t, r.scientific),
                         .code = species_keep(t, r.code),
                         .flags = r.flags,
                         .tons_per_cord = r.tons_per_cord,
                         .tons_source = species_keep(t, r.tons_source),
                         .source = species_keep(t, r.source),
                         .layer = species_keep(t, r.layer),
                         .replaced_layer = again ? before->layer : "" };
    if (!s.name || !s.plural || !s.scientific || !s.code || !s.tons_source || !s.source ||
        !s.layer || !traits_put(t, row, before, &s))
        return fault_no_memory(f);
    if (!words_put(t, &r, index, &s, true, f))
        return false;
    if (again)
        row_drop(t, index, &r);
    t->rows[index] = s;
    if (!again)
        t->count++;
    return words_put(t, &r, index, &s, false, f);
}

struct species_table *species_table_new(void)
{
    struct species_table *t = calloc(1, sizeof *t);
    struct fault f = { .id = NULL };
    if (!t)
        return NULL;
    t->group_count = FLAG_COUNT;
    for (size_t i = 0; i < FLAG_COUNT; i++) {
        t->groups[i].name = species_flag_words[i];
        if (species_group_words(t, i, &f))
            continue;
        species_table_free(t);
        return NULL;
    }
    return t;
}

size_t species_count(const struct species_table *t)
{
    return t->count;
}

const struct species *species_at(const struct species_table *t, size_t index)
{
    return index < t->count ? &t->rows[index] : NULL;
}

const char *species_group_at(const struct species_table *t, size_t index, size_t i)
{
    /* Groups of the layers first, then flags, which were put in the table first. */
    for (size_t pass = 0; pass < 2; pass++) {
        size_t from = pass == 0 ? FLAG_COUNT : 0,
               to = pass == 0 ? t->group_count : FLAG_COUNT;
        for (size_t g = from; g < to; g++)
            if (species_set_has(&t->groups[g].members, index) && i-- == 0)
                return t->groups[g].name;
    }
    return NULL;
}

unsigned species_flag_find(const char *word)
{
    for (size_t i = 0; i < FLAG_COUNT; i++)
        if (strcmp(word, species_flag_words[i]) == 0)
            return 1u << i;
    return 0;
}

const char *species_flag_at(size_t i)
{
    return i < FLAG_COUNT ? species_flag_words[i] : NULL;
}

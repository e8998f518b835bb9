#include "forest/species.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "base/suggest.h"

enum {
    WORD_LONGEST = 60,
    GROUPS_MOST = 128,
    WORDS_MOST = 4096, /* slots of the word index; kept at most half full */
};

/* The words of the flags, in order of their numbers: groups by themselves. */
static const char *const flag_words[] = { "suckers",   "sprouts", "wilts",   "mast",
                                          "evergreen", "shrub",   "invasive" };
enum { FLAG_COUNT = sizeof flag_words / sizeof flag_words[0] };

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

struct group {
    const char *name;
    struct species_set members;
};

enum word_kind { WORD_FREE, WORD_SPECIES, WORD_GROUP, WORD_DROPPED };

struct word {
    const char *folded, *shown;
    enum word_kind kind;
    size_t index;
};

struct piece {
    struct piece *next;
    char text[];
};

struct species_table {
    struct species rows[SPECIES_MOST];
    size_t count;
    struct group groups[GROUPS_MOST];
    size_t group_count;
    struct word words[WORDS_MOST];
    size_t word_count;
    struct piece *pieces; /* all text, freed at the end */
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

static const char *keep(struct species_table *t, const char *text)
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

/* Small letters, one blank for any run of blanks, hyphens and underscores, none at the
 * ends. False when nothing is left or it is too long to be a name. */
static bool fold(const char *word, size_t length, char out[WORD_LONGEST + 1])
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

static const struct word *word_find(const struct species_table *t, const char *folded)
{
    const struct word *w = &t->words[slot_of(t, folded)];
    return w->kind == WORD_SPECIES || w->kind == WORD_GROUP ? w : NULL;
}

/* With `only_ask` nothing changes: a row is asked about as a whole before it is put in,
 * so that a refused row leaves the table as it was. */
static bool word_put(struct species_table *t, const char *shown, enum word_kind kind,
                     size_t index, bool only_ask, struct fault *f)
{
    char folded[WORD_LONGEST + 1];
    if (!fold(shown, strlen(shown), folded))
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
        const char *own = keep(t, folded), *text = keep(t, shown);
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

/* birch birches, cherry cherries, oak oaks: enough for trees; others say their plural. */
static bool plural_of(const char *name, char out[WORD_LONGEST + 3])
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

static bool group_words_put(struct species_table *t, size_t g, struct fault *f)
{
    const char *name = t->groups[g].name;
    char plural[WORD_LONGEST + 3];
    bool has_plural = name[strlen(name) - 1] != 's' && plural_of(name, plural);
    return word_put(t, name, WORD_GROUP, g, false, f) &&
           (!has_plural || word_put(t, plural, WORD_GROUP, g, false, f));
}

/* The group of that word, by its name or its plural; group_count when there is none. */
static size_t group_find(const struct species_table *t, const char *folded)
{
    const struct word *w = word_find(t, folded);
    if (!w)
        return t->group_count;
    if (w->kind == WORD_GROUP)
        return w->index;
    char own[WORD_LONGEST + 1]; /* a species keeps the word for itself: by name, then */
    size_t g = 0;
    while (g < t->group_count &&
           !(fold(t->groups[g].name, strlen(t->groups[g].name), own) &&
             strcmp(own, folded) == 0))
        g++;
    return g;
}

static bool group_join(struct species_table *t, const char *name, size_t index,
                       bool only_ask, struct fault *f)
{
    char folded[WORD_LONGEST + 1], plural[WORD_LONGEST + 3];
    if (!fold(name, strlen(name), folded) || !plural_of(name, plural))
        return fault_set(f, "species-name", SPAN_NONE,
                         "`%.70s` is not a name for a group", name);
    size_t g = group_find(t, folded);
    if (g == t->group_count) {
        if (g == GROUPS_MOST)
            return fault_set(f, "species-full", SPAN_NONE,
                             "more than %d groups of species", GROUPS_MOST);
        if (only_ask)
            return true;
        t->groups[g].name = keep(t, name);
        if (!t->groups[g].name)
            return fault_no_memory(f);
        t->groups[g].members = (struct species_set){ { 0 } };
        t->group_count++;
    }
    if (only_ask)
        return true;
    species_set_put(&t->groups[g].members, index, true);
    return group_words_put(t, g, f);
}

/* Is the word the row's own code, plural or scientific name, which a new row tells anew? */
static bool is_own_word(const struct species *s, const char *folded)
{
    const char *const own[] = { s->plural, s->scientific, s->code };
    char other[WORD_LONGEST + 1];
    for (size_t i = 0; i < sizeof own / sizeof own[0]; i++)
        if (fold(own[i], strlen(own[i]), other) && strcmp(other, folded) == 0)
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
        if (own[i][0] && !word_put(t, own[i], WORD_SPECIES, index, only_ask, f))
            return false;
    for (const char *const *a = row->aliases; a && *a; a++)
        if (!word_put(t, *a, WORD_SPECIES, index, only_ask, f) ||
            (plural_of(*a, plural) &&
             !word_put(t, plural, WORD_SPECIES, index, only_ask, f)))
            return false;
    for (const char *const *g = row->groups; g && *g; g++)
        if (!group_join(t, *g, index, only_ask, f))
            return false;
    for (size_t i = 0; i < FLAG_COUNT; i++)
        if (row->flags & (1u << i) && !group_join(t, flag_words[i], index, only_ask, f))
            return false;
    return true;
}

/* Traits of the row over those of the row it replaces. */
static bool traits_put(struct species_table *t, const struct species_row *row,
                       const struct species *before, struct species *s)
{
    const char *source = keep(t, row->traits_source);
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
    const char *kept = keep(t, source);
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
    if (!row->name || !fold(row->name, strlen(row->name), folded) ||
        !plural_of(row->name, plural))
        return fault_set(f, "species-name", SPAN_NONE,
                         "a species needs a name of 1 to %d letters", WORD_LONGEST);
    const struct word *known = word_find(t, folded);
    bool again = known && known->kind == WORD_SPECIES;
    size_t index = again ? known->index : t->count;
    if (index == SPECIES_MOST)
        return fault_set(f, "species-full", SPAN_NONE, "more than %d species",
                         SPECIES_MOST);
    if (again) {
        /* An alias may not stand for the row it belongs to: that would rename it. */
        char own[WORD_LONGEST + 1];
        const char *name = t->rows[index].name;
        if (!fold(name, strlen(name), own) || strcmp(own, folded) != 0) {
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
    struct species s = { .name = keep(t, r.name),
                         .plural = keep(t, r.plural),
                         .scientific = keep(t, r.scientific),
                         .code = keep(t, r.code),
                         .flags = r.flags,
                         .tons_per_cord = r.tons_per_cord,
                         .tons_source = keep(t, r.tons_source),
                         .source = keep(t, r.source),
                         .layer = keep(t, r.layer),
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
        t->groups[i].name = flag_words[i];
        if (group_words_put(t, i, &f))
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
    const struct word *w = fold(word, length, folded) ? word_find(t, folded) : NULL;
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
    if (!fold(word, length, folded))
        return unknown(t, word, length, f);
    const struct word *w = word_find(t, folded);
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

unsigned species_flag_find(const char *word)
{
    for (size_t i = 0; i < FLAG_COUNT; i++)
        if (strcmp(word, flag_words[i]) == 0)
            return 1u << i;
    return 0;
}

const char *species_flag_at(size_t i)
{
    return i < FLAG_COUNT ? flag_words[i] : NULL;
}

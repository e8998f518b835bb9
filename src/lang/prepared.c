#include "lang/prepared.h"

#include <stdlib.h>
#include <string.h>

#include "base/fault.h"
#include "lang/script_inner.h"

const struct prepared *prepared_find(const char *name)
{
    size_t low = 0, high = prepared_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        int order = strcmp(name, prepared_list[middle].name);
        if (order == 0)
            return &prepared_list[middle];
        if (order < 0)
            high = middle;
        else
            low = middle + 1;
    }
    return NULL;
}

/* The same unit comes again and again, and then as the same text. */
struct known {
    const char *text[16];
    struct unit_id unit[16];
    size_t count;
};

static bool unit_of(struct known *known, struct units *units, const char *text,
                    struct unit_id *out, struct fault *f)
{
    size_t most = sizeof known->text / sizeof known->text[0];
    for (size_t i = 0; i < known->count; i++) {
        if (known->text[i] == text) {
            *out = known->unit[i];
            return true;
        }
    }
    if (!units_find(units, text, strlen(text), out, f))
        return false;
    if (known->count < most) {
        known->text[known->count] = text;
        known->unit[known->count++] = *out;
    }
    return true;
}

static bool copy(struct literal *to, uint32_t source, const struct prepared_literal *from,
                 struct units *units, struct known *known, struct fault *f)
{
    *to = (struct literal){ .kind = from->kind,
                            .at = { source, from->at, from->length },
                            .low = from->low,
                            .value = from->value,
                            .high = from->high,
                            .unit = UNIT_NUMBER,
                            .around = from->around,
                            .date = from->date,
                            .day = from->day,
                            .window = from->window };
    return !from->unit || unit_of(known, units, from->unit, &to->unit, f);
}

struct script *script_of_prepared(uint32_t source, const char *text, size_t length,
                                  const struct prepared *p, struct units *units,
                                  struct fault *f)
{
    struct script *s = calloc(1, sizeof *s);
    size_t room = p->literal_count > 0 ? p->literal_count : 1;
    struct literal *literals = calloc(room, sizeof *literals);
    bool fine = s && literals;
    if (!fine)
        fault_no_memory(f);
    struct known known = { .count = 0 };
    for (size_t i = 0; fine && i < p->literal_count; i++)
        fine = copy(&literals[i], source, &p->literals[i], units, &known, f);
    if (!fine) {
        free(literals);
        free(s);
        return NULL;
    }
    s->source = source;
    s->start = script_start(text, length, &s->loaded);
    s->literals = literals;
    s->literals_count = p->literal_count;
    s->literals_room = room;
    return s;
}

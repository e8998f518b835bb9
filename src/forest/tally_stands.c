/* The stands that cruise notes are of. */
#include <stdlib.h>
#include <string.h>

#include "forest/tally_line.h"

void tally_stand_end(struct tally_reader *r)
{
    struct tally *t = r->tally;
    struct fault f = { .id = NULL };
    if (t->stand_count == 0)
        return;
    struct tally_stand *last = &t->stands[t->stand_count - 1];
    last->count = t->plot_count - last->first;
    if (last->count > 0 || r->told > 0)
        return;
    fault_set(&f, "tally-empty", SPAN_NONE, "no plot of stand %s in these cruise notes",
              last->name);
    size_t at = last->at.at - r->from.at;
    tally_tell(r, &f, at, at + last->at.length);
}

static bool stand_twice(struct tally_reader *r, size_t from, size_t to)
{
    struct fault f = { .id = NULL };
    struct tally *t = r->tally;
    for (size_t i = 0; i < t->stand_count; i++) {
        const char *name = t->stands[i].name;
        if (strlen(name) != to - from || memcmp(name, r->text + from, to - from) != 0)
            continue;
        fault_set(&f, "tally-twice", SPAN_NONE, "stand %s is there twice",
                  tally_typed(r, from, to).text);
        f.other = t->stands[i].at;
        return !tally_tell(r, &f, from, to);
    }
    return false;
}

/* What is wrong with a stand's line before its name is looked at. */
static bool stand_refused(struct tally_reader *r, size_t word, size_t from, size_t to)
{
    struct fault f = { .id = NULL };
    const struct tally *t = r->tally;
    if (from == to) {
        fault_set(&f, "tally-stand", SPAN_NONE, "which stand is not said");
        fault_hint(&f, "stand Bench aspen");
    } else if (t->plot_count > 0 && t->stand_count == 0) {
        fault_set(&f, "tally-stand", SPAN_NONE,
                  "plot %u, above this line, is of no stand",
                  (unsigned)t->plots[0].number);
        fault_hint(&f, "start the notes with the name of their stand: stand Bench aspen");
    } else if (t->stand_count == TALLY_STANDS_MOST) {
        fault_set(&f, "tally-size", SPAN_NONE, "more than %d stands in one tally",
                  TALLY_STANDS_MOST);
        r->told = FAULTS_MOST;
    } else {
        return false;
    }
    return !tally_tell(r, &f, word, to);
}

void tally_stand_line(struct tally_reader *r, size_t word)
{
    struct fault f = { .id = NULL };
    struct tally *t = r->tally;
    tally_take_mark(r, ':');
    tally_skip_blanks(r);
    size_t from = r->at, to = r->end;
    if (to - from >= 2 && r->text[from] == '"' && r->text[to - 1] == '"') {
        from++;
        to--;
    }
    r->at = r->end;
    r->now.slope = 0; /* ground is a stand's own, a prism is the cruiser's */
    r->now.corrected = false;
    r->stand_missed = stand_refused(r, word, from, to) || stand_twice(r, from, to);
    if (r->stand_missed)
        return;
    tally_stand_end(r);
    if (!tally_room(r, (void **)&t->stands, t->stand_count, &r->stand_room,
                    sizeof *t->stands, from, to))
        return;
    char *name = strndup(r->text + from, to - from);
    if (!name) {
        fault_no_memory(&f);
        tally_tell(r, &f, from, to);
        return;
    }
    struct span at = { r->from.source, r->from.at + (uint32_t)from,
                       (uint32_t)(to - from) };
    t->stands[t->stand_count++] = (struct tally_stand){ name, t->plot_count, 0, at };
}

struct tally *tally_of_stand(const struct tally *t, size_t stand, struct fault *f)
{
    const struct tally_stand *s = &t->stands[stand];
    uint32_t first = (uint32_t)s->first, past = first + (uint32_t)s->count;
    struct tally *one = calloc(1, sizeof *one);
    if (one) {
        one->plots = calloc(s->count + 1, sizeof *one->plots);
        one->trees = calloc(t->tree_count + 1, sizeof *one->trees);
        one->stems = calloc(t->stem_count + 1, sizeof *one->stems);
    }
    if (!one || !one->plots || !one->trees || !one->stems) {
        tally_free(one);
        (void)fault_no_memory(f);
        return NULL;
    }
    for (uint32_t i = first; i < past; i++) {
        one->plots[one->plot_count] = t->plots[i];
        one->plots[one->plot_count++].first -= t->plots[first].first;
    }
    for (size_t i = 0; i < t->tree_count; i++)
        if (t->trees[i].plot >= first && t->trees[i].plot < past) {
            one->trees[one->tree_count] = t->trees[i];
            one->trees[one->tree_count++].plot -= first;
        }
    for (size_t i = 0; i < t->stem_count; i++)
        if (t->stems[i].plot >= first && t->stems[i].plot < past) {
            one->stems[one->stem_count] = t->stems[i];
            one->stems[one->stem_count++].plot -= first;
        }
    return one;
}

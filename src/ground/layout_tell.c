#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "base/fault.h"
#include "base/num.h"
#include "ground/layout_inner.h"

static struct layout_trouble *add(struct layout *out, enum layout_what what, double asked,
                                  double got)
{
    struct layout_trouble *t = &out->troubles[out->trouble_count++];
    *t = (struct layout_trouble){ .ask = what, .asked = asked, .got = got };
    return t;
}

/* Words with whole numbers in them: "%" stands for the next one, "~" for the s of what is
 * counted by the last. */
static void say(char *text, size_t room, const char *form, const double *numbers)
{
    struct buf b;
    double last = 0;
    buf_init(&b);
    for (; *form; form++) {
        if (*form == '%') {
            last = *numbers++;
            num_fixed(&b, last, 0, true);
        } else if (*form == '~')
            buf_puts(&b, last == 1 ? "" : "s");
        else
            buf_putc(&b, *form);
    }
    snprintf(text, room, "%s", b.data);
    buf_clear(&b);
}

/* The ask once more with something relaxed: does that trouble go away? */
static bool helps(const struct layout_ask *ask, enum layout_what what, bool *good,
                  struct fault *f)
{
    struct layout again;
    struct layout_ask once = *ask;
    once.candidates = what == LAYOUT_COUNT ? 2 : once.candidates;
    if (what == LAYOUT_COUNT)
        once.ways_out = 0, once.reach = 0;
    bool does = false;
    if (!*good)
        return false;
    *good = layout_design_told(&once, &again, false, f);
    if (*good) {
        does = true;
        for (size_t i = 0; i < again.trouble_count; i++)
            does = does && again.troubles[i].ask != what;
        layout_free(&again);
    }
    return does;
}

/* Setbacks at this part of what was asked. */
static bool helps_closer(const struct layout_ask *ask, double part, enum layout_what what,
                         bool *good, struct fault *f)
{
    struct layout_shun *shuns = calloc(ask->shun_count + 1, sizeof *shuns);
    struct layout_ask once = *ask;
    if (!shuns) {
        *good = fault_no_memory(f);
        return false;
    }
    for (size_t i = 0; i < ask->shun_count; i++)
        shuns[i] = (struct layout_shun){ ask->shuns[i].line, ask->shuns[i].least * part };
    once.shuns = shuns;
    bool does = helps(&once, what, good, f);
    free(shuns);
    return does;
}

/* "or setbacks of ..." when that was found to do it. */
static void say_closer(const struct layout_ask *ask, struct layout_trouble *t, bool *good,
                       struct fault *f)
{
    static const double parts[] = { 0.75, 0.5, 0.25 };
    size_t used = strlen(t->remedy);
    for (size_t i = 0; i < 3 && ask->shun_count > 0; i++) {
        if (!helps_closer(ask, parts[i], t->ask, good, f))
            continue;
        double percent = parts[i] * 100;
        say(t->remedy + used, sizeof t->remedy - used,
            used > 0 ? ", or setbacks of % percent of those asked"
                     : "setbacks of % percent of those asked", &percent);
        return;
    }
}

static bool tell_count(const struct layout_plot *p, struct layout *out, bool remedies,
                       struct fault *f)
{
    const struct layout_ask *ask = p->ground->ask;
    double got = (double)p->openings, wanted = (double)p->wanted;
    struct layout_trouble *t = add(out, LAYOUT_COUNT, wanted, got);
    bool good = true;
    t->how_many = p->wanted - p->openings;
    say(t->words, sizeof t->words, "there is room for % of % opening~",
        (double[]){ got, wanted });
    if (!remedies)
        return true;
    if (p->openings > 0)
        say(t->remedy, sizeof t->remedy, "% opening~", &got);
    for (double part = 0.9; part > 0.35; part -= 0.1) {
        struct layout_ask once = *ask;
        once.width = floor(ask->width * part);
        once.area = ask->area * part * part;
        once.count = p->wanted;
        if (!(once.width > 0) || !helps(&once, LAYOUT_COUNT, &good, f))
            continue;
        size_t used = strlen(t->remedy);
        say(t->remedy + used, sizeof t->remedy - used,
            used > 0 ? ", or openings % ft wide" : "openings % ft wide", &once.width);
        break;
    }
    say_closer(ask, t, &good, f);
    return good;
}

static bool tell_ways(const struct layout_plot *p, struct layout *out, bool remedies,
                      struct fault *f)
{
    const struct layout_ask *ask = p->ground->ask;
    double asked = (double)ask->ways_out, least = asked,
           exits = (double)p->ground->gate_count;
    size_t worst = 0;
    for (size_t i = 0; i < p->openings; i++) {
        if (p->ways[i] < least) {
            least = p->ways[i];
            worst = i;
        }
    }
    struct layout_trouble *t = add(out, LAYOUT_WAYS_OUT, asked, least);
    bool good = true;
    t->opening = worst;
    t->where = p->centers[worst];
    t->how_many = p->score.short_of_ways;
    if (exits < asked) {
        say(t->words, sizeof t->words, "% way~ out to different exits are asked, but the "
            "cover has only % exit~", (double[]){ asked, exits });
        say(t->remedy, sizeof t->remedy,
            exits > 0 ? "% way~ out, or another edge to leave by"
                      : "an edge to leave by",
            &exits);
        return true;
    }
    say(t->words, sizeof t->words,
        "% of % opening~ have fewer than % way~ out; opening % has %",
        (double[]){ (double)t->how_many, (double)p->openings, asked, (double)worst + 1,
                    least });
    if (!remedies)
        return true;
    struct layout_ask once = *ask;
    once.ways_out = (size_t)least;
    if (least > 0 && helps(&once, LAYOUT_WAYS_OUT, &good, f))
        say(t->remedy, sizeof t->remedy, "% way~ out", &least);
    say_closer(ask, t, &good, f);
    once = *ask;
    once.count = p->openings - t->how_many;
    if (once.count > 0 && !ask->openings && helps(&once, LAYOUT_WAYS_OUT, &good, f)) {
        double count = (double)once.count;
        size_t used = strlen(t->remedy);
        say(t->remedy + used, sizeof t->remedy - used,
            used > 0 ? ", or % opening~" : "% opening~", &count);
    }
    return good;
}

static bool tell_reach(const struct layout_plot *p, struct layout *out, bool remedies,
                       struct fault *f)
{
    const struct layout_ask *ask = p->ground->ask;
    bool good = true;
    struct layout_trouble *t = add(out, LAYOUT_REACH, ask->reach, p->score.reach);
    t->where = p->farthest;
    t->how_many = 1;
    say(t->words, sizeof t->words,
        "some cover is % ft from any trail or opening, more than % ft",
        (double[]){ ceil(p->score.reach), ask->reach });
    if (!remedies)
        return true;
    struct layout_ask once = *ask;
    for (double more = 1; more < 1.6; more *= 1.15) {
        once.reach = ceil(p->score.reach * more + 1);
        if (!helps(&once, LAYOUT_REACH, &good, f))
            continue;
        say(t->remedy, sizeof t->remedy, "a reach of % ft", &once.reach);
        break;
    }
    say_closer(ask, t, &good, f);
    return good;
}

static bool tell_sight(const struct layout_plot *p, struct layout *out, bool remedies,
                       struct fault *f)
{
    const struct layout_ask *ask = p->ground->ask;
    bool good = true;
    struct layout_trouble *t = add(out, LAYOUT_SIGHT, ask->sight, p->score.sight);
    for (size_t i = 0; i < p->route_count; i++) {
        t->how_many += p->routes[i].sight > ask->sight;
        if (p->routes[i].sight >= p->score.sight)
            t->where = p->routes[i].sight_at;
    }
    say(t->words, sizeof t->words,
        "along % trail~ one sees farther than % ft: up to % ft",
        (double[]){ (double)t->how_many, ask->sight, ceil(p->score.sight) });
    if (!remedies)
        return true;
    struct layout_ask once = *ask;
    once.sight = ceil(p->score.sight + 1);
    if (helps(&once, LAYOUT_SIGHT, &good, f))
        say(t->remedy, sizeof t->remedy, "a sight of % ft", &once.sight);
    once = *ask;
    for (double part = 0.8; part > 0.3; part -= 0.2) {
        once.trail_width = floor(ask->trail_width * part);
        if (!(once.trail_width >= 1) || !helps(&once, LAYOUT_SIGHT, &good, f))
            continue;
        size_t used = strlen(t->remedy);
        say(t->remedy + used, sizeof t->remedy - used,
            used > 0 ? ", or trails % ft wide" : "trails % ft wide", &once.trail_width);
        break;
    }
    return good;
}

bool layout_tell(const struct layout_plot *p, struct layout *out, bool remedies,
                 struct fault *f)
{
    const struct layout_ask *ask = p->ground->ask;
    bool good = true;
    if (p->openings < p->wanted)
        good = tell_count(p, out, remedies, f);
    if (good && p->score.short_of_ways > 0)
        good = tell_ways(p, out, remedies, f);
    if (good && ask->reach > 0 && p->score.reach > ask->reach)
        good = tell_reach(p, out, remedies, f);
    if (good && ask->sight > 0 && p->score.sight > ask->sight)
        good = tell_sight(p, out, remedies, f);
    return good;
}

/* Weeks in which ground and weather are fit for the work: drawn by chance, or harsh. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/chance.h"
#include "base/fault.h"
#include "work/schedule_parts.h"

/* A week that is drawn. It may lie in two months: then its later days have a bar of their
 * own. A number by chance lies below a bar with the chance of the month. */
struct drawn_week {
    int day, days;
    uint64_t bar, later_bar;
};

/* ---- chance ---- */

/* Numbers of draws and weeks lie so far apart before they are mixed. */
#define STRIDE UINT64_C(0x9e3779b97f4a7c15)

/* A condition is drawn by its name: what else a plan asks for does not move its weeks. */
static uint64_t key_of(const char *words)
{
    uint64_t key = STRIDE;
    for (const char *c = words; *c; c++)
        key = chance_mixed(key + (uint8_t)*c + 1);
    return key;
}

/* So many chances in 2^53. */
static uint64_t bar_of(double chance)
{
    return (uint64_t)(chance * 9007199254740992.0);
}

/* ---- room ---- */

static bool has_ground(const struct solver *s, const struct group *g)
{
    bool has = false;
    for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job])
        has = has || s->task->jobs[job].has_condition;
    return has && !s->task->jobs[g->first].done;
}

/* The weeks in which something that waits for the condition could be done. */
static size_t find_weeks(const struct solver *s, const struct dayset *asked,
                         const double *chance, struct drawn_week *out)
{
    struct civil c = date_civil(s->base);
    size_t count = 0;
    for (int day = 0; day < s->days; day += 7) {
        int in_month = date_days_in_month(c.year, c.month), left = in_month - c.day + 1;
        struct drawn_week *w = &out[count];
        w->day = day;
        w->days = left < 7 ? left : 7;
        w->bar = w->later_bar = bar_of(chance[c.month - 1]);
        c.day += 7;
        if (c.day > in_month) {
            c.day -= in_month;
            c.month = c.month % 12 + 1;
            c.year += c.month == 1;
            w->later_bar = bar_of(chance[c.month - 1]);
        }
        count += dayset_next(asked, day) < day + 7;
    }
    return count;
}

static void find_asked(const struct solver *s, const struct ground *ground, size_t c)
{
    dayset_empty(&ground->fits[c]);
    for (size_t i = 0; i < s->group_count; i++) {
        const struct group *g = &s->groups[i];
        bool asks = false;
        for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job])
            asks = asks || (s->task->jobs[job].has_condition &&
                            s->task->jobs[job].condition == c);
        if (asks && has_ground(s, g))
            dayset_or(&ground->fits[c], &ground->wholes[i]);
    }
}

static void ground_fill(const struct solver *s, struct ground *ground)
{
    size_t words = dayset_words(s->days), count = 0;
    memcpy(ground->whole_words, s->open_words,
           s->group_count * words * sizeof *ground->whole_words);
    for (size_t g = 0; g < s->group_count; g++)
        ground->wholes[g] =
            (struct dayset){ s->base, s->days, ground->whole_words + g * words };
    for (size_t c = 0; c < s->task->condition_count; c++) {
        const struct schedule_condition *condition = &s->task->conditions[c];
        ground->fits[c] =
            (struct dayset){ s->base, s->days, ground->fit_words + c * words };
        ground->keys[c] = key_of(condition->words);
        ground->weeks_at[c] = count;
        find_asked(s, ground, c);
        count +=
            find_weeks(s, &ground->fits[c], condition->chance, ground->weeks + count);
    }
    ground->weeks_at[s->task->condition_count] = count;
}

static bool ground_init(struct schedule_again *a, struct fault *f)
{
    const struct solver *s = &a->s;
    struct ground *ground = &a->ground;
    size_t words = dayset_words(s->days), conditions = s->task->condition_count;
    ground->wholes = malloc((s->group_count + 1) * sizeof *ground->wholes);
    ground->fits = malloc((conditions + 1) * sizeof *ground->fits);
    ground->whole_words = malloc((s->group_count * words + 1) * sizeof(uint64_t));
    ground->fit_words = malloc((conditions * words + 1) * sizeof(uint64_t));
    /* One more than there are: the next is filled in before it is known to count. */
    ground->weeks =
        malloc((conditions * ((size_t)s->days / 7 + 1) + 1) * sizeof *ground->weeks);
    ground->weeks_at = malloc((conditions + 1) * sizeof *ground->weeks_at);
    ground->keys = malloc((conditions + 1) * sizeof *ground->keys);
    ground->until = malloc((s->group_count + 1) * sizeof *ground->until);
    if (!ground->wholes || !ground->fits || !ground->whole_words || !ground->fit_words ||
        !ground->weeks || !ground->weeks_at || !ground->keys || !ground->until)
        return fault_no_memory(f);
    ground_fill(s, ground);
    return true;
}

void ground_clear(struct ground *ground)
{
    free(ground->wholes);
    free(ground->fits);
    free(ground->whole_words);
    free(ground->fit_words);
    free(ground->weeks);
    free(ground->weeks_at);
    free(ground->keys);
    free(ground->until);
}

/* ---- weeks that are drawn ---- */

enum { EVEN_BITS = 7, EVEN_MASK = SCHEDULE_GROUND_EVEN - 1 };
static_assert(SCHEDULE_GROUND_EVEN == 1 << EVEN_BITS, "draws share out by bits");

/* Where the draw stands among those that share out the chance: each place is taken once,
 * in an order that follows from 56 bits of `h`. */
static uint64_t place_of(uint64_t h, size_t draw)
{
    uint64_t x = draw & EVEN_MASK;
    for (int round = 0; round < 4; round++, h >>= 2 * EVEN_BITS) {
        x ^= h & EVEN_MASK;
        x = x * ((h >> EVEN_BITS) | 1) & EVEN_MASK;
        x ^= x >> 4;
    }
    return x;
}

static void put_days(struct dayset *days, int from, int count)
{
    if (count > days->days - from)
        count = days->days - from;
    if (count <= 0)
        return;
    uint64_t bits = (UINT64_C(1) << count) - 1;
    days->words[from / 64] |= bits << (from % 64);
    if (from % 64 + count > 64)
        days->words[from / 64 + 1] |= bits >> (64 - from % 64);
}

static void draw_weeks(const struct solver *s, const struct ground *ground,
                       size_t condition, size_t draw)
{
    struct dayset *fit = &ground->fits[condition];
    uint64_t key =
        chance_mixed(ground->keys[condition] + STRIDE * (draw / SCHEDULE_GROUND_EVEN));
    /* Weeks by their own number, whenever the plan begins. */
    key += STRIDE * (uint64_t)(s->base.day / 7);
    memset(fit->words, 0, ground->drawn_words * sizeof *fit->words);
    for (size_t i = ground->weeks_at[condition]; i < ground->weeks_at[condition + 1];
         i++) {
        struct drawn_week w = ground->weeks[i];
        if ((size_t)w.day / 64 >= ground->drawn_words)
            break;
        uint64_t h = chance_mixed(key + STRIDE * (uint64_t)(w.day / 7));
        uint64_t drawn =
            place_of(h, draw) << (53 - EVEN_BITS) | (h * STRIDE) >> (64 - 53 + EVEN_BITS);
        if (drawn < w.bar && drawn < w.later_bar) {
            put_days(fit, w.day, 7);
        } else if (drawn < w.bar) {
            put_days(fit, w.day, w.days);
        } else if (drawn < w.later_bar) {
            put_days(fit, w.day + w.days, 7 - w.days);
        }
    }
}

static void draw_ground(struct schedule_again *a, size_t draw)
{
    struct solver *s = &a->s;
    const struct ground *ground = &a->ground;
    for (size_t c = 0; c < s->task->condition_count; c++)
        draw_weeks(s, ground, c, draw);
    for (size_t i = 0; i < s->group_count; i++) {
        const struct group *g = &s->groups[i];
        if (!has_ground(s, g))
            continue;
        uint64_t *open = s->opens[i].words;
        memcpy(open, ground->wholes[i].words, ground->drawn_words * sizeof *open);
        for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job]) {
            const struct schedule_job *j = &s->task->jobs[job];
            for (size_t k = 0; j->has_condition && k < ground->drawn_words; k++)
                open[k] &= ground->fits[j->condition].words[k];
        }
        if (ground->until[i] < s->days)
            dayset_remove(&s->opens[i], solver_date(s, ground->until[i] + 1),
                          solver_date(s, s->days));
    }
}

/* ---- harsh weeks ---- */

/* Of a group whose jobs want several conditions, these are as if independent. */
static double chance_on(const struct solver *s, const struct group *g, int day)
{
    int month = date_civil(solver_date(s, day)).month;
    double chance = 1;
    for (size_t job = g->first; job != SCHEDULE_NONE; job = s->next[job]) {
        const struct schedule_job *j = &s->task->jobs[job];
        bool again = !j->has_condition; /* of the same condition, or none */
        for (size_t k = g->first; k != job; k = s->next[k])
            again = again || (s->task->jobs[k].has_condition &&
                              s->task->jobs[k].condition == j->condition);
        if (!again)
            chance *= s->task->conditions[j->condition].chance[month - 1];
    }
    return chance;
}

bool luck_holds(const struct wish *w, int day, struct luck *luck)
{
    if (day / 7 != luck->week) {
        luck->week = day / 7;
        luck->none *= 1 - chance_on(w->harsh, w->group, day);
        luck->fit = luck->none * HARSH_ONE <= 1;
        if (luck->fit)
            luck->none = 1;
    }
    luck->lost = luck->fit ? 0 : luck->lost + 1;
    return luck->fit;
}

/* ---- what is asked for ---- */

/* Weeks so long after the last season in which something waits for its ground are not worth
 * drawing: they are fit, as planned. */
enum { LATER_DAYS = 2 * 366 };

bool schedule_again_settle(struct schedule_again *a, struct fault *f)
{
    const struct solver *s = &a->s;
    struct ground *ground = &a->ground;
    int last = 0;
    assert(ground->kind == SCHEDULE_GROUND_PLANNED);
    if (!ground->wholes && !ground_init(a, f))
        return false;
    for (size_t g = 0; g < s->group_count; g++) {
        const struct group *group = &s->groups[g];
        bool gives_way = false;
        for (size_t job = group->first; job != SCHEDULE_NONE; job = s->next[job])
            gives_way = gives_way || s->task->jobs[job].has_otherwise;
        ground->until[g] = s->days;
        if (!has_ground(s, group) || !group->placed || group->finish < s->begin ||
            group->finish >= s->days)
            continue;
        int end = season_end(&ground->wholes[g], group->finish);
        last = end > last ? end : last;
        if (gives_way)
            ground->until[g] = end;
    }
    int drawn = last + LATER_DAYS < s->days ? last + LATER_DAYS : s->days;
    ground->drawn_words = dayset_words(drawn);
    return true;
}

void schedule_again_ground(struct schedule_again *a, enum schedule_ground ground,
                           size_t draw)
{
    struct solver *s = &a->s;
    bool drawn = ground == SCHEDULE_GROUND_DRAWN;
    assert(!drawn || a->ground.wholes);
    s->harsh = ground == SCHEDULE_GROUND_HARSH;
    if (drawn)
        draw_ground(a, draw);
    else if (s->wholes)
        memcpy(s->open_words, a->ground.whole_words,
               s->group_count * dayset_words(s->days) * sizeof *s->open_words);
    s->wholes = drawn ? a->ground.wholes : NULL;
    a->ground.kind = ground;
}

bool ground_stops(const struct schedule_again *a, size_t job)
{
    const struct solver *s = &a->s;
    const struct group *g = &s->groups[s->group_of[job]];
    if (!g->fixed || !g->placed || !has_ground(s, g) || g->start < s->begin ||
        g->start >= s->days)
        return false;
    if (s->harsh)
        return (1 - chance_on(s, g, g->start)) * HARSH_ONE > 1;
    return s->wholes && dayset_has(&s->wholes[g - s->groups], g->start) &&
           !dayset_has(group_open(s, g), g->start);
}

/* bench_schedule: schedules of habitat plans, time against acts.
 *
 * The bars, on one core: 60 acts and 4 crews over 15 years in 50 ms in all, 2,000 acts in
 * 3 s. The plans are of the usual kind: in each stand a cut in the dormant season, stumps
 * treated along with it, an opening and a trail after it, mowing in its first three late
 * summers, planting in a spring, a burn when the ground is dry, a visit. The hours are such
 * that crews are pressed in their seasons whatever the number of acts; deadlines and acts
 * marked first make the order matter, so that the search goes on to its last try. Then
 * other sizes with EACH schedules made for each, and how fast the time grows: time ~ acts
 * to the power printed. Time of the processor; the least of RUNS. Last how good: plans of
 * 20 and 60 acts with as many schedules as suit them, beside MORE times as many; there is
 * no bar for that. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "base/fault.h"
#include "work/schedule_parts.h"
#include "work/search.h"

enum { CREWS = 4, PARTS = 10, RUNS = 5, EACH = 100, PLANS = 20, MORE = 50 };
enum { OWNER, SAWYERS, SPRAYER, MACHINE };

struct bench_plan {
    struct schedule_task task;
    struct schedule_crew crews[CREWS];
    struct schedule_job *jobs;
    struct schedule_after *after;
    struct schedule_condition dry;
    struct schedule_limit wilt;
    struct schedule_notice notice;
};

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + (double)t.tv_nsec / 1e9;
}

static struct yearly days(int m1, int d1, int m2, int d2)
{
    struct window w = { { (int8_t)m1, (int8_t)d1 }, { (int8_t)m2, (int8_t)d2 } };
    return yearly_of(w);
}

static void make_crews(struct bench_plan *p)
{
    p->crews[OWNER] =
        (struct schedule_crew){ "owner", 2, 10, .off = days(11, 15, 11, 30) };
    p->crews[SAWYERS] =
        (struct schedule_crew){ "sawyers", 3, 40, 45, .off = days(4, 1, 11, 30) };
    p->crews[SPRAYER] =
        (struct schedule_crew){ "sprayer", 1, 20, 60, .off = days(11, 1, 6, 30) };
    p->crews[MACHINE] =
        (struct schedule_crew){ "machine", 1, 40, 90, .off = days(3, 10, 7, 31) };
}

/* One act of a stand, by what it is; those after another follow the stand's cut. */
static void make_job(struct bench_plan *p, size_t i, double share)
{
    static const char *const names[PARTS] = { "cut",   "stumps", "opening", "trail",
                                              "mow 1", "mow 2",  "mow 3",   "plant",
                                              "burn",  "visit" };
    static const size_t saws[] = { OWNER, SAWYERS }, spray[] = { SPRAYER, OWNER },
                        mowers[] = { OWNER, MACHINE };
    size_t part = i % PARTS, cut = i - part;
    struct schedule_job *j = &p->jobs[i];
    double hours = share * (double)(8 + (i * 7919) % 40);
    *j = (struct schedule_job){ .name = names[part],
                                .hours = hours,
                                .days = 1,
                                .open = yearly_all(),
                                .who = SCHEDULE_LISTED,
                                .crews = saws,
                                .crew_count = 2 };
    if (part > 0) {
        p->after[i] = (struct schedule_after){ .job = cut, .least = 0, .most = -1 };
        j->after = &p->after[i];
        j->after_count = 1;
    }
    switch (part) {
    case 0:
        j->open = days(11, 1, 3, 31);
        j->limits = &p->wilt;
        j->notices = &p->notice;
        j->limit_count = j->notice_count = 1;
        j->first = cut / PARTS % 5 == 0;
        if (cut / PARTS % 4 == 0)
            j->latest = (struct schedule_day_given){ true, { p->task.start.day + 560 } };
        break;
    case 1:
        j->crews = spray;
        j->open = days(7, 1, 2, 28);
        p->after[i].least = cut / PARTS % 2 ? 30 : 0;
        break;
    case 4:
    case 5:
    case 6:
        j->crews = mowers;
        j->hours /= 8;
        j->open = days(8, 1, 9, 30);
        p->after[i].least = 365 * ((int)part - 3) - 180;
        break;
    case 7:
        j->open = days(4, 15, 5, 31);
        p->after[i].most = 900;
        break;
    case 8:
        j->who = SCHEDULE_ANY;
        j->has_condition = true;
        p->after[i].least = 4 * 365;
        break;
    case 9:
        j->who = SCHEDULE_NOBODY;
        j->open = days(8, 1, 8, 31);
        p->after[i].least = 120;
        break;
    default: break;
    }
}

static bool make_plan(struct bench_plan *p, size_t acts, struct fault *f)
{
    *p = (struct bench_plan){
        .wilt = { .words = "oak wilt", .closed = days(3, 20, 7, 15) },
        .notice = { "cutting notice", 14, true, 0 },
        .dry = { .words = "dry", .chance = { 0, 0, 0, 0.4, 0.5, 0.2, 0, 0, 0.3 } }
    };
    p->jobs = calloc(acts, sizeof *p->jobs);
    p->after = calloc(acts, sizeof *p->after);
    p->task = (struct schedule_task){ .jobs = p->jobs,
                                      .job_count = acts,
                                      .crews = p->crews,
                                      .crew_count = CREWS,
                                      .conditions = &p->dry,
                                      .condition_count = 1 };
    if (!p->jobs || !p->after)
        return fault_no_memory(f);
    if (!date_make(2026, 10, 14, &p->task.start, f))
        return false;
    make_crews(p);
    double share = 150 / (double)acts;
    for (size_t i = 0; i < acts; i++)
        make_job(p, i, share > 1 ? 1 : share);
    return true;
}

/* Seconds, for at most so many schedules (0: as many as suit the plan); negative when it
 * failed. */
static double solve(size_t acts, size_t most, int runs, struct fault *f)
{
    struct bench_plan p;
    double least = HUGE_VAL;
    bool fine = make_plan(&p, acts, f);
    p.task.tries = most;
    size_t unplaced = 0, tries = 0;
    for (int run = 0; fine && run < runs; run++) {
        double start = now();
        struct schedule *s = schedule_new(&p.task, f);
        least = fmin(least, now() - start);
        fine = s != NULL;
        unplaced = 0;
        for (size_t i = 0; fine && i < acts; i++)
            unplaced += schedule_of(s, i)->state == SCHEDULE_UNPLACED;
        tries = fine ? schedule_outcome(s).tries : 0;
        schedule_free(s);
    }
    free(p.jobs);
    free(p.after);
    if (!fine)
        return -1;
    printf("%5zu acts: %8.2f ms, %4zu schedules made, %zu acts unplaced\n", acts,
           1000 * least, tries, unplaced);
    return least;
}

static bool bar(size_t acts, double most, struct fault *f)
{
    double took = solve(acts, 0, RUNS, f);
    printf("%zu acts, %d crews, 15 years: %.1f ms (bar: %.0f)\n", acts, CREWS,
           1000 * took, 1000 * most);
    return took >= 0 && took <= most;
}

/* The score of the best of so many schedules. */
static bool best_of(const struct schedule_task *task, struct score *best, size_t *tries,
                    struct fault *f)
{
    struct solver s;
    bool fine = solver_init(&s, task, f) && solver_order(&s, f) && solver_search(&s, f);
    if (fine)
        *best = score_of(&s, s.bounds);
    *tries = s.outcome.tries;
    for (size_t i = 0; s.told && i < task->job_count; i++)
        job_told_clear(&s.told[i]);
    free(s.told);
    solver_clear(&s);
    return fine;
}

/* Plans with other hours and deadlines each. */
static bool beside_more(size_t acts, struct fault *f)
{
    size_t as_good = 0, uneven = 0;
    double apart = 0;
    bool fine = true;
    for (int plan = 0; fine && plan < PLANS; plan++) {
        struct bench_plan p;
        struct score few, many;
        size_t tries;
        fine = make_plan(&p, acts, f);
        for (size_t i = 0; fine && i < acts; i++) {
            p.jobs[i].hours *= 0.5 + (double)((i * 31 + (size_t)plan * 17) % 100) / 60;
            p.jobs[i].latest.date.day -= plan * 10;
        }
        fine = fine && best_of(&p.task, &few, &tries, f);
        p.task.tries = tries * MORE;
        fine = fine && best_of(&p.task, &many, &tries, f);
        free(p.jobs);
        free(p.after);
        if (!fine)
            break;
        as_good += score_compare(&few, &many) <= 0;
        uneven += score_compare(&few, &many) > 0 &&
                  search_compare(few.of, many.of, SCORE_UNEVEN, SCORE_ALIKE) == 0;
        apart += 100 * (few.of[SCORE_UNEVEN] / many.of[SCORE_UNEVEN] - 1) / PLANS;
    }
    printf("%zu acts, %d plans: as good as with %d times the schedules in %zu, but for how "
           "even the weeks are in %zu more; %.1f percent less even\n",
           acts, PLANS, MORE, as_good, uneven, apart);
    return fine;
}

int main(void)
{
    static const size_t acts[] = { 60, 100, 200, 400, 1000, 2000, 4000 };
    enum { SIZES = sizeof acts / sizeof *acts };
    struct fault f;
    fault_clear(&f);
    bool good = bar(60, 0.05, &f);
    good = bar(2000, 3, &f) && good;
    double sx = 0, sy = 0, sxx = 0, sxy = 0;
    for (int i = 0; i < SIZES; i++) {
        double took = solve(acts[i], EACH, acts[i] < 1000 ? 3 : 1, &f);
        good = good && took > 0;
        double x = log((double)acts[i]), y = log(took);
        sx += x;
        sy += y;
        sxx += x * x;
        sxy += x * y;
    }
    printf("time grows as acts to the power %.2f\n",
           (SIZES * sxy - sx * sy) / (SIZES * sxx - sx * sx));
    good = beside_more(20, &f) && beside_more(60, &f) && good;
    if (fault_is_set(&f))
        printf("%s\n", f.message);
    return good ? 0 : 1;
}

/* search.h: searches for the list of things, and for what is chosen for each of them, of
 * which the best schedule is made.
 *
 *     struct search_problem p = { .of = &mine, .lists = l, .choices = choices,
 *                                 .scores = 2, .begin = begin, .make = make };
 *     struct search_ask ask = { .schedules = 600, .seed = 1 };
 *     struct search_pick best = { .list = room, .choice = more_room };
 *     if (!search_run(&p, &ask, &best, &out, f)) ...       // memory, or what `make` says
 *
 * The one engine under both models of this room: a habitat plan, by days, seasons and
 * hours of crews (schedule_search.c), and the project of the literature, in whole units
 * of time (project_improve.c), on which the engine is measured. It knows neither: it
 * makes lists and choices, and is told scores.
 *
 * Priority rules come first. Then, where all lists and choices are no more than the
 * schedules that are left, all are tried. Else one list is changed again and again, or
 * there are many, parents: their children take over the list of one but for a stretch,
 * which comes in the order of another (Hartmann 1998, "A competitive genetic algorithm
 * for resource-constrained project scheduling", Naval Research Logistics 45, from
 * memory), or are changed; a child takes the place of the worst parent, and when none has
 * been better for long the parents are sown anew. Which of the two hangs on how many
 * schedules may be made (search.c). Of equals the first one found stands. Same problem,
 * same ask: same answer. */
#ifndef SPINNEY_WORK_SEARCH_H
#define SPINNEY_WORK_SEARCH_H

#include "work/lists.h"

enum { SEARCH_SCORES = 8 };

struct search_pick {
    uint32_t *list;
    uint32_t *choice; /* of each thing; NULL where nothing is to be chosen */
    double score[SEARCH_SCORES];
};

struct search_problem {
    void *of; /* is handed to all functions */
    struct lists *lists;
    const uint32_t *choices; /* of each thing, how many, 1 or more; NULL: none has any */
    size_t scores;       /* how many count; lower is better, the first before others */
    double alike;        /* scores that differ by no more than this part are equal */
    const double *bound; /* below which no schedule's score is */
    size_t bounded;      /* how many it has; 0: none */
    /* So many schedules are made yet when all of these are reached, for the next score
     * alone, and what betters it by a few percent. */
    size_t beyond;
    /* Makes the next of the schedules to begin with, a priority rule's; there is at least
     * one. Fills the pick, and `value` with what the rule goes by, less being sooner.
     * *made is false when there is none any more. *left as for `make`. */
    bool (*begin)(void *of, struct search_pick *pick, int *value, size_t *left,
                  bool *made, struct fault *f);
    /* Makes the schedule of a list and choices, and its score; may better it and put
     * down the list that it has then. *left is how many schedules may be made, at least
     * 1; those that were made are taken off. */
    bool (*make)(void *of, struct search_pick *pick, size_t *left, struct fault *f);
    /* The schedule made last is the best so far. May be NULL. */
    void (*keep)(void *of);
};

struct search_ask {
    size_t schedules; /* at most, and at least 1 */
    uint64_t seed;
};

struct search_outcome {
    size_t schedules;
    bool reached; /* the bound: none is better where it is known */
    bool all;     /* every list with every choice was tried: none is better */
};

bool search_run(const struct search_problem *p, const struct search_ask *ask,
                struct search_pick *best, struct search_outcome *out, struct fault *f);
/* Of two scores the one that is lower in the first number in which they differ: below 0
 * when that is a, 0 when all are alike. */
int search_compare(const double *a, const double *b, size_t count, double alike);

#endif

#include "work/project.h"

#include <assert.h>
#include <stdlib.h>

#include "base/fault.h"
#include "work/project_bound.h"
#include "work/project_exact.h"
#include "work/project_improve.h"

/* Sums of time windows, in activities looked at: a tenth of a second or so. */
enum { BOUND_WORK = 50000000 };

static bool is_found(const struct project_schedule *s) { return s->late == 0; }

static bool prove(const struct project_net *n, const struct project_ask *ask,
                  struct project_schedule *best, struct project_answer *out,
                  bool *possible, struct fault *f)
{
    struct project_exact_result r;
    if (!project_exact(n, ask->steps, out->bounds.best, best, &r, f))
        return false;
    out->steps = r.steps;
    if (r.complete && is_found(best))
        out->bounds.best = best->finish;
    *possible = !r.complete || is_found(best);
    return true;
}

static bool solve(const struct project_net *n, const struct project_ask *ask,
                  struct project_answer *out, struct fault *f)
{
    bool possible;
    struct project_schedule best = { .starts = out->starts };
    if (!project_bound(n, BOUND_WORK, &out->bounds, &possible, f) ||
        !project_improve(n, ask->schedules, ask->seed, out->bounds.best, &best,
                         &out->schedules, f))
        return false;
    bool open = possible && (!is_found(&best) || best.finish > out->bounds.best);
    if (open && ask->steps > 0 && !prove(n, ask, &best, out, &possible, f))
        return false;
    out->finish = best.finish;
    out->state = !possible ? PROJECT_IMPOSSIBLE : is_found(&best) ? PROJECT_FOUND
                                                                  : PROJECT_NOT_FOUND;
    out->optimal = out->state == PROJECT_FOUND && out->finish == out->bounds.best;
    assert(out->state != PROJECT_FOUND || out->finish >= out->bounds.best);
    assert(out->state != PROJECT_FOUND || project_check(n->project, out->starts, NULL));
    return true;
}

bool project_solve(const struct project *p, const struct project_ask *ask,
                   struct project_answer *out, struct fault *f)
{
    *out = (struct project_answer){ 0 };
    struct project_net *n = project_net_new(p, f);
    if (!n)
        return false;
    out->starts = calloc(n->count + 1, sizeof *out->starts);
    bool good = out->starts ? solve(n, ask, out, f) : fault_no_memory(f);
    project_net_free(n);
    if (!good)
        project_answer_free(out);
    return good;
}

void project_answer_free(struct project_answer *a)
{
    free(a->starts);
    *a = (struct project_answer){ 0 };
}

/* A whole run of a plan without a map: what a property looked like before it was mapped
 * (tests/bench/plain). */
#include "whole_runs.h"

enum { MOST_TIMES = 15 };

int main(int count, char **words)
{
    char plan[] = "tests/bench/plain/plan.rx";
    if (count != 2) {
        fputs("usage: bench_start PATH_OF_SPINNEY\n", stderr);
        return 64;
    }
    return whole_runs(words[1], plan, "a plan without a map", MOST_TIMES);
}

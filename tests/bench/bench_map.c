/* A whole run of a mapped plan, the demo: the libraries of maps, its layouts and all. */
#include "whole_runs.h"

enum { MOST_TIMES = 80 };

int main(int count, char **words)
{
    char plan[] = "examples/quill-creek/plan.rx";
    if (count != 2) {
        fputs("usage: bench_map PATH_OF_SPINNEY\n", stderr);
        return 64;
    }
    return whole_runs(words[1], plan, "Quill Creek, mapped", MOST_TIMES);
}

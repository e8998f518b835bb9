#include "lang/builtin.h"

#include <string.h>

const struct builtin *builtin_find(const char *name)
{
    size_t low = 0, high = builtin_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        int order = strcmp(name, builtin_list[middle].name);
        if (order == 0)
            return &builtin_list[middle];
        if (order < 0)
            high = middle;
        else
            low = middle + 1;
    }
    return NULL;
}

const struct builtin *builtin_at(size_t index)
{
    return index < builtin_count ? &builtin_list[index] : NULL;
}

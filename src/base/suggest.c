#include "base/suggest.h"

#include <stdbool.h>
#include <string.h>

/* Longer names are not typed by hand: nothing is suggested for them. */
enum { NAME_MOST = 64 };

struct suggest suggest_for(const char *word, size_t length)
{
    return (struct suggest){ .word = word, .length = length, .best = NULL };
}

static char fold(char c)
{
    if (c >= 'A' && c <= 'Z')
        return (char)(c - 'A' + 'a');
    return c == '-' || c == '_' ? ' ' : c;
}

/* Edits from a to b: letters put in, left out, changed, or swapped with a neighbour. */
static size_t edits(const char *a, size_t a_length, const char *b, size_t b_length)
{
    size_t rows[3][NAME_MOST + 1];
    size_t *before = rows[0], *above = rows[1], *row = rows[2];
    for (size_t j = 0; j <= b_length; j++)
        above[j] = j;
    for (size_t i = 1; i <= a_length; i++) {
        row[0] = i;
        for (size_t j = 1; j <= b_length; j++) {
            bool same = fold(a[i - 1]) == fold(b[j - 1]);
            size_t least = above[j - 1] + (same ? 0 : 1);
            if (above[j] + 1 < least)
                least = above[j] + 1;
            if (row[j - 1] + 1 < least)
                least = row[j - 1] + 1;
            bool swapped = i > 1 && j > 1 && fold(a[i - 1]) == fold(b[j - 2]) &&
                           fold(a[i - 2]) == fold(b[j - 1]);
            if (swapped && before[j - 2] + 1 < least)
                least = before[j - 2] + 1;
            row[j] = least;
        }
        size_t *spare = before;
        before = above;
        above = row;
        row = spare;
    }
    return above[b_length];
}

void suggest_offer(struct suggest *s, const char *name)
{
    size_t length = strlen(name), most = (s->length + 2) / 3;
    if (s->length < 3 || s->length > NAME_MOST || length > NAME_MOST || length == 0)
        return;
    size_t apart = length > s->length ? length - s->length : s->length - length;
    if (apart > most)
        return;
    size_t distance = edits(s->word, s->length, name, length);
    if (distance > most)
        return;
    bool nearer = !s->best || distance < s->distance;
    if (nearer || (distance == s->distance && strcmp(name, s->best) < 0)) {
        s->best = name;
        s->distance = distance;
    }
}

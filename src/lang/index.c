#include "lang/index.h"

#include <string.h>

bool index_of(struct script *s, const struct sources *all, struct index *t)
{
    t->text = source_text(all, s->source, &t->length);
    t->source = s->source;
    if (!script_index(s, t->text, t->length))
        return false;
    t->list = s->tokens;
    t->count = s->tokens_count;
    return true;
}

struct span index_span(const struct index *t, size_t first, size_t last)
{
    const struct token *a = &t->list[first], *b = &t->list[last];
    return (struct span){ t->source, a->at, b->at + b->length - a->at };
}

bool index_is_text(const struct index *t, size_t i, const char *text)
{
    return i < t->count && t->list[i].length == strlen(text) &&
           memcmp(t->text + t->list[i].at, text, t->list[i].length) == 0;
}

bool index_is_sign(const struct index *t, size_t i, char c)
{
    return i < t->count && t->list[i].kind == TOKEN_SYMBOL &&
           t->list[i].symbol == SYMBOL1(c);
}

bool index_is_kind(const struct index *t, size_t i, enum token_kind kind)
{
    return i < t->count && t->list[i].kind == kind;
}

/* The first token at or after a line. */
size_t index_line(const struct index *t, uint32_t line)
{
    size_t low = 0, high = t->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (t->list[middle].line < line)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

size_t index_token(const struct index *t, struct span at)
{
    size_t low = 0, high = t->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (t->list[middle].at < at.at)
            low = middle + 1;
        else
            high = middle;
    }
    return low < t->count && t->list[low].at == at.at ? low : t->count;
}

int index_nesting(const struct index *t, size_t i)
{
    if (t->list[i].kind == TOKEN_KEYWORD) {
        switch (t->list[i].keyword) {
        case KEYWORD_FUNCTION:
        case KEYWORD_IF:
        case KEYWORD_DO:
        case KEYWORD_REPEAT: return 1;
        case KEYWORD_END:
        case KEYWORD_UNTIL: return -1;
        default: return 0;
        }
    }
    if (index_is_sign(t, i, '{') || index_is_sign(t, i, '(') || index_is_sign(t, i, '['))
        return 1;
    return index_is_sign(t, i, '}') || index_is_sign(t, i, ')') ||
                   index_is_sign(t, i, ']')
               ? -1
               : 0;
}

#include "lang/script_inner.h"

#include <string.h>

#include "base/grow.h"

void script_free(struct script *s)
{
    if (!s)
        return;
    free(s->text);
    free(s->literals);
    free(s->tokens);
    free(s);
}

uint32_t script_source(const struct script *s)
{
    return s->source;
}

const char *script_text(const struct script *s, size_t *length)
{
    *length = s->text_length;
    return s->text;
}

size_t script_start(const char *text, size_t length, size_t *loaded)
{
    size_t at = length >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;
    if (at < length && text[at] == '#')
        while (at < length && newline_size(text, length, at) == 0)
            at++;
    else
        length = at; /* no newline to pass */
    *loaded = at;
    return at + newline_size(text, length, at);
}

const char *script_lua(const struct script *s, size_t *length)
{
    *length = s->text_length - s->loaded;
    return s->text + s->loaded;
}

size_t script_literals(const struct script *s)
{
    return s->literals_count;
}

const struct literal *script_literal(const struct script *s, size_t i)
{
    return i < s->literals_count ? &s->literals[i] : NULL;
}

const struct literal *script_literal_at(const struct script *s, uint32_t at)
{
    size_t low = 0, high = s->literals_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        uint32_t here = s->literals[middle].at.at;
        if (here == at)
            return &s->literals[middle];
        if (here < at)
            low = middle + 1;
        else
            high = middle;
    }
    return NULL;
}

bool script_index(struct script *s, const char *text, size_t length)
{
    if (s->indexed)
        return true;
    size_t next = 0;
    struct reader r = reader_at(text, length, s->start, s->start > s->loaded ? 2 : 1);
    s->tokens_count = 0;
    for (;;) {
        struct token t = token_read(&r);
        if (t.kind == TOKEN_END)
            break;
        if (next < s->literals_count && s->literals[next].at.at == t.at) {
            t.kind = TOKEN_LITERAL;
            t.keyword = KEYWORD_NONE;
            t.length = s->literals[next++].at.length;
            r.at = t.at + t.length;
        }
        struct token *tokens =
            grow(s->tokens, &s->tokens_room, s->tokens_count, sizeof *tokens);
        if (!tokens)
            return false;
        s->tokens = tokens;
        tokens[s->tokens_count++] = t;
    }
    s->indexed = true;
    return true;
}

bool script_may_loop(struct script *s, const struct sources *all)
{
    size_t length;
    const char *text = source_text(all, s->source, &length);
    if (!script_index(s, text, length))
        return true;
    for (size_t i = 0; i < s->tokens_count; i++) {
        switch (s->tokens[i].kind == TOKEN_KEYWORD ? s->tokens[i].keyword : KEYWORD_NONE) {
        case KEYWORD_FOR:
        case KEYWORD_FUNCTION:
        case KEYWORD_GOTO:
        case KEYWORD_REPEAT:
        case KEYWORD_WHILE: return true;
        default: break;
        }
    }
    return false;
}

/* Finds the places of calls, of keys and of their values in a text. */
#include <string.h>

#include "base/fault.h"
#include "lang/index.h"

static bool is_called(const struct index *t, size_t i)
{
    return index_is_sign(t, i + 1, '(') || index_is_sign(t, i + 1, '{') ||
           index_is_kind(t, i + 1, TOKEN_STRING);
}

static bool is_named(const struct index *t, size_t i, const char *name, bool called)
{
    return index_is_kind(t, i, TOKEN_NAME) && index_is_text(t, i, name) &&
           (!called || is_called(t, i));
}

/* The name on the line, else on the nearest line; `count` for none. */
static size_t nearest(const struct index *t, uint32_t line, const char *name, bool called,
                      bool elsewhere)
{
    size_t start = index_line(t, line), i = start;
    for (; i < t->count && t->list[i].line == line; i++)
        if (is_named(t, i, name, called))
            return i;
    size_t before = start, after = i;
    while (elsewhere && (before > 0 || after < t->count)) {
        bool back = after == t->count || (before > 0 && line - t->list[before - 1].line <=
                                                            t->list[after].line - line);
        i = back ? --before : after++;
        if (is_named(t, i, name, called))
            return i;
    }
    return t->count;
}

/* The name whose call is given a string that ends on the line: in a list Lua tells that
 * line of the call. `count` for none. */
static size_t before_string(const struct index *t, uint32_t line, const char *name)
{
    size_t i = index_line(t, line);
    if (i == 0 || !index_is_kind(t, i - 1, TOKEN_STRING))
        return t->count;
    const struct token *text = &t->list[--i];
    uint32_t last = text->line;
    for (size_t k = text->at; k < text->at + text->length; k++) {
        size_t newline = newline_size(t->text, t->length, k);
        last += newline > 0;
        k += newline > 1;
    }
    i -= i > 0 && index_is_sign(t, i - 1, '(');
    return last == line && i > 0 && is_named(t, i - 1, name, false) ? i - 1 : t->count;
}

struct span script_call_at(struct script *s, const struct sources *all, uint32_t line,
                           const char *name)
{
    struct index t;
    if (!index_of(s, all, &t))
        return SPAN_NONE;
    size_t i = nearest(&t, line, name, true, false);
    if (i == t.count)
        i = before_string(&t, line, name);
    if (i == t.count)
        i = nearest(&t, line, name, false, false);
    if (i == t.count)
        i = nearest(&t, line, name, true, true);
    return i < t.count ? index_span(&t, i, i) : SPAN_NONE;
}

/* The `{` of the table given to the call at i, that is the value of the key at i, or i. */
static size_t table_of(const struct index *t, size_t i)
{
    size_t depth = 0;
    if (index_is_sign(t, i, '{'))
        return i;
    for (i++; i < t->count; i++) {
        if (index_is_sign(t, i, '{'))
            return i;
        if (index_is_sign(t, i, '('))
            depth++;
        else if (index_is_sign(t, i, ')') && depth > 0)
            depth--;
        else if (depth == 0 && !index_is_kind(t, i, TOKEN_STRING) &&
                 !index_is_sign(t, i, '=') &&
                 !index_is_sign(t, i, ']')) /* of a key in brackets */
            break;
    }
    return t->count;
}

/* Is the quoted string at i this word, as written without escapes? */
static bool is_quoted(const struct index *t, size_t i, const char *word)
{
    size_t length = strlen(word);
    return index_is_kind(t, i, TOKEN_STRING) && t->list[i].length == length + 2 &&
           t->text[t->list[i].at] != '[' &&
           memcmp(t->text + t->list[i].at + 1, word, length) == 0;
}

/* The token behind which the next key or entry of a table begins, from *i on; false when
 * the table, whose nesting is counted in *depth, ends before it. */
static bool next_start(const struct index *t, size_t *i, int *depth)
{
    for (; *i < t->count; ++*i) {
        bool starts = index_is_sign(t, *i, '{') || index_is_sign(t, *i, ',') ||
                      index_is_sign(t, *i, ';');
        *depth += index_nesting(t, *i);
        if (*depth == 0)
            return false;
        if (*depth == 1 && starts)
            return true;
    }
    return false;
}

/* The key, and the first token of its value; false when the table has no such key. */
static bool find_key(const struct index *t, struct span call, const char *key, size_t *at,
                     size_t *value)
{
    size_t i = table_of(t, index_token(t, call));
    int depth = 0;
    for (; next_start(t, &i, &depth); i++) {
        bool named =
            index_is_kind(t, i + 1, TOKEN_NAME) || index_is_kind(t, i + 1, TOKEN_KEYWORD);
        *at = named ? i + 1 : i + 2;
        *value = named ? i + 3 : i + 5;
        if (*value >= t->count)
            return false;
        if (named && index_is_text(t, *at, key) && index_is_sign(t, *at + 1, '='))
            return true;
        if (index_is_sign(t, i + 1, '[') && is_quoted(t, *at, key) &&
            index_is_sign(t, *at + 1, ']') && index_is_sign(t, *at + 2, '='))
            return true;
    }
    return false;
}

struct span script_key_in_call(struct script *s, const struct sources *all,
                               struct span call, const char *key)
{
    struct index t;
    size_t at, value;
    if (!index_of(s, all, &t) || !find_key(&t, call, key, &at, &value))
        return SPAN_NONE;
    return index_span(&t, at, at);
}

struct span script_entry_in_call(struct script *s, const struct sources *all,
                                 struct span call, uint32_t entry)
{
    struct index t;
    if (!index_of(s, all, &t))
        return SPAN_NONE;
    uint32_t passed = 0;
    int depth = 0;
    for (size_t i = table_of(&t, index_token(&t, call)); next_start(&t, &i, &depth);
         i++) {
        bool named = index_is_sign(&t, i + 1, '[') || index_is_sign(&t, i + 2, '=');
        if (i + 1 >= t.count || index_is_sign(&t, i + 1, '}'))
            return SPAN_NONE;
        if (!named && ++passed == entry)
            return index_span(&t, i + 1, i + 1);
    }
    return SPAN_NONE;
}

struct span script_value_of_key(struct script *s, const struct sources *all,
                                struct span call, const char *key)
{
    struct index t;
    size_t at, value;
    if (!index_of(s, all, &t) || !find_key(&t, call, key, &at, &value))
        return SPAN_NONE;
    int depth = 0;
    size_t last = value;
    for (size_t i = value; i < t.count; i++) {
        bool ends = index_is_sign(&t, i, ',') || index_is_sign(&t, i, ';');
        int change = index_nesting(&t, i);
        if (depth + change < 0 || (depth == 0 && ends))
            break;
        depth += change;
        last = i;
    }
    size_t end = t.list[last].at + t.list[last].length;
    for (size_t i = t.list[value].at; i < end; i++)
        if (newline_size(t.text, t.length, i) > 0)
            return index_span(&t, value, value);
    return index_span(&t, value, last);
}

/* The token of the value of a key; of no key (""), of the one value the call is given. */
static bool find_value(const struct index *t, struct span call, const char *key,
                       size_t *value)
{
    size_t at;
    if (*key)
        return find_key(t, call, key, &at, value);
    *value = index_token(t, call) + 1;
    if (index_is_sign(t, *value, '('))
        ++*value;
    return *value < t->count;
}

struct span script_string_at(struct script *s, const struct sources *all,
                             struct span call, const char *key)
{
    struct index t;
    size_t value;
    if (!index_of(s, all, &t) || !find_value(&t, call, key, &value) ||
        !index_is_kind(&t, value, TOKEN_STRING))
        return SPAN_NONE;
    struct span inside = index_span(&t, value, value);
    uint32_t mark = 1;
    if (t.text[inside.at] == '[') {
        while (t.text[inside.at + mark] == '=')
            mark++;
        mark++;
    }
    inside.length -= 2 * mark;
    inside.at += mark;
    /* Lua leaves out a newline right behind the opening bracket. */
    uint32_t newline = (uint32_t)newline_size(t.text, t.length, inside.at);
    if (mark > 1 && newline <= inside.length) {
        inside.at += newline;
        inside.length -= newline;
    }
    return inside;
}

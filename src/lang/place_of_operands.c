/* Finds an operator on a line, and the operands on both sides of it. */
#include "base/fault.h"
#include "lang/index.h"

struct span script_operator_at(struct script *s, const struct sources *all, uint32_t line,
                               const char *symbol)
{
    struct index t;
    if (!index_of(s, all, &t))
        return SPAN_NONE;
    for (size_t i = index_line(&t, line); i < t.count && t.list[i].line == line; i++)
        if (index_is_kind(&t, i, TOKEN_SYMBOL) && index_is_text(&t, i, symbol))
            return index_span(&t, i, i);
    return SPAN_NONE;
}

static bool is_atom(const struct index *t, size_t i)
{
    if (i >= t->count)
        return false;
    switch (t->list[i].kind) {
    case TOKEN_NAME:
    case TOKEN_NUMBER:
    case TOKEN_STRING:
    case TOKEN_LITERAL: return true;
    default: return false;
    }
}

/* The first token of the operand that ends with token i. */
static size_t operand_start(const struct index *t, size_t i)
{
    for (;;) {
        if (index_nesting(t, i) < 0) {
            int depth = -1;
            while (i > 0 && depth < 0)
                depth += index_nesting(t, --i);
        }
        if (i == 0)
            return i;
        bool field = index_is_sign(t, i - 1, '.') || index_is_sign(t, i - 1, ':');
        bool argument = index_is_sign(t, i, '(') || index_is_sign(t, i, '[') ||
                        index_is_sign(t, i, '{') || index_is_kind(t, i, TOKEN_STRING);
        bool called = index_is_kind(t, i - 1, TOKEN_NAME) ||
                      index_is_kind(t, i - 1, TOKEN_STRING) ||
                      index_is_sign(t, i - 1, ')') || index_is_sign(t, i - 1, ']') ||
                      index_is_sign(t, i - 1, '}');
        if (field && i >= 2)
            i -= 2;
        else if (argument && called)
            i--;
        else
            return i;
    }
}

/* The last token of the operand that starts with token i. */
static size_t operand_end(const struct index *t, size_t i)
{
    for (;;) {
        if (index_nesting(t, i) > 0) {
            int depth = 1;
            while (i + 1 < t->count && depth > 0)
                depth += index_nesting(t, ++i);
        }
        bool field = index_is_sign(t, i + 1, '.') || index_is_sign(t, i + 1, ':');
        bool literal =
            index_is_kind(t, i, TOKEN_LITERAL) || index_is_kind(t, i, TOKEN_NUMBER);
        bool argument = index_is_sign(t, i + 1, '(') || index_is_sign(t, i + 1, '[') ||
                        index_is_sign(t, i + 1, '{') ||
                        index_is_kind(t, i + 1, TOKEN_STRING);
        if (literal || i + 1 >= t->count)
            return i;
        if (field && i + 2 < t->count)
            i += 2;
        else if (argument)
            i++;
        else
            return i;
    }
}

bool script_operands(struct script *s, const struct sources *all, struct span symbol,
                     struct span *left, struct span *right)
{
    struct index t;
    *left = *right = SPAN_NONE;
    if (!index_of(s, all, &t))
        return false;
    size_t i = index_token(&t, symbol);
    if (i == 0 || i + 1 >= t.count || !index_is_kind(&t, i, TOKEN_SYMBOL))
        return false;
    if (!is_atom(&t, i - 1) && index_nesting(&t, i - 1) >= 0)
        return false;
    size_t first = i + 1;
    while (first + 1 < t.count &&
           (index_is_sign(&t, first, '-') || index_is_sign(&t, first, '#')))
        first++;
    if (!is_atom(&t, first) && index_nesting(&t, first) <= 0)
        return false;
    *left = index_span(&t, operand_start(&t, i - 1), i - 1);
    *right = index_span(&t, i + 1, operand_end(&t, first));
    return true;
}

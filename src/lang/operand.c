/* What may stand before and behind a literal. It becomes `(__lit[3])`, and Lua would read
 * `y (__lit[3])` as a call of y and `(__lit[3]) (f)` as a call of the literal. */
#include <string.h>

#include "lang/pass.h"

bool is_symbol(const struct token *t, uint16_t symbol)
{
    return t->kind == TOKEN_SYMBOL && t->symbol == symbol;
}

bool is_arithmetic(const struct token *t)
{
    if (t->kind != TOKEN_SYMBOL)
        return false;
    switch (t->symbol) {
    case SYMBOL1('+'):
    case SYMBOL1('-'):
    case SYMBOL1('*'):
    case SYMBOL1('/'):
    case SYMBOL('/', '/'):
    case SYMBOL1('%'):
    case SYMBOL1('^'):
    case SYMBOL('.', '.'):
    case SYMBOL1('&'):
    case SYMBOL1('|'):
    case SYMBOL1('~'):
    case SYMBOL('<', '<'):
    case SYMBOL('>', '>'): return true;
    default: return false;
    }
}

bool ends_operand(const struct token *t)
{
    switch (t->kind) {
    case TOKEN_NAME:
    case TOKEN_NUMBER:
    case TOKEN_STRING:
    case TOKEN_LITERAL: return true;
    case TOKEN_KEYWORD:
        return t->keyword == KEYWORD_NIL || t->keyword == KEYWORD_TRUE ||
               t->keyword == KEYWORD_FALSE || t->keyword == KEYWORD_END;
    case TOKEN_SYMBOL:
        return t->symbol == SYMBOL1(')') || t->symbol == SYMBOL1(']') ||
               t->symbol == SYMBOL1('}') || t->symbol == SYMBOL_DOTS;
    default: return false;
    }
}

/* Most literals stand behind one of these on their line; no need to look further back. No
 * comment and no string can end with one of them here. */
static bool stands_plainly(const struct pass *p, size_t at)
{
    size_t before = at;
    while (before > p->script->start && is_blank(p->text[before - 1]))
        before--;
    return before > p->script->start && p->text[before - 1] != '\0' &&
           strchr("={([,+*/%^<~&|", p->text[before - 1]) != NULL;
}

static bool may_precede(const struct pass *p, const struct token *t)
{
    if (t->kind == TOKEN_SYMBOL) {
        if (t->symbol == SYMBOL1(';'))
            return scope_open(&p->scope) == OPEN_CURLY;
        return !ends_operand(t) && t->symbol != SYMBOL(':', ':') &&
               t->symbol != SYMBOL1('.') && t->symbol != SYMBOL1(':');
    }
    switch (t->keyword) {
    case KEYWORD_AND:
    case KEYWORD_OR:
    case KEYWORD_NOT:
    case KEYWORD_RETURN:
    case KEYWORD_IF:
    case KEYWORD_ELSEIF:
    case KEYWORD_WHILE:
    case KEYWORD_UNTIL:
    case KEYWORD_IN: return true;
    default: return false;
    }
}

static bool is_amount(enum literal_kind kind)
{
    return kind == LITERAL_MEASURE || kind == LITERAL_RANGE;
}

static bool stands_behind(struct pass *p, const struct literal *made, size_t at,
                          size_t end, struct fault *f)
{
    if (stands_plainly(p, at))
        return true;
    if (!pass_look(p))
        return false;
    const struct token *last = &p->scope.before[0];
    if (may_precede(p, last))
        return true;
    const struct literal *other = NULL;
    if (last->kind == TOKEN_LITERAL) {
        if (p->settled[p->settled_count - 1].refused)
            return false;
        other = script_literal_at(p->script, last->at);
    }
    size_t other_end = (size_t)last->at + last->length;
    if (other && skip_blanks(p->text, p->length, other_end) == at) {
        fault_set(f, "literal-place", pass_span(p, at, end),
                  "`%.*s` and `%.*s` stand side by side", QUOTED(p, last->at, other_end),
                  QUOTED(p, at, end));
        if (is_amount(made->kind) && is_amount(other->kind))
            fault_hint(f, "`%.*s + %.*s`, or a comma between them",
                       QUOTED(p, last->at, other_end), QUOTED(p, at, end));
        else
            fault_hint(f, "put a comma between them");
        f->other = pass_span(p, last->at, other_end);
        return false;
    }
    const struct token *name = &p->scope.before[1];
    if (is_symbol(last, SYMBOL1(':')) && name->kind == TOKEN_NAME &&
        scope_open(&p->scope) == OPEN_CURLY) {
        fault_set(f, "literal-place", pass_span(p, last->at, other_end),
                  "`=` stands between a name and its value, not `:`");
        fault_hint(f, "`%.*s = %.*s`", QUOTED(p, name->at, (size_t)name->at + name->length),
                   QUOTED(p, at, end));
        return false;
    }
    fault_set(f, "literal-place", pass_span(p, at, end),
              "nothing joins `%.*s` to what stands before it", QUOTED(p, at, end));
    fault_hint(f, "put a comma or an operator before it, or a name and `=`");
    return false;
}

/* Lua would read any of these on from an operand. */
static bool reads_on(const struct token *t)
{
    return t->kind == TOKEN_STRING || is_symbol(t, SYMBOL1('=')) ||
           is_symbol(t, SYMBOL1('(')) || is_symbol(t, SYMBOL1('.')) ||
           is_symbol(t, SYMBOL1('[')) || is_symbol(t, SYMBOL1(':')) ||
           is_symbol(t, SYMBOL1('{'));
}

bool name_is_lost(const struct pass *p, const struct token *next)
{
    if (scope_in_bracket(&p->scope))
        return true;
    return !reads_on(next) && !is_symbol(next, SYMBOL1(','));
}

static const char *kind_words(enum literal_kind kind)
{
    switch (kind) {
    case LITERAL_MEASURE: return "a measure";
    case LITERAL_RANGE: return "a range";
    case LITERAL_DATE: return "a date";
    case LITERAL_DAY: return "a day of the year";
    case LITERAL_WINDOW: return "a window of the year";
    }
    return "";
}

/* As keys of tables, measures and dates are told apart by which they are, not by what they
 * are worth: nothing is found under 15 ft said a second time. */
static void warn_of_key(struct pass *p, const struct literal *made, size_t at, size_t end)
{
    size_t before = at;
    while (before > p->script->start && is_blank(p->text[before - 1]))
        before--;
    if (before == p->script->start || p->text[before - 1] != '[')
        return;
    struct fault f = { 0 };
    fault_set(&f, "measure-key", pass_span(p, at, end),
              "nothing is found again under `%.*s`: %s is no key of a table",
              QUOTED(p, at, end), kind_words(made->kind));
    if (is_amount(made->kind))
        fault_hint(&f, "[key(%.*s)]", QUOTED(p, at, end));
    else
        fault_hint(&f, "[tostring(%.*s)]", QUOTED(p, at, end));
    faults_add(&p->host->warnings, &f);
}

bool operand_stands(struct pass *p, const struct literal *made, size_t at, size_t end,
                    bool *close, struct fault *f)
{
    *close = false;
    if (!stands_behind(p, made, at, end, f))
        return false;
    bool same_line;
    struct token next = pass_next(p, end, &same_line);
    if (is_symbol(&next, SYMBOL1(']')))
        warn_of_key(p, made, at, end);
    if (!reads_on(&next))
        return true;
    if (!pass_look(p))
        return false;
    size_t next_end = (size_t)next.at + (next.kind == TOKEN_STRING ? 1 : next.length);
    bool in_bracket = scope_in_bracket(&p->scope);
    if (in_bracket && !is_symbol(&next, SYMBOL1('='))) {
        fault_set(f, "comma-missing", pass_span(p, at, end),
                  "a comma is missing after `%.*s`", QUOTED(p, at, end));
        fault_hint(f, "`%.*s,`", QUOTED(p, at, end));
        return false;
    }
    if (!same_line && is_symbol(&next, SYMBOL1('('))) {
        *close = true;
        return true;
    }
    fault_set(f, "literal-runs-on", pass_span(p, at, end),
              "`%.*s` is %s, and `%.*s` cannot follow it", QUOTED(p, at, end),
              kind_words(made->kind), QUOTED(p, next.at, next_end));
    if (in_bracket)
        fault_hint(f, "put a comma or a name before `=`");
    else
        fault_hint(f, "put `;` or a line break where the next statement begins");
    if (same_line)
        f->other = pass_span(p, next.at, next_end);
    return false;
}

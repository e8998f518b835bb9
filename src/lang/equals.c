/* Warns where the text shows a measure compared by == or ~= with a bare number. Lua asks
 * nobody then: the answer is no, always, and without a word.
 *
 * Known to be a measure: a literal, and a name to which the whole text gives a value once
 * only, a literal. */
#include <string.h>

#include "lang/pass.h"

enum { SUSPECTS_MOST = 32 }; /* names looked after; ten warnings are shown */

struct suspect {
    uint32_t name, equals, number; /* token indices of the first such comparison */
    unsigned measures, others, declared, declared_here;
};

struct watch {
    struct pass *p;
    const struct token *tokens;
    size_t count;
    struct suspect list[SUSPECTS_MOST];
    size_t suspects;
};

static const struct token *token_at(const struct watch *w, size_t i)
{
    static const struct token none = { .kind = TOKEN_END };
    return i < w->count ? &w->tokens[i] : &none;
}

static bool is_measure(const struct watch *w, const struct token *t)
{
    if (t->kind != TOKEN_LITERAL)
        return false;
    const struct literal *l = script_literal_at(w->p->script, t->at);
    return l && (l->kind == LITERAL_MEASURE || l->kind == LITERAL_RANGE);
}

static bool same_name(const struct watch *w, const struct token *t, const char *name,
                      size_t length)
{
    return t->length == length && memcmp(w->p->text + t->at, name, length) == 0;
}

static struct suspect *find(struct watch *w, const char *name, size_t length)
{
    for (size_t i = 0; i < w->suspects; i++)
        if (same_name(w, &w->tokens[w->list[i].name], name, length))
            return &w->list[i];
    return NULL;
}

static void warn(struct watch *w, const struct token *side, const struct token *equals,
                 const struct token *number)
{
    struct pass *p = w->p;
    size_t end = (size_t)side->at + side->length;
    size_t number_end = (size_t)number->at + number->length;
    bool same = is_symbol(equals, SYMBOL('=', '='));
    struct fault f = { 0 };
    fault_set(&f, "measure-equals-number", pass_span(p, side->at, end),
              "`%.*s` is a measure and `%.*s` a bare number: %s",
              QUOTED(p, side->at, end), QUOTED(p, number->at, number_end),
              same ? "this `==` never holds" : "this `~=` always holds");
    fault_hint(&f, "a unit behind the number");
    f.other = pass_span(p, number->at, number_end);
    faults_add(&p->host->warnings, &f);
}

/* Is the token at i a whole side of the comparison? `beyond` is its other neighbour. */
static bool is_whole_side(const struct token *beyond)
{
    return !is_arithmetic(beyond) && !is_symbol(beyond, SYMBOL1('.')) &&
           !is_symbol(beyond, SYMBOL1(':')) && !is_symbol(beyond, SYMBOL1('[')) &&
           !is_symbol(beyond, SYMBOL1('(')) && !is_symbol(beyond, SYMBOL1('{')) &&
           !is_symbol(beyond, SYMBOL1('#')) && beyond->kind != TOKEN_STRING;
}

static void look_at(struct watch *w, size_t equals)
{
    if (equals == 0)
        return;
    size_t left = equals - 1, right = equals + 1;
    const struct token *before = left > 0 ? token_at(w, left - 1) : token_at(w, SIZE_MAX);
    bool opened = is_symbol(before, SYMBOL1('(')) || is_symbol(before, SYMBOL1('[')) ||
                  is_symbol(before, SYMBOL1('{'));
    if ((!opened && !is_whole_side(before)) || !is_whole_side(token_at(w, right + 1)))
        return;
    bool number_right = token_at(w, right)->kind == TOKEN_NUMBER;
    if (!number_right && token_at(w, left)->kind != TOKEN_NUMBER)
        return;
    size_t side = number_right ? left : right, number = number_right ? right : left;
    const struct token *t = token_at(w, side);
    if (is_measure(w, t)) {
        warn(w, t, token_at(w, equals), token_at(w, number));
    } else if (t->kind == TOKEN_NAME && w->suspects < SUSPECTS_MOST &&
               !find(w, w->p->text + t->at, t->length)) {
        w->list[w->suspects++] = (struct suspect){ .name = (uint32_t)side,
                                                   .equals = (uint32_t)equals,
                                                   .number = (uint32_t)number };
    }
}

/* What the occurrence of a suspect's name at i does to it. The scope is there. */
static void judge(struct watch *w, struct suspect *s, size_t i, const struct scope *scope)
{
    const struct token *before = i > 0 ? token_at(w, i - 1) : token_at(w, SIZE_MAX);
    if (is_symbol(before, SYMBOL1('.')) || is_symbol(before, SYMBOL1(':')))
        return;
    size_t next = i + 1;
    if (is_symbol(token_at(w, next), SYMBOL1('<')) && before->keyword == KEYWORD_LOCAL)
        next += 3; /* `local w <const> =` */
    bool statement = !scope_in_bracket(scope);
    if (is_symbol(token_at(w, next), SYMBOL1('='))) {
        if (!statement)
            return; /* a key */
        const struct token *behind = token_at(w, next + 2);
        bool measure = is_measure(w, token_at(w, next + 1)) &&
                       !is_symbol(before, SYMBOL1(',')) && !is_arithmetic(behind) &&
                       behind->keyword != KEYWORD_AND && behind->keyword != KEYWORD_OR;
        s->measures += measure;
        s->others += !measure;
        s->declared_here += measure && before->keyword == KEYWORD_LOCAL;
    } else if (before->keyword == KEYWORD_FUNCTION ||
               (statement && is_symbol(token_at(w, next), SYMBOL1(',')))) {
        s->others++;
    }
}

static bool note_declared(void *with, const char *name, size_t length)
{
    struct watch *w = with;
    struct suspect *s = find(w, name, length);
    if (s)
        s->declared++;
    return false; /* the scope need not keep it */
}

static void follow_names(struct watch *w)
{
    struct pass *p = w->p;
    struct scope scope;
    scope_init(&scope, p->text, p->length, p->script->start, note_declared, w);
    scope.settled = p->settled;
    scope.settled_count = p->settled_count;
    for (size_t i = 0; i < w->count; i++) {
        const struct token *t = &w->tokens[i];
        struct suspect *s =
            t->kind == TOKEN_NAME ? find(w, p->text + t->at, t->length) : NULL;
        if (s && scope_to(&scope, t->at))
            judge(w, s, i, &scope);
    }
    scope_to(&scope, p->length);
    scope_clear(&scope);
}

void warn_of_equals(struct pass *p)
{
    struct watch w = { .p = p };
    if (!script_index(p->script, p->text, p->length))
        return;
    w.tokens = p->script->tokens;
    w.count = p->script->tokens_count;
    for (size_t i = 0; i < w.count; i++)
        if (is_symbol(&w.tokens[i], SYMBOL('=', '=')) ||
            is_symbol(&w.tokens[i], SYMBOL('~', '=')))
            look_at(&w, i);
    if (w.suspects == 0)
        return;
    follow_names(&w);
    for (size_t i = 0; i < w.suspects; i++) {
        const struct suspect *s = &w.list[i];
        if (s->measures == 1 && s->others == 0 && s->declared == s->declared_here)
            warn(&w, &w.tokens[s->name], &w.tokens[s->equals], &w.tokens[s->number]);
    }
}

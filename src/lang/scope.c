#include "lang/scope.h"

#include <string.h>

#include "base/grow.h"

enum awaits {
    AWAIT_NOTHING,
    AWAIT_LOCAL_NAMES,
    AWAIT_LOCAL_VALUES,
    AWAIT_FUNCTION_NAME, /* of `local function` */
    AWAIT_PARAMETERS,
    AWAIT_LOOP_NAMES,
    AWAIT_LOOP_VALUES,
    AWAIT_CONDITION /* of `until` */
};

void scope_init(struct scope *s, const char *text, size_t length, size_t start,
                bool (*wanted)(void *, const char *, size_t), void *with)
{
    memset(s, 0, sizeof *s);
    s->reader = reader_at(text, length, start, 1);
    s->wanted = wanted;
    s->with = with;
}

void scope_clear(struct scope *s)
{
    free(s->locals);
    s->locals = NULL;
    s->locals_count = s->locals_room = 0;
}

enum open scope_open(const struct scope *s)
{
    return (enum open)s->frames[s->depth].open;
}

bool scope_in_bracket(const struct scope *s)
{
    return scope_open(s) >= OPEN_ROUND;
}

bool scope_sees(const struct scope *s, const char *name, size_t length)
{
    for (size_t i = s->locals_count; i-- > 0;) {
        const struct scope_local *l = &s->locals[i];
        if (l->seen && l->length == length &&
            memcmp(s->reader.text + l->at, name, length) == 0)
            return true;
    }
    return false;
}

static struct scope_frame *top(struct scope *s)
{
    return &s->frames[s->depth];
}

static void push(struct scope *s, enum open open)
{
    top(s)->operand = true; /* whatever it is, an operand ends with it */
    if (s->depth + 1 == SCOPE_DEEPEST) {
        s->too_deep = true;
        return;
    }
    s->frames[++s->depth] = (struct scope_frame){
        .open = (uint8_t)open,
        .base = (uint32_t)s->locals_count,
        .pending = (uint32_t)s->locals_count,
    };
}

static void pop(struct scope *s)
{
    struct scope_frame *f = top(s);
    if (f->open == OPEN_BLOCK)
        s->locals_count = f->base;
    if (s->depth > 0)
        s->depth--;
}

/* A second one of the same name changes nothing of what is seen. */
static bool is_declared(const struct scope *s, const struct token *t)
{
    for (size_t i = s->frames[s->depth].base; i < s->locals_count; i++)
        if (s->locals[i].length == t->length &&
            memcmp(s->reader.text + s->locals[i].at, s->reader.text + t->at, t->length) ==
                0)
            return true;
    return false;
}

static void declare(struct scope *s, const struct token *t, bool seen)
{
    if (!s->wanted(s->with, s->reader.text + t->at, t->length) || is_declared(s, t))
        return;
    struct scope_local *locals =
        grow(s->locals, &s->locals_room, s->locals_count, sizeof *locals);
    if (!locals) {
        s->no_memory = true;
        return;
    }
    s->locals = locals;
    locals[s->locals_count++] =
        (struct scope_local){ .at = t->at, .length = t->length, .seen = seen };
}

/* The names just declared are seen from here on. */
static void reveal(struct scope *s)
{
    for (size_t i = top(s)->pending; i < s->locals_count; i++)
        s->locals[i].seen = true;
    top(s)->awaits = AWAIT_NOTHING;
}

static void await(struct scope *s, enum awaits what)
{
    struct scope_frame *f = top(s);
    f->awaits = (uint8_t)what;
    f->operand = false;
    if (what == AWAIT_LOCAL_NAMES || what == AWAIT_LOOP_NAMES)
        f->pending = (uint32_t)s->locals_count;
}

static bool symbol_carries_on(struct scope_frame *f, uint16_t symbol)
{
    bool after = f->operand;
    switch (symbol) {
    case SYMBOL1('('):
    case SYMBOL1('{'): return true;
    case SYMBOL1('['): return after;
    case SYMBOL1(')'):
    case SYMBOL1(']'):
    case SYMBOL1('}'):
    case SYMBOL1(';'):
    case SYMBOL1('='):
    case SYMBOL(':', ':'): return false;
    case SYMBOL_DOTS: f->operand = true; return !after;
    case SYMBOL1('#'): return !after;
    case SYMBOL1(','): f->operand = false; return f->awaits == AWAIT_LOCAL_VALUES;
    default: /* an operator, or the point before a field */
        f->operand = false;
        return true;
    }
}

/* Does the expression at hand go on with this token? */
static bool carries_on(struct scope_frame *f, const struct token *t)
{
    bool after = f->operand;
    switch (t->kind) {
    case TOKEN_SYMBOL: return symbol_carries_on(f, t->symbol);
    case TOKEN_STRING: f->operand = true; return true;
    case TOKEN_KEYWORD:
        switch (t->keyword) {
        case KEYWORD_AND:
        case KEYWORD_OR: f->operand = false; return after;
        case KEYWORD_NOT:
        case KEYWORD_FUNCTION: return !after;
        case KEYWORD_NIL:
        case KEYWORD_TRUE:
        case KEYWORD_FALSE: f->operand = true; return !after;
        default: return false;
        }
    default: /* a name, a number, a literal */ f->operand = true; return !after;
    }
}

static bool is_symbol(const struct token *t, uint16_t symbol)
{
    return t->kind == TOKEN_SYMBOL && t->symbol == symbol;
}

/* `local a, b <const> = ...`: true while the list of names takes the token. */
static bool takes_local_name(struct scope *s, const struct token *t)
{
    const struct token *last = &s->before[0];
    bool starts = last->keyword == KEYWORD_LOCAL || is_symbol(last, SYMBOL1(','));
    if (t->kind == TOKEN_NAME && starts)
        declare(s, t, false);
    else if (t->kind == TOKEN_NAME)
        return is_symbol(last, SYMBOL1('<'));
    else if (t->keyword == KEYWORD_FUNCTION && last->keyword == KEYWORD_LOCAL)
        await(s, AWAIT_FUNCTION_NAME);
    else if (is_symbol(t, SYMBOL1('=')))
        await(s, AWAIT_LOCAL_VALUES);
    else
        return is_symbol(t, SYMBOL1(',')) || is_symbol(t, SYMBOL1('<')) ||
               is_symbol(t, SYMBOL1('>'));
    return true;
}

/* What the statement at hand makes of the token; false when it has no special use. */
static bool takes(struct scope *s, const struct token *t)
{
    struct scope_frame *f = top(s);
    switch (f->awaits) {
    case AWAIT_LOCAL_NAMES:
        if (takes_local_name(s, t))
            return true;
        reveal(s);
        return false;
    case AWAIT_LOCAL_VALUES:
        if (!carries_on(f, t))
            reveal(s);
        return false;
    case AWAIT_CONDITION:
        if (!carries_on(f, t))
            pop(s);
        return false;
    case AWAIT_FUNCTION_NAME:
        f->awaits = AWAIT_NOTHING;
        if (t->kind != TOKEN_NAME)
            return false;
        declare(s, t, true);
        push(s, OPEN_BLOCK);
        await(s, AWAIT_PARAMETERS);
        return true;
    case AWAIT_PARAMETERS:
        if (!is_symbol(t, SYMBOL1('(')))
            return t->kind == TOKEN_NAME;
        f->awaits = AWAIT_NOTHING;
        push(s, OPEN_PARAMETERS);
        return true;
    case AWAIT_LOOP_NAMES:
        if (t->kind == TOKEN_NAME)
            declare(s, t, false);
        else if (is_symbol(t, SYMBOL1('=')) || t->keyword == KEYWORD_IN)
            await(s, AWAIT_LOOP_VALUES);
        return t->keyword == KEYWORD_NONE || t->keyword == KEYWORD_IN;
    default: return false;
    }
}

static void close_block(struct scope *s)
{
    if (scope_open(s) == OPEN_BLOCK)
        pop(s);
}

static void open_loop_body(struct scope *s)
{
    struct scope_frame *f = top(s);
    if (f->awaits != AWAIT_LOOP_VALUES) {
        push(s, OPEN_BLOCK);
        return;
    }
    uint32_t base = f->pending;
    reveal(s);
    push(s, OPEN_BLOCK);
    top(s)->base = base;
}

static void take_keyword(struct scope *s, enum keyword k)
{
    switch (k) {
    case KEYWORD_LOCAL: await(s, AWAIT_LOCAL_NAMES); break;
    case KEYWORD_FOR: await(s, AWAIT_LOOP_NAMES); break;
    case KEYWORD_DO: open_loop_body(s); break;
    case KEYWORD_THEN:
    case KEYWORD_REPEAT: push(s, OPEN_BLOCK); break;
    case KEYWORD_ELSE:
        close_block(s);
        push(s, OPEN_BLOCK);
        break;
    case KEYWORD_ELSEIF:
    case KEYWORD_END: close_block(s); break;
    case KEYWORD_FUNCTION:
        push(s, OPEN_BLOCK);
        await(s, AWAIT_PARAMETERS);
        break;
    case KEYWORD_UNTIL:
        if (scope_open(s) == OPEN_BLOCK)
            await(s, AWAIT_CONDITION);
        break;
    default: break;
    }
}

static void take_symbol(struct scope *s, uint16_t symbol)
{
    enum open open = scope_open(s);
    switch (symbol) {
    case SYMBOL1('('): push(s, OPEN_ROUND); break;
    case SYMBOL1('['): push(s, OPEN_SQUARE); break;
    case SYMBOL1('{'): push(s, OPEN_CURLY); break;
    case SYMBOL1(')'):
        if (open == OPEN_ROUND || open == OPEN_PARAMETERS)
            pop(s);
        break;
    case SYMBOL1(']'):
        if (open == OPEN_SQUARE)
            pop(s);
        break;
    case SYMBOL1('}'):
        if (open == OPEN_CURLY)
            pop(s);
        break;
    default: break;
    }
}

static void take(struct scope *s, const struct token *t)
{
    if (!takes(s, t)) {
        if (t->kind == TOKEN_KEYWORD)
            take_keyword(s, (enum keyword)t->keyword);
        else if (t->kind == TOKEN_SYMBOL)
            take_symbol(s, t->symbol);
        else if (t->kind == TOKEN_NAME && scope_open(s) == OPEN_PARAMETERS)
            declare(s, t, true);
    }
    memmove(s->before + 1, s->before, sizeof s->before - sizeof s->before[0]);
    s->before[0] = *t;
}

bool scope_to(struct scope *s, size_t at)
{
    while (!s->too_deep && !s->no_memory) {
        struct reader from = s->reader;
        struct token t = token_read(&s->reader);
        if (t.at >= at || t.kind == TOKEN_END || t.kind == TOKEN_BROKEN) {
            s->reader = from;
            return true;
        }
        while (s->settled_next < s->settled_count &&
               s->settled[s->settled_next].at < t.at)
            s->settled_next++;
        if (s->settled_next < s->settled_count &&
            s->settled[s->settled_next].at == t.at) {
            t.kind = TOKEN_LITERAL;
            t.keyword = KEYWORD_NONE;
            s->reader.at = s->settled[s->settled_next].end;
            t.length = (uint32_t)(s->reader.at - t.at);
        }
        take(s, &t);
    }
    return false;
}

#include "lang/plainer.h"

#include <lua.h>
#include <stdio.h>
#include <string.h>

#include "base/fault.h"
#include "base/suggest.h"
#include "lang/raise.h"
#include "lang/sandbox.h"

/* What Lua says of a value: its type and, when it knows, how the author calls it. */
struct value {
    char type[40], scope[20], name[64];
};

/* Reads "a nil value (global 'x')" or "a nil value" after `start` of the text. */
static bool read_value(const char *text, const char *start, struct value *v)
{
    size_t length = strlen(start);
    *v = (struct value){ .type = "" };
    if (strncmp(text, start, length) != 0)
        return false;
    const char *rest = text + length;
    int got = sscanf(rest, "%39[^ ] value (%19[^'] '%63[^']", v->type, v->scope, v->name);
    size_t scope = strlen(v->scope);
    if (got < 3)
        v->scope[0] = v->name[0] = '\0';
    else if (scope > 0 && v->scope[scope - 1] == ' ')
        v->scope[scope - 1] = '\0';
    bool literal = strcmp(v->name, "integer index") == 0 && strcmp(v->type, "nil") != 0;
    if (strcmp(v->name, "?") == 0 || literal) /* a literal is an item of a list to Lua */
        v->scope[0] = v->name[0] = '\0';
    return got >= 1;
}

static bool is(const char *a, const char *b)
{
    return strcmp(a, b) == 0;
}

static const char *article(const char *type)
{
    return strchr("aeiou", type[0]) ? "an" : "a";
}

/* "a table", "text", "nil": the type as it stands in a sentence. */
static const char *typed(const char *type, char *room, size_t size)
{
    if (is(type, "nil") || is(type, "no"))
        return "nil (nothing)";
    if (is(type, "string"))
        return "text";
    snprintf(room, size, "%s %s", article(type), type);
    return room;
}

void plainer_suggest(lua_State *L, const char *name, bool library, struct fault *f)
{
    struct suggest s = suggest_for(name, strlen(name));
    lua_Debug ar;
    struct span line;
    if (!library && raise_author_frame(L, &ar, &line)) {
        const char *local;
        for (int i = 1; (local = lua_getlocal(L, &ar, i)) != NULL; i++) {
            lua_pop(L, 1);
            if (local[0] != '(' && !is(local, name))
                suggest_offer(&s, local);
        }
        lua_getinfo(L, "f", &ar);
        for (int i = 1; (local = lua_getupvalue(L, -1, i)) != NULL; i++) {
            lua_pop(L, 1);
            if (!is(local, name))
                suggest_offer(&s, local);
        }
        lua_pop(L, 1);
    }
    sandbox_offer(L, library, &s);
    if (s.best && !is(s.best, name))
        fault_hint(f, "did you mean `%s`?", s.best);
}

static void say_call(lua_State *L, const struct value *v, bool authors, struct fault *f)
{
    char room[48];
    bool nil = is(v->type, "nil");
    if (is(v->scope, "for iterator")) {
        fault_set(f, "script-error", SPAN_NONE, "`for ... in` cannot go through %s",
                  typed(v->type, room, sizeof room));
        fault_hint(f, "for i, x in ipairs(list) do, or for k, x in pairs(t) do");
    } else if (nil && is(v->scope, "global")) {
        fault_set(f, "name-unknown", SPAN_NONE, "there is no `%s` here", v->name);
        if (authors)
            plainer_suggest(L, v->name, false, f);
    } else if (nil && (is(v->scope, "method") || is(v->scope, "field"))) {
        fault_set(f, "name-unknown", SPAN_NONE, "there is no `%s` to call here", v->name);
        if (authors)
            plainer_suggest(L, v->name, true, f);
    } else if (v->name[0] != '\0' && !is(v->scope, "constant")) {
        fault_set(f, "script-error", SPAN_NONE, "`%s` is %s, which cannot be called",
                  v->name, typed(v->type, room, sizeof room));
    } else {
        fault_set(f, "script-error", SPAN_NONE, "%s cannot be called like a function",
                  typed(v->type, room, sizeof room));
        fault_hint(f, "put `;` or a line break before the `(` or `{`, or an operator");
    }
}

/* `cannot` ends the sentence for values that are there but of the wrong type. */
static void say_use(lua_State *L, const struct value *v, const char *cannot, bool authors,
                    struct fault *f)
{
    char room[48];
    bool nil = is(v->type, "nil");
    if (nil && is(v->scope, "global")) {
        fault_set(f, "name-unknown", SPAN_NONE, "`%s` is not known here", v->name);
        if (authors)
            plainer_suggest(L, v->name, false, f);
    } else if (is(v->name, "integer index")) {
        fault_set(f, "script-error", SPAN_NONE, "this item of a list is %s, which %s",
                  typed(v->type, room, sizeof room), cannot);
    } else if (v->name[0] != '\0' && !is(v->scope, "constant")) {
        fault_set(f, "script-error", SPAN_NONE, "`%s` is %s, which %s", v->name,
                  typed(v->type, room, sizeof room), cannot);
    } else {
        fault_set(f, "script-error", SPAN_NONE, "%s %s",
                  typed(v->type, room, sizeof room), cannot);
    }
}

/* "attempt to add a 'string' with a 'number'": of texts that are no numbers. */
static bool say_text_arithmetic(const char *text, struct fault *f)
{
    char what[20], a[40], b[40], room[48];
    if (sscanf(text, "attempt to %19s a '%39[^']' with a '%39[^']'", what, a, b) != 3)
        return false;
    fault_set(f, "script-error", SPAN_NONE, "%s is no number to reckon with",
              typed(is(a, "number") ? b : a, room, sizeof room));
    return true;
}

static bool say_compare(const char *text, struct fault *f)
{
    char a[40], b[40], room_a[48], room_b[48];
    if (sscanf(text, "attempt to compare two %39s values", a) == 1)
        strcpy(b, a);
    else if (sscanf(text, "attempt to compare %39s with %39s", a, b) != 2)
        return false;
    fault_set(f, "script-error", SPAN_NONE, "cannot compare %s with %s",
              typed(a, room_a, sizeof room_a), typed(b, room_b, sizeof room_b));
    return true;
}

/* "bad argument #2 to 'insert' (number expected, got measure)". */
static bool say_argument(const char *text, struct fault *f)
{
    static const char *const ordinal[] = { "first", "second", "third", "fourth",
                                           "fifth" };
    char function[64], wanted[120], got[64], which[24], room_wanted[128], room_got[72];
    unsigned n;
    if (sscanf(text, "bad argument #%u to '%63[^']' (%119[^)]", &n, function, wanted) !=
        3)
        return false;
    if (is(function, "?")) /* it was called from C */
        snprintf(function, sizeof function, "this");
    if (n >= 1 && n <= 5)
        snprintf(which, sizeof which, "%s", ordinal[n - 1]);
    else
        snprintf(which, sizeof which, "number %u", n);
    char *expected = strstr(wanted, " expected, got ");
    if (!expected) {
        fault_set(f, "script-error", SPAN_NONE, "`%s`, the %s value: %s", function, which,
                  wanted);
        return true;
    }
    snprintf(got, sizeof got, "%s", expected + strlen(" expected, got "));
    *expected = '\0';
    if (is(got, "no value"))
        fault_set(f, "script-error", SPAN_NONE, "`%s` wants %s as its %s value", function,
                  typed(wanted, room_wanted, sizeof room_wanted), which);
    else
        fault_set(f, "script-error", SPAN_NONE,
                  "`%s` wants %s as its %s value, this is %s", function,
                  typed(wanted, room_wanted, sizeof room_wanted), which,
                  typed(got, room_got, sizeof room_got));
    if (is(got, "measure") && is(wanted, "number"))
        fault_hint(f, "number(m, \"ft\") is the bare number in feet");
    return true;
}

struct words {
    const char *start; /* of what Lua says */
    const char *message, *hint;
};

static const struct words fixed[] = {
    { "bad 'for' initial value", "`for` can only count from a bare number",
      "number(m, \"ft\") is the bare number in feet" },
    { "bad 'for' limit", "`for` can only count to a bare number",
      "number(m, \"ft\") is the bare number in feet" },
    { "bad 'for' step", "`for` can only step by a bare number",
      "number(m, \"ft\") is the bare number in feet" },
    { "'for' step is zero", "`for` with a step of 0 would never end", "" },
    { "attempt to yield across a C-call boundary", "a step cannot pause here",
      "coroutine.yield does not work inside sort, gsub and functions given to the "
      "vocabulary" },
    { "attempt to yield from outside a coroutine", "only a coroutine can pause", "" },
    { "attempt to divide by zero", "a whole number was divided by 0", "" },
    { "attempt to perform 'n%", "a whole number was divided by 0", "" },
    { "number has no integer representation", "a whole number is wanted here",
      "math.floor(x) or math.ceil(x)" },
    { "cannot resume dead coroutine", "this coroutine has come to its end", "" },
    { "table index is nil", "a table keeps nothing under nil (nothing)", "" },
    { "table index is NaN", "a table keeps nothing under 0/0, which is no number", "" },
    { "assertion failed!", "a check in the script (assert) failed",
      "assert(check, \"words\") tells which" },
};

static bool say_fixed(const char *text, struct fault *f)
{
    for (size_t i = 0; i < sizeof fixed / sizeof *fixed; i++) {
        if (strncmp(text, fixed[i].start, strlen(fixed[i].start)) != 0)
            continue;
        fault_set(f, "script-error", SPAN_NONE, "%s", fixed[i].message);
        if (fixed[i].hint[0] != '\0')
            fault_hint(f, "%s", fixed[i].hint);
        return true;
    }
    return false;
}

void plainer(lua_State *L, const char *text, bool authors, struct fault *f)
{
    struct value v;
    if (read_value(text, "attempt to call a ", &v))
        say_call(L, &v, authors, f);
    else if (read_value(text, "attempt to index a ", &v))
        say_use(L, &v, "has no parts to ask for", authors, f);
    else if (read_value(text, "attempt to perform arithmetic on a ", &v))
        say_use(L, &v, "is no number to reckon with", authors, f);
    else if (read_value(text, "attempt to perform bitwise operation on a ", &v))
        say_use(L, &v, "has no bits", authors, f);
    else if (read_value(text, "attempt to concatenate a ", &v))
        say_use(L, &v, "cannot be joined to a text", authors, f);
    else if (read_value(text, "attempt to get length of a ", &v))
        say_use(L, &v, "has no length (#)", authors, f);
    else if (!say_text_arithmetic(text, f) && !say_compare(text, f) &&
             !say_argument(text, f) && !say_fixed(text, f))
        fault_set(f, "script-error", SPAN_NONE, "%s",
                  *text ? text : "the script stopped itself");
}

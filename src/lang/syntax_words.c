/* What the parser stopped at, in plain words, and the mend: one function for each slip. */
#include <stdio.h>
#include <string.h>

#include "lang/syntax_inner.h"

enum { QUOTED_MOST = 40 };

static struct span token_span(const struct syntax *s, size_t i)
{
    return i < s->t.count ? index_span(&s->t, i, i) : s->line;
}

/* The token as a message shows it: long and several-lined ones are cut. */
static const char *quoted(const struct syntax *s, size_t i, char *room, size_t size)
{
    const struct token *t = &s->t.list[i];
    size_t length = t->length;
    for (size_t k = 0; k < t->length; k++)
        if (newline_size(s->t.text, s->t.length, t->at + k) > 0 || k >= QUOTED_MOST) {
            length = k;
            break;
        }
    snprintf(room, size, "%.*s%s", (int)length, s->t.text + t->at,
             length < t->length ? "..." : "");
    return room;
}

/* A token that is an operand by itself: a name, or what stands for a value. */
static bool is_operand(const struct syntax *s, size_t i)
{
    if (i >= s->t.count)
        return false;
    switch (s->t.list[i].kind) {
    case TOKEN_NAME:
    case TOKEN_NUMBER:
    case TOKEN_STRING:
    case TOKEN_LITERAL: return true;
    case TOKEN_KEYWORD:
        return s->t.list[i].keyword == KEYWORD_NIL ||
               s->t.list[i].keyword == KEYWORD_TRUE ||
               s->t.list[i].keyword == KEYWORD_FALSE;
    default: return false;
    }
}

static bool is_keyword(const struct syntax *s, size_t i, enum keyword keyword)
{
    return i < s->t.count && s->t.list[i].kind == TOKEN_KEYWORD &&
           s->t.list[i].keyword == keyword;
}

static bool is_operand_end(const struct syntax *s, size_t i)
{
    return is_operand(s, i) || is_keyword(s, i, KEYWORD_END) ||
           index_is_sign(&s->t, i, '}') || index_is_sign(&s->t, i, ')') ||
           index_is_sign(&s->t, i, ']');
}

static bool is_operand_start(const struct syntax *s, size_t i)
{
    return is_operand(s, i) || is_keyword(s, i, KEYWORD_FUNCTION) ||
           is_keyword(s, i, KEYWORD_NOT) || index_is_sign(&s->t, i, '{') ||
           index_is_sign(&s->t, i, '[');
}

/* A bracket or block that is never closed, told where it begins. */
static bool say_open(const struct syntax *s)
{
    size_t i = syntax_open(s, s->at);
    char room[64];
    if (i == s->t.count)
        return false;
    quoted(s, i, room, sizeof room);
    const char *closes = "end";
    if (strcmp(room, "{") == 0)
        closes = "}";
    else if (strcmp(room, "(") == 0)
        closes = ")";
    else if (strcmp(room, "[") == 0)
        closes = "]";
    else if (strcmp(room, "repeat") == 0)
        closes = "until";
    if (s->at_end)
        fault_set(s->out, "syntax", token_span(s, i), "nothing closes this `%s`", room);
    else
        fault_set(s->out, "syntax", token_span(s, i),
                  "`%s` comes before this `%s` is closed", s->near, room);
    fault_hint(s->out, "`%s` where it ends%s", closes,
               strcmp(room, "if") == 0 ? "; `elseif` is one word" : "");
    return true;
}

/* Two values of a table or call side by side. */
static bool say_comma(const struct syntax *s)
{
    char room[64], more[64];
    size_t open = syntax_open(s, s->at);
    if (s->at == 0 || s->at >= s->t.count || open == s->t.count)
        return false;
    bool table = index_is_sign(&s->t, open, '{');
    if (!table && !index_is_sign(&s->t, open, '('))
        return false;
    size_t before = s->at - 1;
    if (table && index_is_sign(&s->t, s->at, '=') && before > open &&
        index_is_kind(&s->t, before, TOKEN_STRING)) {
        fault_set(s->out, "syntax", token_span(s, before),
                  "a name in quotes stands in `[ ]` before `=`");
        fault_hint(s->out, "[%s] =", quoted(s, before, room, sizeof room));
        return true;
    }
    if (table && index_is_sign(&s->t, s->at, ':') &&
        index_is_kind(&s->t, before, TOKEN_NAME)) {
        fault_set(s->out, "syntax", token_span(s, s->at),
                  "`=` stands between a name and its value, not `:`");
        fault_hint(s->out, "%s =", quoted(s, before, room, sizeof room));
        return true;
    }
    bool statement = !table && index_is_sign(&s->t, s->at + 1, '=');
    if (!is_operand_end(s, before) || !is_operand_start(s, s->at) || statement)
        return false;
    fault_set(s->out, "syntax", token_span(s, s->at), "a comma is missing before `%s`",
              quoted(s, s->at, room, sizeof room));
    if (s->t.list[before].line == s->t.list[s->at].line)
        fault_hint(s->out, "%s, %s", quoted(s, before, more, sizeof more), room);
    else
        fault_hint(s->out,
                   "a comma at the end of the line before, or `%c` when all is said",
                   table ? '}' : ')');
    return true;
}

/* `area: 3 ac`: Lua takes it for a call. */
static bool say_colon(const struct syntax *s)
{
    char room[64];
    if (s->at < 2 || s->at >= s->t.count || !index_is_sign(&s->t, s->at - 1, ':') ||
        !index_is_kind(&s->t, s->at - 2, TOKEN_NAME))
        return false;
    fault_set(s->out, "syntax", token_span(s, s->at - 1),
              "`=` stands between a name and its value, not `:`");
    fault_hint(s->out, "%s =", quoted(s, s->at - 2, room, sizeof room));
    return true;
}

/* "'then' expected near '='". */
static bool say_expected(const struct syntax *s)
{
    char wanted[24];
    if (sscanf(s->words, "'%20[^']' expected near", wanted) != 1)
        return false;
    if (index_is_sign(&s->t, s->at, '=') &&
        (strcmp(wanted, "then") == 0 || strcmp(wanted, "do") == 0)) {
        fault_set(s->out, "syntax", token_span(s, s->at),
                  "one `=` gives a name its value and does not compare");
        fault_hint(s->out, "`==` is equal, `~=` is not equal");
        return true;
    }
    static const char *const closing[] = { "}", ")", "]", "end", "until" };
    for (size_t i = 0; i < sizeof closing / sizeof *closing; i++)
        if (strcmp(wanted, closing[i]) == 0)
            return say_open(s);
    if (strcmp(wanted, "=") == 0)
        return false;
    fault_set(s->out, "syntax", token_span(s, s->at), "`%s` is wanted before `%s`",
              wanted, s->near);
    return true;
}

/* `x += 1`, `go there`, "hello": no statement. */
static bool say_statement(const struct syntax *s)
{
    char name[64], sign[64];
    if (s->t.count == 0 || (s->at >= s->t.count && !s->at_end))
        return false;
    if (s->at < s->t.count)
        quoted(s, s->at, sign, sizeof sign);
    if (s->at > 0 && s->at < s->t.count && index_is_kind(&s->t, s->at - 1, TOKEN_NAME) &&
        index_is_sign(&s->t, s->at + 1, '=') && strlen(sign) == 1 &&
        strchr("+-*/", *sign)) {
        quoted(s, s->at - 1, name, sizeof name);
        fault_set(s->out, "syntax", index_span(&s->t, s->at, s->at + 1),
                  "a name gets a new value with `=` alone");
        fault_hint(s->out, "%s = %s %s ...", name, name, sign);
        return true;
    }
    if (strncmp(s->words, "syntax error", 12) != 0)
        return false;
    if (s->at_end && !index_is_kind(&s->t, s->t.count - 1, TOKEN_NAME)) {
        struct span end = token_span(s, s->t.count - 1);
        fault_set(s->out, "syntax", end, "the text ends in the middle of a sentence");
        return true;
    }
    size_t first = s->at > 0 ? s->at - 1 : s->at;
    fault_set(s->out, "syntax", token_span(s, first), "`%s` alone is no sentence",
              quoted(s, first, name, sizeof name));
    fault_hint(s->out, "name = value, or a word of the vocabulary with its table: "
                       "cut { ... }");
    return true;
}

/* { end = Jan 24 2027 }: one of Lua's own words as a key. */
static bool say_keyword_as_key(const struct syntax *s)
{
    if (s->at == 0 || s->at_end || !index_is_kind(&s->t, s->at, TOKEN_KEYWORD) ||
        !index_is_sign(&s->t, s->at + 1, '='))
        return false;
    if (!index_is_sign(&s->t, s->at - 1, '{') && !index_is_sign(&s->t, s->at - 1, ',') &&
        !index_is_sign(&s->t, s->at - 1, ';'))
        return false;
    enum keyword word = s->t.list[s->at].keyword;
    fault_set(s->out, "syntax", token_span(s, s->at),
              "`%s` is a word of Lua's own: no key is called so", s->near);
    fault_hint(s->out, word == KEYWORD_END || word == KEYWORD_UNTIL
                           ? "a last day is `to` of a crew, `by` of an act"
                           : "`spinney help WORD` lists the keys of a word");
    return true;
}

static bool say_unexpected(const struct syntax *s)
{
    if (strncmp(s->words, "unexpected symbol", 17) != 0)
        return false;
    if (say_keyword_as_key(s))
        return true;
    if (s->at > 0 && s->at <= s->t.count && index_is_sign(&s->t, s->at - 1, '%')) {
        fault_set(
            s->out, "syntax", token_span(s, s->at - 1),
            "`%%` is the remainder of a division, and a number is missing behind it");
        fault_hint(s->out, "a share is written `60 percent`");
        return true;
    }
    if (s->at_end) {
        fault_set(s->out, "syntax", s->line, "the text ends where a value is missing");
        return true;
    }
    bool closes = index_is_sign(&s->t, s->at, '}') || index_is_sign(&s->t, s->at, ')') ||
                  index_is_sign(&s->t, s->at, ']');
    if (closes && syntax_open(s, s->at) == s->t.count) {
        fault_set(s->out, "syntax", token_span(s, s->at), "this `%s` closes nothing",
                  s->near);
        return true;
    }
    if (s->at == 0 || is_operand_end(s, s->at - 1)) {
        fault_set(s->out, "syntax", token_span(s, s->at), "no sentence begins with `%s`",
                  s->near);
        fault_hint(s->out, "name = value, or a word of the vocabulary with its table: "
                           "cut { ... }");
        return true;
    }
    fault_set(s->out, "syntax", token_span(s, s->at), "a value is missing before `%s`",
              s->near);
    return true;
}

/* Strings and long brackets without an end, told where they begin. */
static bool say_unfinished(const struct syntax *s)
{
    bool comment = strstr(s->words, "comment") != NULL;
    size_t i = 0;
    if (strncmp(s->words, "unfinished", 10) != 0)
        return false;
    while (i < s->t.count && s->t.list[i].kind != TOKEN_BROKEN)
        i++;
    if (i == s->t.count)
        return false;
    struct span at = token_span(s, i);
    const char *start = s->t.text + at.at;
    at.length = 1;
    if (*start != '"' && *start != '\'') {
        at.length = comment ? 4 : 2;
        fault_set(s->out, "syntax", at, "nothing closes this %s",
                  comment ? "comment" : "long text");
        fault_hint(s->out, "`]]` where it ends");
        return true;
    }
    if (i > 0 && s->t.list[i - 1].kind == TOKEN_NUMBER &&
        s->t.list[i - 1].at + s->t.list[i - 1].length == at.at) {
        fault_set(s->out, "syntax", at, "`%c` behind a number begins a text", *start);
        fault_hint(s->out, "feet and inches are written `6 ft + 2 in`");
        return true;
    }
    fault_set(s->out, "syntax", at, "this text has no closing `%c` on its line", *start);
    fault_hint(s->out, "texts of several lines stand in `[[` and `]]`");
    return true;
}

/* "invalid escape sequence near '"a\q'": the end of it is the escape. */
static bool say_escape(const struct syntax *s)
{
    size_t length = strlen(s->near);
    if (strncmp(s->words, "invalid escape", 14) != 0 || length < 2)
        return false;
    const char *escape = s->near + length - 2;
    struct span at = s->line;
    for (uint32_t i = 0; i + 2 <= s->line.length; i++)
        if (memcmp(s->t.text + s->line.at + i, escape, 2) == 0) {
            at = (struct span){ s->t.source, s->line.at + i, 2 };
            break;
        }
    fault_set(s->out, "syntax", at, "`%s` means nothing in a text", escape);
    fault_hint(s->out, "`\\\\` for a backslash, or `/` between folders");
    return true;
}

/* What is told about a name, or a line further up. */
static bool say_named(const struct syntax *s)
{
    char name[64];
    unsigned line;
    struct span at = s->line;
    if (sscanf(s->words, "attempt to assign to const variable '%60[^']'", name) == 1) {
        fault_set(s->out, "syntax", at, "`%s` is <const>: its value stays", name);
    } else if (sscanf(s->words, "unknown attribute '%60[^']'", name) == 1) {
        fault_set(s->out, "syntax", at,
                  "<%s> is not known: a local is <const> or <close>", name);
    } else if (sscanf(s->words, "no visible label '%60[^']' for %*s at line %u", name,
                      &line) == 2) {
        fault_set(s->out, "syntax", source_line(s->all, at.source, line),
                  "`goto %s` finds no ::%s:: here", name, name);
    } else if (sscanf(s->words, "break outside%*[^0-9]%u", &line) == 1) {
        fault_set(s->out, "syntax", source_line(s->all, at.source, line),
                  "`break` stands outside any loop");
    } else if (strncmp(s->words, "cannot use '...'", 16) == 0) {
        fault_set(s->out, "syntax", token_span(s, s->at),
                  "`...` stands only in a function that takes `...`");
    } else if (strncmp(s->words, "<eof> expected", 14) == 0) {
        fault_set(s->out, "syntax", token_span(s, s->at), "this `%s` closes nothing",
                  s->near);
    } else {
        return false;
    }
    return true;
}

bool syntax_tell(const struct syntax *s)
{
    return say_unfinished(s) || say_escape(s) || say_named(s) || say_colon(s) ||
           say_comma(s) || syntax_character(s) || (s->at_end && say_open(s)) ||
           say_expected(s) || say_statement(s) || say_unexpected(s) || say_open(s);
}

/* Any bytes as a script: reading its literals must neither crash nor lose a line, and Lua
 * must be able to say something about what was made of it. Places are asked for too. */
#include <stdio.h>
#include <stdlib.h>

#include <lauxlib.h>
#include <lua.h>

#include "base/fault.h"
#include "lang/host.h"
#include "lang/script.h"
#include "lang/tokens.h"
#include "quantity/unit.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static size_t lines(const char *text, size_t length)
{
    size_t count = 0;
    for (size_t at = 0; at < length;) {
        size_t newline = newline_size(text, length, at);
        count += newline > 0;
        at += newline > 0 ? newline : 1;
    }
    return count;
}

static void check(bool holds, const char *what)
{
    if (holds)
        return;
    fprintf(stderr, "%s\n", what);
    abort();
}

static void ask_places(struct script *s, const struct sources *all, const char *text,
                       size_t length)
{
    struct span left, right;
    struct span call = script_call_at(s, all, 1, "x");
    struct span key = script_key_in_call(s, all, call, "a");
    check(key.at + key.length <= length, "a key outside the text");
    struct span entry = script_entry_in_call(s, all, key, 1);
    check(entry.at + entry.length <= length, "an entry outside the text");
    struct span value = script_value_of_key(s, all, call, "a");
    check(value.at + value.length <= length, "a value outside the text");
    struct span inside = script_string_at(s, all, call, "a");
    if (inside.source > 0)
        inside = script_inside_string(s, all, inside, 1, 3);
    check(inside.at + inside.length <= length, "a string outside the text");
    struct span plus = script_operator_at(s, all, 1, "+");
    check(plus.source == 0 || text[plus.at] == '+', "an operator that is none");
    if (script_operands(s, all, plus, &left, &right))
        check(left.at + left.length <= plus.at && right.at > plus.at,
              "operands out of order");
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static struct host host;
    static struct faults faults;
    if (!host.L) {
        host.L = luaL_newstate();
        host.units = units_new();
    }
    host.sources = sources_new();
    host.warnings.count = faults.count = 0;
    uint32_t source = sources_add(host.sources, "fuzz.rx", (const char *)data, size);
    size_t length;
    const char *text = source_text(host.sources, source, &length);
    struct script *script;
    if (literals_read(host.L, &host, source, &script, &faults)) {
        size_t out_length;
        const char *out = script_text(script, &out_length);
        check(lines(out, out_length) == lines(text, length), "lines were lost");
        out = script_lua(script, &out_length);
        luaL_loadbufferx(host.L, out, out_length, "=fuzz", "t");
        ask_places(script, host.sources, text, length);
    } else {
        check(faults.count > 0 && !script, "refused without a word");
    }
    for (size_t i = 0; i < faults.count; i++)
        check(faults.list[i].at.at + faults.list[i].at.length <= length,
              "a fault outside the text");
    lua_settop(host.L, 0);
    script_free(script);
    sources_free(host.sources);
    return 0;
}

/* Characters that word processors, telephones and other languages put into a script. */
#include <string.h>

#include "base/utf8.h"
#include "lang/syntax_inner.h"

static const struct {
    const char *characters, *hint;
} foreign[] = {
    { "\u201C\u201D\u201E\u00AB\u00BB", "plain quotes: \"text\"" },
    { "\u2018\u2019\u201A\u2032\u00B4",
      "plain quotes: \"text\"; feet are written `6 ft`" },
    { "\u2033", "inches are written `2 in`" },
    { "\u2013\u2014\u2212\u2010\u2011", "`-`, or `to` between the ends of a range" },
    { "\u00D7", "`*` multiplies" },
    { "\u00F7", "`/` divides" },
    { "\u00B0", "degrees are written `12 deg`" },
    { "\u00B2", "square units have a 2: `ft2`" },
    { "\u00B3", "cubic units have a 3: `ft3`" },
    { "\u2264", "`<=`" },
    { "\u2265", "`>=`" },
    { "\u2260", "`~=`" },
    { "\u00BC\u00BD\u00BE\u2153\u2154", "a fraction is written as a decimal: 0.5" },
    { "\u00A0\u2007\u2009\u202F\u3000\u200B",
      "it looks like a blank: type a blank there" },
    { "\u2026", "three points, if they are meant: `...`" },
    { "$\u20AC\u00A3\u00A2", "money is written `45 USD`" },
    { "@`?\\", "texts stand in quotes" },
};

static const struct {
    char sign, next;
    const char *hint;
} operators[] = {
    { '!', '=', "`~=` is not equal" },
    { '!', '\0', "`not` turns a condition round" },
    { '&', '&', "`and` joins two conditions" },
    { '|', '|', "`or` joins two conditions" },
};

static const char *hint_for(const char *here, size_t left, const char *shown)
{
    for (size_t i = 0; i < sizeof operators / sizeof *operators; i++) {
        bool next =
            operators[i].next == '\0' || (left > 1 && here[1] == operators[i].next);
        if (here[0] == operators[i].sign && next)
            return operators[i].hint;
    }
    for (size_t i = 0; i < sizeof foreign / sizeof *foreign; i++)
        if (strstr(foreign[i].characters, shown))
            return foreign[i].hint;
    return (unsigned char)here[0] >= 0x80 ? "such a letter can stand only inside quotes"
                                          : NULL;
}

bool syntax_character(const struct syntax *s)
{
    if (s->at >= s->t.count)
        return false;
    uint32_t code;
    size_t at = s->t.list[s->at].at, left = s->t.length - at;
    const char *here = s->t.text + at;
    size_t size = utf8_next(here, left, &code);
    if (code < ' ' || code == 0x7F) {
        fault_set(s->out, "syntax", (struct span){ s->t.source, (uint32_t)at, 1 },
                  "a byte stands here that is no text (number %u)", (unsigned)code);
        fault_hint(s->out, "save the script as plain text, in UTF-8");
        return true;
    }
    char shown[8] = "";
    if (size < sizeof shown)
        memcpy(shown, here, size);
    const char *hint = hint_for(here, left, shown);
    if (!hint)
        return false;
    fault_set(
        s->out, "syntax", (struct span){ s->t.source, (uint32_t)at, (uint32_t)size },
        "`%s` has no meaning here", code == UTF8_BAD || utf8_steers(code) ? "?" : shown);
    fault_hint(s->out, "%s", hint);
    return true;
}

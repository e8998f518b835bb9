--- notice: whom to tell or ask before an act, and how long before.
local host = need "host"
local kinds = need "kinds"
local quantity = need "quantity"
local reference = need "reference"
local run = need "run"

return reference.declare({
    kind = "notice",
    says = "whom to tell or ask before an act; a predecessor in the schedule, not only a warning",
    keys = {
        { "to", kind = "text", needed = true, says = "the office or person", example = "\"county clerk\"" },
        { "lead", kind = "span", needed = true, most = quantity.leaf(20, "yr"), says = "how long before the act it must be filed; of a range the high end",
          example = "14 d" },
        { "expires", kind = "any", says = "how long it holds from the day it is filed: a time (1 yr), or \"end of year\"" },
        { "applies_to", kind = "list", of = "text", needed = true, says = "kinds of act it is for",
          example = "{ \"cut\", \"sale\" }" },
        { "when", kind = "function", says = "function(act): does this act need it? Without it, every act of those kinds does" },
        { "says", kind = "text", says = "what to say or bring" },
        { "ask", kind = "text", says = "whom to ask whether it holds here" },
        { "source", kind = "text", says = "publication, with its status" },
    },
    also = { office = "to", who = "to", whom = "to", days = "lead", ahead = "lead", before = "lead", valid = "expires",
        valid_for = "expires", holds = "expires", acts = "applies_to", kinds = "applies_to", ["for"] = "applies_to",
        note = "says" },
    example = [[notice "cutting notice" { to = "county clerk", lead = 14 d,
  expires = "end of year", applies_to = { "cut", "sale" } }]],
    entry = function(place, name, values)
        local expires = values.expires
        if expires ~= nil and expires ~= "end of year" and
            not (quantity.is(expires) and quantity.fits(expires, "d")) then
            host.fault(place, "expires", "key-kind", ("`expires` wants a time that passes or \"end of year\"; this is %s")
                :format(kinds.describe(expires)),
                type(expires) == "string" and expires:find("year", 1, true) and "expires = \"end of year\"" or "expires = 1 yr")
        end
        need("vocabulary/rule").check_kinds("notice", place, name, values.applies_to)
        return values
    end,
}, run.notices)

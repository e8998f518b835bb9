--- What a stand answers on its stocking.
local answers = need "answers"
local stocking = need "stocking"

local GUIDE = { "guide", kind = "text", says = "\"upland oak\", \"northern hardwood\", \"wood density\", \"red pine\" or \"mixed\"; without it, the one that four fifths of the basal area ask for, else each species by its own" }

return {
    {
        name = "stocking", says = "how full it stands, in percent of the A level of a stocking guide",
        keys = { GUIDE, { "species", kind = "list", of = "species", says = "only the room that these take" } },
        main = "guide",
        example = "s:stocking { guide = \"upland oak\" }",
        call = function(record, values, place) return stocking.percent(answers.trees(record, place), values, place) end,
    },
    {
        name = "stocking_line", says = "what would stand at a line of a stocking guide: more or less of the same trees",
        keys = {
            { "line", kind = "choice", of = { "A", "B", "C" }, default = "B", says = "which line" },
            GUIDE,
            { "as", kind = "choice", of = { "basal area", "trees" }, default = "basal area", says = "what is wanted" },
        },
        main = "line",
        example = "s:stocking_line \"B\"",
        call = function(record, values, place) return stocking.line(answers.trees(record, place), values, place) end,
    },
    {
        name = "stocking_guide", says = "which stocking guide fits it, in words",
        keys = {},
        example = "s:stocking_guide()",
        call = function(record, _, place) return stocking.choose(answers.trees(record, place), nil, place).words end,
    },
}

--- What a stand answers on its ground: how many acres are cut, kept, open.
local host = need "host"
local ledger = need "ledger"
local run = need "run"

local KEYS = {}
for i, row in ipairs(ledger.rows) do KEYS[i] = row[1] end

local function acres_of(record, values, place)
    if not run.settled or not ledger.is_settled() then
        host.raise(place, nil, "act-early", "where the ground goes is settled when the script has ended",
            "ask in a rule, in a report, or with `spinney why`")
    end
    local figures = need("ledger_figures").of(record)
    if values.what then return figures[values.what] end
    local out = {}
    for _, key in ipairs(KEYS) do out[key] = figures[key] end
    return out
end

--- For `spinney why`, which asks for one by its name.
local function example_words()
    local words = {}
    for i, row in ipairs(ledger.rows) do words[i] = ("%s: %s"):format(row[1], row[2]) end
    return table.concat(words, "; ")
end

return {
    { name = "acres_of", main = "what",
      says = "its ground by what is done there, every acre once; all of them add up to its area. " .. example_words(),
      keys = { { "what", kind = "choice", of = KEYS, says = "one of these; without it all, a table" } },
      example = "s:acres_of \"cut\"", call = acres_of },
}

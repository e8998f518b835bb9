--- The words that may be asked of acts. A rule looks at acts of any kind, so what only some kinds
--- have is nothing on the others; but a word that no kind has is a slip of the pen, and a rule with
--- one would never speak.
local M = {}
local host = need "host"
local prelude = need "prelude"

local known -- by word, once one had to be looked up

local function add_all(list)
    for _, row in ipairs(list or {}) do known[row[1]] = true end
end

local function learn()
    known = {}
    add_all(need("acts").keys)
    local answers = need "act_answers"
    for word in pairs(answers.words()) do known[word] = true end
    for _, kind in ipairs(prelude.names()) do
        if prelude.is_act(kind) then
            local declared = prelude.declaration(kind)
            add_all(declared.keys)
            add_all(declared.figures)
            for word in pairs(declared.asked or {}) do known[word] = true end
        end
    end
    for _, word in ipairs({ "cost", "hours", "labor_cost", "materials_cost", "machine_cost", "moving_cost", "contract_cost",
        "stumpage", "partner_hours" }) do known[word] = true end
end

--- Raises a fault where no act of any kind answers to that word.
-- @param set by word, those known beside them
function M.check(word, set)
    if type(word) ~= "string" or set[word] or word:find(", ", 1, true) then return end
    if not known then learn() end
    if known[word] then return end
    local words = {}
    for _, list in ipairs({ known, set }) do
        for one in pairs(list) do words[#words + 1] = one end
    end
    table.sort(words)
    local near = host.suggest(word, words)
    host.raise(nil, nil, "key-unknown", ("an act has no `%s`, whatever its kind"):format(word),
        near and ("did you mean `%s`?"):format(near) or "`spinney help cut` lists what a cut answers")
end

return M

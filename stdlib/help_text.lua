--- How `spinney help` sets its pages: 78 columns, a word and what it means beside it.
local M = {}
local kinds = need "kinds"
local phrases = need "phrases"

local WIDTH = 78

--- Sets text in lines of the page's width.
-- @param first how the first line begins, @param indent how the others do
function M.wrap(text, first, indent)
    local lines, line = {}, first
    local empty = true
    for word in text:gmatch("%S+") do
        if not empty and #line + #word + 1 > WIDTH then
            lines[#lines + 1] = line
            line, empty = indent, true
        end
        line = line .. ((empty or line:sub(-1) == " ") and "" or " ") .. word
        empty = false
    end
    lines[#lines + 1] = line
    return table.concat(lines, "\n")
end

--- A word, and what it means in a column beside it.
function M.row(word, text, column)
    local first = "  " .. word
    local indent = (" "):rep(column)
    if #first + 2 > column then
        return M.wrap(text, first .. "  ", indent)
    end
    return M.wrap(text, first .. (" "):rep(column - #first), indent)
end

local function bare(value)
    if type(value) == "string" then return ("\"%s\""):format(value) end
    if type(value) == "boolean" or type(value) == "number" then return tostring(value) end
    if type(value) ~= "table" then return tostring(value) end
    local parts = {}
    for i, item in ipairs(value) do parts[i] = bare(item) end
    return #parts > 0 and table.concat(parts, ", ") or nil
end

local function kind_words(spec)
    if spec.kind == "choice" then return kinds.quoted(spec.of) end
    if spec.kind == "list" then
        if spec.of == "choice" then return "words, or a list of them" end
        return kinds[spec.of].says .. "; or a list of these"
    end
    if spec.kind == "quantity" and spec.unit then return "a quantity in " .. spec.unit end
    return kinds[spec.kind].says
end

local function bounds_words(spec)
    local parts = {}
    if spec.least then parts[#parts + 1] = "least " .. tostring(spec.least) end
    if spec.most then parts[#parts + 1] = "most " .. tostring(spec.most) end
    local default = spec.default ~= nil and bare(spec.default)
    if default then parts[#parts + 1] = default .. " when nothing is said" end
    return #parts > 0 and " (" .. table.concat(parts, ", ") .. ")" or ""
end

--- Kinds of which the words of a key must say more than the kind can.
local OPEN = { any = true, table = true, ["function"] = true }

--- A key: what it says, what it takes.
function M.key(spec, out)
    out[#out + 1] = M.row(spec[1], (spec.needed and "Needed: " or "") .. phrases.ended(spec.says), 17)
    local bounds = bounds_words(spec)
    if OPEN[spec.kind] and bounds == "" then return end
    out[#out + 1] = M.wrap("takes " .. kind_words(spec) .. bounds, (" "):rep(17), (" "):rep(17))
end

--- A list of { word, text }, the column as wide as the longest word, up to a third.
function M.rows(rows, out)
    local column = 0
    for _, row in ipairs(rows) do column = math.max(column, #row[1] + 4) end
    for _, row in ipairs(rows) do out[#out + 1] = M.row(row[1], row[2], math.min(column, 26)) end
end

--- What a primitive is, in short: its sentence up to where the particulars begin.
function M.in_short(says)
    local head = says:match("^(.-)[;:]")
    return head and #head >= 14 and head or says
end

--- A primitive, from its declaration.
-- @param shared specs that are told elsewhere
function M.primitive(declared, shared)
    local out = { declared.kind, M.wrap(phrases.ended(declared.says), "  ", "  ") }
    local function title(words)
        out[#out + 1] = ""
        out[#out + 1] = words
    end
    if declared.example then
        out[#out + 1] = ""
        for line in declared.example:gmatch("[^\n]+") do out[#out + 1] = "    " .. line end
    end
    local own = {}
    for _, spec in ipairs(declared.keys) do
        if not shared[spec] then own[#own + 1] = spec end
    end
    if #own > 0 then title("keys:") end
    for _, spec in ipairs(own) do M.key(spec, out) end
    if declared.open_keys then title(M.wrap("keys: " .. declared.open_keys .. ".", "", "  ")) end
    if declared.act then out[#out + 1] = "  and the keys of every act: spinney help acts" end
    if declared.more then title(declared.more) end
    if declared.figures and #declared.figures > 0 then
        title("what is figured:")
        M.rows(declared.figures, out)
    end
    if declared.answers and not declared.act then
        title("what a script may ask of it:")
        M.rows(declared.answers, out)
    end
    if declared.hazards then
        title("cautions:")
        for _, words in ipairs(declared.hazards) do out[#out + 1] = M.wrap(words, "  - ", "    ") end
    end
    return out
end

--- A prescription, from what it asks.
function M.prescription(entry)
    local out = { entry.name, M.wrap(phrases.ended(entry.title), "  ", "  ") }
    if entry.says then out[#out + 1] = M.wrap(phrases.ended(entry.says), "  ", "  ") end
    local asks = {}
    for _, spec in ipairs(entry.declared.keys) do
        if spec.needed then asks[#asks + 1] = ("%s = ..."):format(spec[1]) end
    end
    out[#out + 1] = ""
    out[#out + 1] = ("    apply \"%s\" { %s }"):format(entry.name, table.concat(asks, ", "))
    out[#out + 1] = ""
    out[#out + 1] = "asks:"
    for _, needed in ipairs({ true, false }) do
        for _, spec in ipairs(entry.declared.keys) do
            if (spec.needed == true) == needed then M.key(spec, out) end
        end
    end
    local function list(words, rows, set)
        if #(rows or {}) == 0 then return end
        out[#out + 1] = ""
        out[#out + 1] = words
        for _, row in ipairs(rows) do out[#out + 1] = set(row) end
    end
    list("said where the ground does not suit it:", entry.suits, function(row)
        return M.wrap(row[2], "  - ", "    ")
    end)
    list("what to expect:", entry.expect, function(row)
        return M.row(("year %d"):format(row[1]), row[2], 11)
    end)
    if entry.source then
        out[#out + 1] = ""
        out[#out + 1] = M.wrap("source: " .. entry.source, "", "  ")
    end
    return out
end

return M

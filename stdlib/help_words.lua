--- Pages of `spinney help` on the handbook and on what stands answer, made from the very rows
--- that scripts call.
local M = {}
local text = need "help_text"

--- A function with a table of named values.
local function page(title, row)
    local out = { title, text.wrap(row.says, "  ", "  "), "" }
    for line in row.example:gmatch("[^\n]+") do out[#out + 1] = "    " .. line end
    if row.keys and #row.keys > 0 then
        out[#out + 1] = ""
        out[#out + 1] = "keys:"
        for _, spec in ipairs(row.keys) do text.key(spec, out) end
        if row.main then
            out[#out + 1] = text.wrap(("A value without a name is taken for `%s`."):format(row.main), "  ", "  ")
        end
    end
    for _, line in ipairs({ { "gives: ", row.gives }, { "source: ", row.source } }) do
        if line[2] then
            out[#out + 1] = ""
            out[#out + 1] = text.wrap(line[1] .. line[2], "", "  ")
        end
    end
    return out
end

local function listed(lists, find, out)
    for _, list in ipairs(lists) do
        local rows = {}
        for _, name in ipairs(list[3]) do rows[#rows + 1] = { name, text.in_short(find(name).says) } end
        out[#out + 1] = ""
        out[#out + 1] = list[2] .. ":"
        text.rows(rows, out)
    end
    return out
end

--- `spinney help handbook`.
function M.handbook()
    local handbook = need "handbook"
    local out = { "handbook", text.wrap("The trade's tables and equations, asked one at a time, in any script: "
        .. "handbook.plot_radius { size = 0.1 ac }. `spinney why` and the papers name the publication.", "  ", "  ") }
    listed(handbook.chapters, handbook.row, out)
    out[#out + 1] = ""
    out[#out + 1] = "More on one: spinney help handbook.NAME."
    return out
end

--- What follows the keys of `spinney help stand`.
function M.stand(out)
    local answers = need "answers"
    out[#out + 1] = ""
    out[#out + 1] = "what it answers besides, s:NAME { ... }:"
    listed(answers.topics, answers.row, out)
    out[#out + 1] = ""
    out[#out + 1] = "More on one: spinney help stand:NAME."
    return out
end

--- The page of `handbook.NAME` or `stand:NAME`, or nil.
function M.page(word)
    local name = word:match("^handbook%.(.+)$")
    local row = name and need("handbook").row(name)
    if row then return page("handbook." .. name .. " { ... }", row) end
    name = word:match("^stand:(.+)$")
    row = name and need("answers").row(name)
    return row and page("stand:" .. name .. " { ... }", row) or nil
end

--- All words that have such a page.
function M.names()
    local names = {}
    for _, name in ipairs(need("handbook").names()) do names[#names + 1] = "handbook." .. name end
    for _, name in ipairs(need("answers").names()) do names[#names + 1] = "stand:" .. name end
    return names
end

return M

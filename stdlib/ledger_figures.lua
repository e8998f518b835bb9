--- Where the ground of a stand goes (ledger.lua), as quantities that `why` can explain.
local acts = need "acts"
local ledger = need "ledger"
local quantity = need "quantity"

local M = {}

local function none() return quantity.leaf(0, "ac", "there is none in the plan") end

--- What a claim by numbers takes, as a quantity; less where more was asked than there is.
local function by_number(claim, figure)
    if claim.scale > 1 - 1e-12 then return figure end
    return figure * quantity.leaf(claim.scale * 100, "percent", "what of it is there and not counted elsewhere")
end

--- The terms that a claim adds to its row: shapes, numbers, or both.
local function add_terms(terms, claim)
    if claim.own then
        terms[#terms + 1] = claim.own
        local number = claim.record.taken_number
        if number then terms[#terms + 1] = by_number(claim, number) end
        return
    end
    for _, act in ipairs(claim.elsewhere and {} or claim.list) do
        local figure = act.ground_taken or acts.get(act, "area")
        if figure then terms[#terms + 1] = by_number(claim, figure) end
    end
end

--- The acts of a row, with their shapes where they have some.
local function words_of(claims)
    local names = {}
    for i, claim in ipairs(claims) do
        local record = claim.record
        names[i] = record.map_words and ("%s (%s)"):format(record.id, record.map_words) or record.id
    end
    return #names > 0 and table.concat(names, ", ") or "no act"
end

--- What is left for cuts and other work.
local function left_of(stand, taken)
    if #taken == 0 then return stand.area end
    local sum = quantity.sum(taken)
    local left = stand.area - sum
    local _, most = quantity.ends(sum, "ac")
    if most >= quantity.number(stand.area, "ac") then left = math.max(left, none()) end
    return quantity.name(left, "what is left of " .. stand.name, "its area less kept clumps, openings, trails and buffers")
end

local function part_of(left, share, words)
    if share <= 0 then return none() end
    return quantity.say(share < 1 - 1e-12 and left * quantity.leaf(share * 100, "percent", words) or left, "ac")
end

--- By row; what is taken keeps its doubt, and so does what is left.
function M.of(stand)
    local book = ledger.of(stand)
    if book.figures then return book.figures end
    local figures, taken, rest = {}, {}, book.rows.untouched
    for _, row in ipairs(ledger.rows) do
        local key, terms = row[1], {}
        if ledger.OF_REST[key] then
            rest = rest + book.rows[key]
        else
            for _, claim in ipairs(book.of_row[key]) do add_terms(terms, claim) end
            figures[key] = #terms > 0 and quantity.say(quantity.sum(terms), "ac") or none()
            if #terms > 0 then taken[#taken + 1] = figures[key] end
        end
    end
    local left = left_of(stand, taken)
    for _, key in ipairs({ "cut", "worked", "untouched" }) do
        local share = rest > 0 and book.rows[key] / rest or 0
        figures[key] = part_of(left, share, key == "untouched" and "what no act works on" or words_of(book.of_row[key]))
    end
    for _, row in ipairs(ledger.rows) do
        figures[row[1]] = quantity.name(figures[row[1]], ("%s in %s"):format(row[2], stand.name))
    end
    book.figures = figures
    return figures
end

return M

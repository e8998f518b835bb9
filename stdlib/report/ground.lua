--- "Where the ground goes": the acres of each mapped stand by what is done on them.
local ledger = need "ledger"
local quantity = need "quantity"
local run = need "run"

local M = {}

local HEADS = { kept = "kept", open = "open", trail = "trail", buffer = "buffer", cut = "cut", worked = "worked",
    untouched = "untouched" }

--- Hundredths of an acre of each row, rounded so that they add up to those of the stand: what is
--- nearest to one more is rounded up first.
local function hundredths(stand)
    local area = math.floor(quantity.number(stand.area, "ac") * 100 + 0.5)
    local out, order, left = {}, {}, area
    for i, row in ipairs(ledger.rows) do
        local exact = ledger.of(stand).rows[row[1]] * 100
        out[row[1]] = math.floor(exact)
        left = left - out[row[1]]
        order[i] = { key = row[1], rest = exact - out[row[1]], i = i }
    end
    table.sort(order, function(a, b)
        if a.rest ~= b.rest then return a.rest > b.rest end
        return a.i < b.i
    end)
    for i = 1, math.min(left, #order) do out[order[i].key] = out[order[i].key] + 1 end
    return out, area
end

local function acres(number) return ("%.2f"):format(number / 100) end

--- Writes the table, of rows that are no ground anywhere none; nothing without a mapped stand.
function M.write(d)
    local some, rows, of, whole = {}, {}, {}, {}
    for _, stand in ipairs(run.stands) do
        if stand.shape then of[stand], whole[stand] = hundredths(stand) end
        for _, row in ipairs(stand.shape and ledger.rows or {}) do
            some[row[1]] = some[row[1]] or of[stand][row[1]] > 0
        end
    end
    local columns = { { "stand", wrap = true }, { "acres", align = "number" } }
    for _, row in ipairs(ledger.rows) do
        if some[row[1]] then columns[#columns + 1] = { HEADS[row[1]], align = "number" } end
    end
    for _, stand in ipairs(run.stands) do
        if stand.shape then
            local line = { stand.name, acres(whole[stand]) }
            for _, row in ipairs(ledger.rows) do
                if some[row[1]] then line[#line + 1] = acres(of[stand][row[1]]) end
            end
            rows[#rows + 1] = line
        end
    end
    if #rows == 0 then return end
    d:heading(2, "Where the ground goes")
    d:table { columns = columns, rows = rows }
    d:paragraph { "Acres, each counted once, in this order: kept clumps, openings, trails, buffers in which nothing is done, "
        .. "cuts, other work. `spinney why` tells the shapes they come from: ",
        ("\"%s.acres_of.%s\"."):format(rows[1][1], some.cut and "cut" or "untouched") }
end

return M

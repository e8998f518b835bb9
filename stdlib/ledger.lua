--- Where the ground of each stand goes: every acre is counted once, and all of them add up to
--- the stand. What is more lasting comes first: kept clumps, then openings, trails, buffers in
--- which nothing may be done, cuts, other work; what is left is untouched.
---
--- On the map the rows are shapes, each less those before it (ledger_shapes.lua). What has no
--- shape goes by numbers, and takes at most what is left: a trail through openings is counted
--- beside them, and so are two cuts of parts of a stand, unless the same words say where.
local M = {}
local acts = need "acts"
local quantity = need "quantity"
local run = need "run"

--- Rows in the order in which ground is given out: key, words.
M.rows = {
    { "kept", "kept clumps" }, { "open", "openings" }, { "trail", "trails" },
    { "buffer", "buffers where nothing is done" }, { "cut", "cut over" },
    { "worked", "worked without cutting" }, { "untouched", "untouched" },
}

--- Acres by which the rows of a stand may miss its area: rounding.
M.MISS = 1e-6
--- Acres that are no ground but what rounding leaves.
M.NOTHING = 1e-9

local ROW = { keep = "kept", opening = "open", trail = "trail", buffer = "buffer", cut = "cut", sale = "cut",
    mulch = "worked", burn = "worked", treat = "worked", plant = "worked", seed = "worked", mow = "worked" }
--- These take what no other row has, the others a ground of their own.
M.OF_REST = { cut = true, worked = true }

local function acres(figure) return figure and quantity.number(figure, "ac") or 0 end

local function first_of(record)
    while record.copy_of do record = record.copy_of end
    return record
end

--- The row an act belongs to in a stand; nil: it takes no ground there that is not counted.
local function row_of(act, stand)
    local row = ROW[act.kind]
    if not row or act.stand ~= stand and not (row == "trail" and stand.shape and act.shape) then return nil end
    if row == "kept" or row == "buffer" then return act.ground_taken and row or nil end
    if not acts.counts(act) then return nil end
    -- Work on the ground of another act is counted there.
    if row == "worked" and act.on then return nil end
    if act.kind == "treat" and not act.by_shape and not act.values.area and need("spraying").cut_of(act) then return nil end
    return row
end

--- What acts of a stand ask for, in their order: { row, record, list (its entries that are
--- planned; of work in several years those of the year with most), acres, share (of the act) }.
local function claims_of(stand)
    local list, known = {}, {}
    for _, act in ipairs(run.acts) do
        local row = row_of(act, stand)
        local first = row and first_of(act)
        if row and not known[first] then
            known[first] = { row = row, record = first, years = {} }
            list[#list + 1] = known[first]
        end
        if row then
            local years, year = known[first].years, act.year or 0
            years[year] = years[year] or { list = {}, acres = 0, share = 0 }
            local one = years[year]
            one.list[#one.list + 1] = act
            one.share = one.share + acts.fraction(act)
            one.acres = one.acres + acres(act.ground_taken or acts.get(act, "acres") or acts.get(act, "area"))
            local most = known[first]
            if not most.list or one.acres > most.acres or one == most.of then
                most.of, most.list, most.acres, most.share = one, one.list, one.acres, one.share
            end
        end
    end
    return list
end

local TOLD = { "area", "patches", "strips", "length", "rows" }

local function is_told(values)
    for _, key in ipairs(TOLD) do
        if values[key] then return true end
    end
    return false
end

--- Does a cut or other work go over all of the stand's ground, in all its entries?
local function is_all(claim)
    local values = claim.record.values
    return M.OF_REST[claim.row] and claim.acres > 0 and claim.share > 1 - 1e-9
        and not (values.part or values.map or is_told(values))
end

--- Acres that a claim without a shape asks for. Of cuts and other work a part of the stand is a
--- part of what is left for them; ground that is told in acres is as told.
-- @param book { rest = acres left for cuts and other work, workable =, seen = shares by words }
function M.wanted(claim, book)
    local values = claim.record.values
    if not M.OF_REST[claim.row] or is_told(values) or book.workable <= 0 then return claim.acres end
    local share = claim.acres / book.workable
    local where = values.part and values.part.words
    if where then
        local before = book.seen[where] or 0
        book.seen[where] = math.max(share, before)
        share = math.max(0, share - before)
    end
    return share * book.rest
end

--- One row by numbers. Where more is asked than there is, each act has its part of it.
local function give(book, row)
    local asked, all = 0, false
    for _, claim in ipairs(book.of_row[row]) do
        all = all or claim.all
        asked = asked + M.wanted(claim, book)
    end
    local given = all and book.left or math.min(asked, book.left)
    book.rows[row] = given
    book.left = book.left - given
    for _, claim in ipairs(book.of_row[row]) do claim.scale = asked > 0 and given / asked or 0 end
end

local settled = false -- the schedule has said what is done

--- Can it be asked where the ground goes?
function M.is_settled() return settled end

--- Where the ground of a stand goes, in acres: { rows = { cut = 2.1, ... }, of_row = claims of
--- each row }. Settled once the schedule has said what is not needed or could not be placed.
function M.of(stand)
    if stand.ledger then return stand.ledger end
    local area = acres(stand.area)
    local book = { rows = {}, of_row = {}, left = area, rest = area, seen = {},
        workable = acres(need("ground").workable(stand)) }
    for _, row in ipairs(M.rows) do book.of_row[row[1]] = {} end
    for _, claim in ipairs(claims_of(stand)) do
        claim.all = is_all(claim)
        table.insert(book.of_row[claim.row], claim)
    end
    local give_row = stand.shape and need("ledger_shapes").give or give
    for i = 1, #M.rows - 1 do
        local row = M.rows[i][1]
        if row == "cut" then book.rest = book.left end
        give_row(book, row, stand)
    end
    book.rows.untouched = stand.shape and need("ledger_shapes").untouched(book, stand) or book.left
    for _, row in ipairs(M.rows) do
        if math.abs(book.rows[row[1]]) < M.NOTHING then book.rows[row[1]] = 0 end
    end
    stand.ledger = book
    return book
end

--- Checks that the acres of every stand add up to it: each row is some ground or none, and all
--- of them are the stand. Where they do not, the fault is ours, and is told.
-- @param of what tells where a stand's ground goes: M.of, but for tests of this check
-- @return true when all do
function M.check(stands, of)
    local sound = true
    settled = true
    for _, stand in ipairs(stands) do
        local sum, odd = 0, nil
        for _, row in ipairs(M.rows) do
            local given = (of or M.of)(stand).rows[row[1]] or 0 / 0
            if given ~= given or given < -M.MISS then odd = ("%s: %s ac"):format(row[2], tostring(given)) end
            sum = sum + given
        end
        if odd or math.abs(sum - acres(stand.area)) > M.MISS then
            sound = false
            need("host").fault(stand.place, nil, "ledger", ("the ground of stand \"%s\" does not add up: it has %.6f ac, %s")
                :format(stand.name, acres(stand.area), odd or ("and its parts have %.6f ac"):format(sum)),
                "this is a slip of spinney's own, not of the plan's: please tell whoever keeps it, with the plan")
        end
    end
    return sound
end

return M

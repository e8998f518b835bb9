--- Acts done in several entries, and what follows them entry by entry: the stumps that are
--- treated are those of the same entry's cut.
local M = {}
local acts = need "acts"
local calendar = need "calendar"
local run = need "run"
local spans = need "spans"

--- Days from the end of one entry to the start of the next. Of one time, a tenth less, so that
--- work which took weeks does not push the next entry out of its season.
local function between(every)
    if spans.is_range(every) then return spans.least(every), spans.most(every) end
    return calendar.days(every) * 0.9, nil
end

--- The acts of one that is done in several entries, in several years, or in several years after
--- each entry; the act itself is the first.
local function spread_one(record, list)
    local values = record.values
    local count, years = values.entries or 1, values.in_year or {}
    local before, of_entry = {}, math.max(#years, 1) -- by year: the act of the entry before
    for entry = 1, count do
        for i = 1, of_entry do
            local number = (entry - 1) * of_entry + i
            local one = number == 1 and record or acts.copy(record, number)
            one.entry, one.entries, one.year = entry, count, years[i]
            if before[i] and values.every then
                local least, most = between(values.every)
                one.follows = { { record = before[i], least = least, most = most } }
            end
            before[i] = one
            list[#list + 1] = one
        end
    end
end

--- Several entries, and an act repeated in years, become acts of their own.
function M.spread()
    local list = {}
    for _, record in ipairs(run.acts) do spread_one(record, list) end
    run.acts = list
end

--- The acts of each act that is done in entries, by their entries; asked once for all of them.
function M.by_entry()
    local found = {}
    for _, one in ipairs(run.acts) do
        if (one.entries or 1) > 1 then
            local act = one.copy_of or one
            local own = found[act] or {}
            found[act] = own
            own[one.entry] = own[one.entry] or one
        end
    end
    return found
end

--- The entry of another act that goes with this record, when both have as many; else the
--- act itself.
-- @param found what `by_entry` gave
function M.match(found, record, act)
    if (record.entries or 1) == 1 or record.entries ~= act.entries then return act end
    return found[act] and found[act][record.entry] or act
end

--- As much of another act's figure as goes with this record: its own entry's, all of it when
--- this record is not divided, and of what is done in part the same part.
-- @param figure that of `act`, or nil
function M.share(record, act, figure)
    local part, own = acts.fraction(act), acts.fraction(record)
    if not figure or part == own then return figure end
    if part < 1 then figure = figure / part end
    return own < 1 and figure * own or figure
end

--- A figure of another act by its key, likewise; nil when it has none.
function M.figure(record, act, key) return M.share(record, act, acts.get(act, key)) end

return M

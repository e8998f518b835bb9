--- Hired machines: one is brought once for all that it does while it is there, and the move is
--- paid with the first of it. After the schedule, for when each act is done is known only then.
local M = {}
local acts = need "acts"
local calendar = need "calendar"
local dates = need "dates"
local materials = need "materials"
local rates = need "rates"
local run = need "run"
local sorted = need "sorted"

--- The acts of each machine that have their days, earliest first.
local function acts_of_machines()
    local by_name, names = {}, {}
    for _, record in ipairs(run.acts) do
        local name = record.machine
        if name and record.start and acts.counts(record) then
            if not by_name[name] then
                by_name[name] = {}
                names[#names + 1] = name
            end
            table.insert(by_name[name], { record = record })
        end
    end
    for _, name in ipairs(names) do sorted.least_first(by_name[name], function(one) return one.record.start end) end
    return names, by_name
end

--- What one move of a machine costs: of this one, else of any; nil where no price is told.
local function price_of(name)
    local own = "moving in, " .. name
    return materials.price(run.prices:get(own) and own or "moving in", "USD")
end

--- Finds on which acts each machine is brought: `record.moving` is what it costs there.
function M.settle()
    local names, by_name = acts_of_machines()
    for _, name in ipairs(names) do
        local waits = rates.find("machine waits", "d", by_name[name][1].record.place)
        if not waits then return end
        local first, there_until
        for _, row in ipairs(by_name[name]) do
            local record = row.record
            if not there_until or record.start > calendar.add_days(there_until, math.floor(calendar.days(waits.value))) then
                first, there_until = record, record.finish
                if not acts.is_billed(record) then record.moving = price_of(name) end
            else
                table.insert(record.notes, ("The machine is there already, for \"%s\"."):format(dates.job_words(first)))
                if record.finish > there_until then there_until = record.finish end
            end
        end
    end
end

return M

--- The head of the owner's plan: whose it is, what it comes to, what is not in that, what to heed.
local M = {}
local dates = need "dates"
local phrases = need "phrases"
local plan = need "plan"
local quantity = need "quantity"
local run = need "run"

--- How many jobs are named.
local NAMED = 3

--- Acts that could not be placed, those with the most work first.
local function unplaced()
    local list = {}
    for i, act in ipairs(dates.unplaced()) do
        local hours = act.figures.hours
        list[i] = { act = act, hours = hours and quantity.number(hours.value, "h") or 0 }
    end
    return need("sorted").most_first(list, function(one) return one.hours end)
end

local function sum_of(list, key)
    local terms = {}
    for _, row in ipairs(list) do
        local figure = row.act.figures[key]
        if figure then terms[#terms + 1] = figure.value end
    end
    return #terms > 0 and quantity.sum(terms) or nil
end

--- Which jobs work and cost are without, and what they would take: a plan whose main work has no place
--- looks cheap.
local function left_out(d)
    local list, names = unplaced(), {}
    if #list == 0 then return end
    for i = 1, math.min(#list, NAMED) do names[i] = dates.job_words(list[i].act) end
    if #list > NAMED then names[#names + 1] = ("%d more"):format(#list - NAMED) end
    local line = { ("%s that could not be placed, no part of work and cost: %s."):format(phrases.count(#list, "job"),
        table.concat(names, "; ")) }
    local hours, cost = sum_of(list, "hours"), sum_of(list, "cost")
    if hours or cost then
        line[#line + 1] = (" %s would take "):format(#list == 1 and "It" or "They")
        if hours then line[#line + 1] = hours end
        if hours and cost then line[#line + 1] = " and " end
        if cost then
            line[#line + 1] = cost
            line[#line + 1] = " before travel and contingency"
        end
        line[#line + 1] = "."
    end
    d:definition("left out", line)
end

--- Writes it.
function M.write(d)
    local values = run.property.values
    d:heading(1, run.property.name)
    if values.walked then d:definition("walked", { values.walked }) end
    if plan.starts() ~= run.first_day then
        d:definition("goes on", { plan.starts(), ", the day after the last of what is done" })
    end
    if values.owner then d:definition("for", { values.owner }) end
    if values.region then
        d:definition("region", { values.region .. (values.county and ", " .. values.county or "") })
    end
    if values.goals then d:definition("goals", { table.concat(values.goals, ", ") }) end
    if run.totals.hours then d:definition("work", { run.totals.hours }) end
    if run.totals.hours_done then
        d:definition("done", { run.totals.hours_done, run.totals.hours_left and ", still to come " or "", run.totals.hours_left or "" })
    end
    if run.totals.cost then d:definition("cost", { run.totals.cost }) end
    local unpriced = need("materials").all_unpriced()
    if #unpriced > 0 then d:definition("without", { table.concat(unpriced, "; "), ", which no price is told for" }) end
    left_out(d)
    local chance = need("costs").over_budget()
    if chance then
        d:definition("budget", { values.budget, (" (the chance that the plan costs more: %d in 100)")
            :format(math.floor(chance * 100 + 0.5)) })
    end
    local stops, cautions, notes = plan.counts()
    d:definition("to heed", { ("%s, %s, %s"):format(phrases.count(stops, "stop"), phrases.count(cautions, "caution"),
        phrases.count(notes, "note")) })
    local flags = values.map and #need("stake").flags() or 0
    if flags > 0 then
        d:definition("flags", { ("%d mark%s what is laid out on the ground; spinney run PLAN.rx -o DIR writes them, in a "
            .. "walking order, for paper, receiver and map"):format(flags, flags == 1 and "s" or "") })
    end
    if values.notes then d:paragraph { values.notes } end
end

return M

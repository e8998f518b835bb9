--- After the script: acts get their quantities, limits and dates, and the rules speak.
--- One way, no turning back: ground, quantities, limits, schedule, totals, how sure the dates are, findings.
local M = {}
local acts = need "acts"
local costs = need "costs"
local host = need "host"
local limits = need "limits"
local plan = need "plan"
local quantity = need "quantity"
local rules = need "rules"
local run = need "run"

local LAID_OUT = { opening = true, trail = true, buffer = true, keep = true }

--- The quantities of one act; what goes wrong in them is told with the act it is of.
local function takeoff(record)
    host.within(record.id, record.place, record.declared.takeoff, record)
end

--- Ground taken out of a stand before anything is cut: buffers and kept clumps.
local function settle_ground()
    if run.shaped_parts then need("parts").settle() end
    for _, record in ipairs(run.acts) do
        if record.declared.before_others and record.declared.takeoff then
            takeoff(record)
        end
    end
end

--- Are there openings or trails in a stand that has a shape?
local function has_trails_on_map()
    for _, record in ipairs(run.acts) do
        if (record.kind == "opening" or record.kind == "trail") and record.stand and record.stand.shape then return true end
    end
    return false
end

local function settle_quantities(record)
    if not record.declared.before_others and record.declared.takeoff then
        takeoff(record)
    end
    if run.crews_differ then need("crew_work").apply(record) end
    if record.values.hours then
        acts.set(record, "hours", acts.portion(record, record.values.hours), "hours as stated")
    end
    if record.values.cost then
        acts.set(record, "cost", acts.portion(record, record.values.cost), "cost as stated")
    end
    if record.was then
        need("past").settle(record)
    elseif record.spent then
        need("past").keep_pace(record)
    end
end

--- What acts would take that wait for a visit. What is laid out on the ground is not known
--- until they are planned.
local function settle_waiting()
    for _, row in ipairs(need("triggers").waiting()) do
        local record, figures = row.act, {}
        if not record.values.map and not LAID_OUT[record.kind] then
            settle_quantities(record)
            acts.cost_of_hours(record)
        end
        for _, key in ipairs(record.figure_names) do
            local figure = record.figures[key]
            table.move({ key, figure.words, figure.value }, 1, 3, #figures + 1, figures)
        end
        plan.waiting(record.id, record.title, row.visit.id, row.when or "", figures)
    end
end

--- What an act costs hangs on who does it, which the schedule decides.
local function settle_costs()
    if run.machines then need("machines").settle() end
    for _, record in ipairs(run.acts) do
        local before = #record.figure_names
        acts.cost_of_hours(record)
        if record.values.cost_share then costs.set_share(record) end
        for i = before + 1, #record.figure_names do
            local key = record.figure_names[i]
            plan.figure(record.index, key, record.figures[key].words, record.figures[key].value)
        end
    end
end

--- Does each prescription suit the ground it was put on?
local function test_suits()
    for _, application in ipairs(run.applied) do
        for _, test in ipairs(application.prescription.suits or {}) do
            local ok = host.within("prescription " .. application.name, application.place, test[1],
                application.asked)
            if not ok then
                rules.find({ level = "stop", rule = "suits", place = application.place,
                    stand = application.stand,
                    message = ("%s does not suit %s: %s"):format(application.prescription.title,
                        application.stand and application.stand.name or "this ground", test[2]),
                    ask = "the consultant who planned it",
                    source = application.prescription.source or "the prescription's own test" })
            end
        end
    end
end

--- Total of a figure over the acts that are planned (a fallback counts only when it is done).
-- @param done nil: of all; true: of what is done; false: of what is still to come
local function sum_of(key, done)
    local terms = {}
    for _, record in ipairs(run.acts) do
        local figure = (done == nil or done == (record.was ~= nil)) and record.figures[key]
        -- Alder and brush are cut by the acre: their stems are no trees to be counted.
        if key == "trees_cut" and record.values.how == "brush" then figure = nil end
        if figure and acts.counts(record) then
            terms[#terms + 1] = figure.value
        end
    end
    return #terms > 0 and quantity.sum(terms) or nil
end

local function total(key, words, unit) costs.put(key, words, sum_of(key), unit) end

--- What was worked so far, and what is left: where anything is done.
local function settle_hours()
    total("hours", "total hours", "h")
    local done = sum_of("hours", true)
    if not done then return end
    costs.put("hours_done", "hours of what is done", done, "h")
    costs.put("hours_left", "hours still to come", sum_of("hours", false), "h")
end

local function settle_totals()
    run.totals, run.total_names = {}, {}
    settle_hours()
    costs.settle()
    for _, row in ipairs(need("materials").rows()) do total(row.key, "total " .. row.words, row.unit) end
end

--- The schedule takes acts in the order of the plan: those marked `first` go to the front.
local function put_first()
    local list = {}
    for _, wanted in ipairs({ true, false }) do
        for _, record in ipairs(run.acts) do
            if (record.values.first == true) == wanted then list[#list + 1] = record end
        end
    end
    run.acts = list
end

--- What can only be said when the whole script has been read.
local function finish_script()
    need("prelude").finish()
    need("reference").finish()
    if #run.stands > 0 then need("vocabulary/stand").finish() end
    if #run.features > 0 then need("vocabulary/feature").finish() end
    for _, name in ipairs(host.settings()) do
        if not run.inputs[name] then
            local near = host.suggest(name, run.input_names)
            host.fault(nil, nil, "set-unknown",
                ("--set names \"%s\", and the plan declares no such input"):format(name),
                near and ("did you mean \"%s\"?"):format(near) or #run.input_names == 0 and "inputs are declared with `input`"
                    or "it declares: " .. table.concat(run.input_names, ", "))
        end
    end
end

--- Plans of more acts than this are held to the limits of steps: rules look from one act at
--- another, and the work grows with the square of them.
local WATCHED = 200

--- Runs the whole of it. Faults found on the way are with the host.
-- @param aim "check" lets a script pass that describes no property and nothing that needs one; "write": papers
-- follow; "ask"
function M.run(aim)
    finish_script()
    if aim == "check" and not run.property and #run.stands == 0 and #run.acts == 0 then return end
    if not run.property then
        host.fault(host.main_place(), nil, "property-missing", "the plan has no property",
            "property \"Name\" { region = \"lake-states/michigan\", walked = Oct 14 2026 }")
        return
    end
    if host.fault_count() > 0 then return end
    host.settled()
    run.settled = true
    need("triggers").apply()
    need("entries").spread()
    if #run.acts > WATCHED then host.watch() end
    need("past").apply()
    need("triggers").link()
    settle_ground()
    if run.property.values.map or run.draws then need("drawn").draw() end
    local on_map = has_trails_on_map()
    if on_map then need("layout/design").all() end
    if run.crews_differ then need("crew_work").check() end
    for _, record in ipairs(run.acts) do settle_quantities(record) end
    if on_map then need("layout/check").all() end
    test_suits()
    if host.fault_count() > 0 then return end
    put_first()
    need("plan_fill").fill()
    if host.fault_count() > 0 then return end
    limits.apply()
    need("skills").judge()
    need("order").link()
    plan.schedule()
    need("order").collect()
    if not need("ledger").check(run.stands) then return end
    settle_costs()
    if #run.waiting > 0 then settle_waiting() end
    settle_totals()
    if aim == "write" then need("report").draw_ahead() end
    need("dates").judge()
    need("unasked").judge()
    if run.property.values.map then need("way_in").judge() end
    if run.traverses then need("vocabulary/traverse").tell() end
    rules.speak()
end

return M

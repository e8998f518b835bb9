--- visit: a look at what has grown, and what decides the next step.
local acts = need "acts"
local host = need "host"
local kinds = need "kinds"
local phrases = need "phrases"
local quantity = need "quantity"

--- A trigger: a value with the words, or the act, for what follows.
kinds.trigger = {
    says = "a value and what to do then, such as { 5000 stems/ac, \"call back\" }",
    take = function(value)
        local objects = need "objects"
        if type(value) ~= "table" or objects.record(value) then return nil end
        if not quantity.is(value[1]) then
            return nil, nil, nil, "the value in it is " .. kinds.describe(value[1])
        end
        if type(value[2]) ~= "string" and not objects.record(value[2], "act") then
            return nil, nil, nil, "what to do then is " .. kinds.describe(value[2])
        end
        return { limit = value[1], words = type(value[2]) == "string" and value[2] or nil,
            act = objects.record(value[2], "act") }
    end,
}

return acts.declare({
    kind = "visit", named = "may", quiet = true,
    says = "a visit to see what has grown: what to look for, and what decides the next step",
    keys = {
        { "look_for", kind = "text", needed = true, says = "what to count or look at", example = "\"sprouts per acre\"" },
        { "if_below", kind = "trigger", says = "what follows when less is found: { 5000 stems/ac, \"call back: shade, browsing or ruts\" }" },
        { "if_above", kind = "trigger", says = "what follows when more is found" },
        { "found", kind = "quantity", says = "what was found, once it is known: decides which act of a trigger is planned; "
            .. "a `done` of the visit can say it as well" },
        { "plots", kind = "count", says = "how many small plots to take" },
    },
    also = { if_less = "if_below", if_under = "if_below", if_fewer = "if_below", below = "if_below", if_more = "if_above",
        if_over = "if_above", above = "if_above", count = "look_for", what = "look_for", result = "found" },
    figures = { { "hours", "hours of the visit" } },
    nobody = function() return 1 end,
    example = [[local fell = cut { stand = "Bench aspen", species = "aspen" }
visit { stand = "Bench aspen", after = fell, wait = 1 yr,
  look_for = "sprouts per acre",
  if_below = { 5000 stems/ac, "call back: shade, browsing or ruts" } }]],
    more = [[
by a crew, on its days and in its hours; without one, by nobody of the plan:
  crew "consultant" { people = 1, hours_each = 20 h/wk, rate = 80 USD/h }
  visit { stand = "Bench aspen", look_for = "browsed tips", hours = 3 h,
    crew = "consultant" }

an act in place of the words is planned only when the visit has found that;
until then the plan tells what may come, its hours and its cost:
  visit { stand = "Bench aspen", look_for = "sprouts per acre",
    if_below = { 5000 stems/ac, protect "fence" { stand = "Bench aspen",
      how = "fence", length = 1200 ft } } }
  -- and once the visit has been made:
  done { act = "bench-aspen/visit", on = Aug 20 2027, found = 3200 stems/ac }]],
    title = function(record) return "Visit: " .. (record.values.look_for or "look") end,
    takeoff = function(record)
        local values, notes = record.values, record.notes
        if values.plots then
            notes[#notes + 1] = ("Take %d plots of 1/1000 acre (3.72 ft radius); five stems on one are 5,000 an acre.")
                :format(values.plots)
        end
        local found = record.found or values.found
        if found then notes[#notes + 1] = ("Found: %s."):format(quantity.short(found)) end
        for _, side in ipairs({ { "if_below", "less than" }, { "if_above", "more than" } }) do
            local trigger = values[side[1]]
            if trigger then
                notes[#notes + 1] = ("If %s %s: %s."):format(side[2], quantity.short(trigger.limit),
                    trigger.words or phrases.lower(trigger.act.title))
                if found and not quantity.alike(found, trigger.limit) then
                    host.fault(record.found and record.found_at or record.place, "found", "key-kind",
                        ("`found` is %s, the trigger is told in %s"):format(kinds.describe(found),
                        quantity.unit(trigger.limit)))
                end
            end
        end
    end,
})

--- job: anything else that takes hours, in its weeks, with its dangers.
local acts = need "acts"
local host = need "host"
local quantity = need "quantity"

return acts.declare({
    kind = "job", named = "must",
    says = "anything else: its hours, weeks and dangers are told",
    keys = {
        { "skill", kind = "text", says = "the skill it asks of a crew: \"saw\", \"machine\", ..." },
        { "days", kind = "span", says = "for a job that takes no hours of a crew: how long it takes" },
        { "materials", kind = "money", says = "what its materials cost" },
    },
    figures = { { "hours", "hours as told" }, { "materials_cost", "materials" } },
    skill = function(record) return record.values.skill end,
    example = [[job "clear the old fence" { stand = "Bench aspen", hours = 5 to 8 h,
  hazards = { "Wire under tension." } }]],
    title = function(record) return record.name end,
    takeoff = function(record)
        local values = record.values
        if not values.hours and not values.days then
            host.fault(record.place, nil, "key-missing", "job needs `hours` (of a crew) or `days` (of nobody's)",
                "hours = 5 to 8 h")
            return
        end
        if values.materials then
            acts.set(record, "materials_cost", values.materials * acts.fraction(record), "materials")
        end
    end,
    nobody_when = function(record)
        if record.values.hours or not record.values.days then return nil end
        return math.max(1, math.ceil(quantity.number(record.values.days, "d")))
    end,
})

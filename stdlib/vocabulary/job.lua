--- job: anything else that takes hours, in its weeks, with its dangers.
local acts = need "acts"
local host = need "host"
local kinds = need "kinds"
local objects = need "objects"
local quantity = need "quantity"
local run = need "run"
local work = need "work"
need "vocabulary/rate" -- a kind

--- The name of a rate, the rate itself, or what it is.
kinds.work_rate = {
    says = "a rate by its name, such as \"brush pile\" or \"flagging\", or a measure such as 4 trees/h",
    take = function(value)
        local record = objects.record(value, "rate")
        if record then return record end
        if type(value) == "string" then return { name = value } end
        return quantity.is(value) and value or nil
    end,
}
kinds.amount = {
    says = "how much: 6, 30 trees, 1200 ft, 2.5 ac",
    take = function(value)
        if type(value) == "number" and value >= 0 then return quantity.leaf(value, "h/h") end
        return quantity.is(value) and value or nil
    end,
}

--- The name of a price, or the price.
kinds.work_price = {
    says = "a price by its name, such as \"line survey\", or a measure such as 2 USD/ft",
    take = function(value)
        local record = objects.record(value, "price")
        if record then return record end
        if type(value) == "string" then return { name = value } end
        return quantity.is(value) and value or nil
    end,
}

--- What work costs that is bought by the amount; a fault where that makes no money.
local function set_contract(record)
    local values = record.values
    if not values.amount then
        acts.fault(record, nil, "key-missing", "`price` needs `amount`: how much is bought", "amount = 700 ft")
        return
    end
    local price = values.price
    if not quantity.is(price) then
        local entry = run.prices:find(price.name, record.place, "price")
        if not entry then return end
        price = entry.value
    end
    local amount = acts.set(record, "amount", acts.portion(record, values.amount), "amount of it")
    local cost = amount * price
    if not quantity.fits(cost, "USD") then
        acts.fault(record, "price", "job-price", ("%s at %s makes no sum of money"):format(tostring(amount), tostring(price)),
            "amount = 700 ft, price = 2 USD/ft")
        return
    end
    acts.set(record, "contract_cost", quantity.say(cost, "USD"), "bought by the amount")
end

--- The rate that is meant, as a measure; nil when a fault is told.
local function rate_of(record)
    local values = record.values
    if quantity.is(values.rate) then return values.rate end
    local entry = run.rates:find(values.rate.name, record.place, "rate")
    if not entry then return nil end
    local rate = need "vocabulary/rate"
    local value, missing = rate.pick(entry, values.diameter, values.density)
    if missing then
        host.fault(record.place, "rate", "job-diameter", ("rate \"%s\" goes by %s, and none is told"):format(entry.name, missing),
            rate.told[missing])
    end
    return value
end

--- Hours of an amount by a rate, at the pace that the ground allows.
local function set_hours(record)
    local values = record.values
    if not values.rate or not values.amount then
        host.fault(record.place, nil, "key-missing", values.rate and "`rate` needs `amount`: how much there is to do"
            or "`amount` needs `rate`: how fast it goes", values.rate and "amount = 30 trees" or "rate = \"marking trees\"")
        return
    end
    local rate = rate_of(record)
    if not rate then return end
    local amount = acts.set(record, "amount", acts.portion(record, values.amount), "amount of it")
    acts.set(record, "hours", need("pace").slowed(record, work.hours(amount, rate, record.name)), "hours by the rate")
end

--- A machine is paid by its hours.
local function set_machine(record)
    local name, hours = record.values.machine, acts.get(record, "hours") or record.values.hours
    local entry = name and hours and run.prices:find(name, record.place, "machine")
    if not entry then return end
    if not quantity.fits(entry.value, "USD/h") then
        acts.fault(record, "machine", "job-machine", ("price \"%s\" is %s; a machine is paid by the hour"):format(name,
            kinds.describe(entry.value)), "machine = \"skid-steer\"")
        return
    end
    if record.values.hours then hours = acts.portion(record, hours) end
    record.operator_paid, record.machine, run.machines = true, name, true
    acts.set(record, "machine_cost", quantity.say(hours * entry.value, "USD"), ("%s, by the hour"):format(name))
end

return acts.declare({
    kind = "job", named = "must",
    says = "anything else: its hours, weeks and dangers are told, or how much of it there is and the rate it goes by",
    keys = {
        { "skill", kind = "text", says = "the skill it asks of a crew: \"saw\", \"machine\", ..." },
        { "amount", kind = "amount", says = "how much there is to do: 6 of them, 30 trees, 1200 ft; with `rate`, in place of hours" },
        { "rate", kind = "work_rate", says = "how fast: a rate by name, such as \"brush pile\", \"flagging\", \"marking trees\", or a measure" },
        { "diameter", kind = "diameter", most = quantity.leaf(60, "in"), says = "of the trees, for a rate that goes by diameter" },
        { "density", kind = "rate_density", says = "how dense trees or brush stand, for a rate that goes by it: 4000 stems/ac" },
        { "days", kind = "span", most = quantity.leaf(20, "yr"), says = "for a job that takes no hours of a crew: how long it takes" },
        { "machine", kind = "text", says = "a machine with its operator, paid by the hour: \"skid-steer\", as the price is called" },
        { "price", kind = "work_price", says = "what one of the amount costs where the work is bought: \"line survey\", or 2 USD/ft; with `days`, which are 1 when not told" },
        { "materials", kind = "money", says = "what its materials cost" },
    },
    figures = { { "amount", "how much there is to do, where told" }, { "hours", "hours as told, or by the rate" },
        { "materials_cost", "materials" }, { "machine_cost", "the machine" },
        { "contract_cost", "work bought by the amount" },
        { "moving_cost", "bringing it, with the first of what it does while it is there" } },
    skill = function(record) return record.values.skill end,
    example = [[job "clear the old fence" { stand = "Bench aspen", hours = 5 to 8 h,
  hazards = { "Wire under tension." } }]],
    more = [[
by a rate in place of hours:
  job "brush piles" { stand = "Bench aspen", amount = 6, rate = "brush pile" }
  job "flag the cut" { amount = 1200 ft, rate = "flagging" }
bought by the amount, from others:
  job "survey the line" { amount = 700 ft, price = "line survey", days = 2 d }]],
    title = function(record) return record.name end,
    takeoff = function(record)
        local values = record.values
        if values.price then set_contract(record) end
        if not values.hours and (values.rate or (values.amount and not values.price)) then
            set_hours(record)
        elseif not values.hours and not values.days and not values.price then
            host.fault(record.place, nil, "key-missing", "job needs `hours` (of a crew) or `days` (of nobody's)",
                "hours = 5 to 8 h")
            return
        end
        set_machine(record)
        if values.materials then
            acts.set(record, "materials_cost", acts.portion(record, values.materials), "materials")
        end
    end,
    nobody_when = function(record)
        local values = record.values
        if values.hours or values.rate or not (values.days or values.price) then return nil end
        if values.amount and not values.price then return nil end
        return values.days and math.max(1, math.ceil(quantity.number(values.days, "d"))) or 1
    end,
})

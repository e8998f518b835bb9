--- Hours that a crew has: the same all year, or others in parts of the year and on certain
--- dates; the days it does not work; how fast it is. What the keys of `crew` take, handed to
--- the plan.
local M = {}
local calendar = need "calendar"
local host = need "host"
local kinds = need "kinds"
local objects = need "objects"
local plan = need "plan"
local quantity = need "quantity"
local run = need "run"
need "act_kinds"

--- When a row holds: a window or a season, or dates; nil and words when it says neither.
local function when_of(row, spec, place, key)
    if row.from ~= nil or row.to ~= nil then
        local dates, words = kinds.dates.take({ from = row.from, to = row.to }, spec, place, key)
        return dates, words or "from = Jan 4 2027, to = Jan 24 2027"
    end
    local entry = row.during ~= nil and type(row.during) ~= "string" and kinds.when.take(row.during, spec, place, key)
    if not entry then return nil, "during = Jun 1 to Aug 31, or from = Jan 4 2027, to = Jan 24 2027" end
    return entry.from and { from = entry.from, to = entry.to } or { entry = entry }
end

--- Hours alone, or a list of hours with the times that they are for; kept as a list whose
--- `each` is what holds at other times.
-- @param most hours that one person has in it at all
local function hours_kind(unit, example, most)
    local function not_there(value)
        local hours = quantity.number(value, unit)
        if unit == "h" and hours == 0 then return "0 h, and days without work are told by `off`" end
        if hours <= most then return nil end
        return ("%s, and a %s has %d"):format(tostring(value), unit == "h" and "day" or "week", most)
    end
    local function measure(value) return quantity.is(value) and quantity.fits(value, unit) and not quantity.below_zero(value) end
    local plain = unit == "h/wk" and "hours of work a week, such as 10 h/wk" or "hours of work a day, such as 6 h"
    local form = ("{ %s, { during = season \"dormant\", %s } }"):format(example, example)
    local listed = plain .. ", or a list of them with their times"
    return {
        says = ("hours, such as %s, or a list of them with their times: %s"):format(example, form), unit = unit,
        take = function(value, spec, place, key)
            if quantity.is(value) and quantity.fits(value, unit) then
                local got = not_there(value)
                return not got and value or nil, plain, nil, got and "this is " .. got
            end
            if quantity.is(value) then return nil, plain end
            if type(value) ~= "table" or objects.record(value) then return nil, plain end
            local kept = {}
            for i, row in ipairs(value) do
                local hours = quantity.is(row) and row or type(row) == "table" and row[1]
                local got = quantity.is(hours) and measure(hours) and not_there(hours)
                if got then return nil, listed, nil, ("number %d of the list is %s"):format(i, got) end
                if quantity.is(row) and i == 1 then
                    if not measure(row) then return nil end
                    kept.each = row
                elseif type(row) ~= "table" or objects.record(row) or not measure(row[1]) then
                    return nil, listed, form, ("number %d of the list is %s"):format(i, kinds.describe(row))
                else
                    local when, words = when_of(row, spec, place, key)
                    if not when then
                        if words == kinds.REPORTED then return nil, words end
                        return nil, listed, words, ("number %d of the list does not say when"):format(i)
                    end
                    when.hours = row[1]
                    kept[#kept + 1] = when
                end
            end
            for name in pairs(value) do
                if type(name) ~= "number" then return nil, listed, form, ("there is a `%s` in the list itself"):format(name) end
            end
            if #kept == 0 and not kept.each then return nil, listed, form, "this is an empty table" end
            return kept
        end,
    }
end
kinds.weekly_hours = hours_kind("h/wk", "10 h/wk", 168)
kinds.day_hours = hours_kind("h", "6 h", 24)

--- Days on which nobody comes: a window, a season, a date, or two dates.
kinds.off_days = {
    says = "a window, a season or dates, such as Nov 15 to Mar 31",
    take = function(value, spec, place, key)
        local dates, words, mend = kinds.dates.take(value, spec, place, key)
        if dates or words or mend then return dates, words, mend end
        if type(value) == "string" then return nil, nil, "a window is written as Nov 15 to Mar 31, a season as season \"dormant\"" end
        local entry = kinds.when.take(value, spec, place, key)
        if not entry then return nil end
        local kept = { entry = entry }
        objects.show(kept, entry.window or value)
        return kept
    end,
}

local LEAST, MOST = quantity.leaf(20, "percent"), quantity.leaf(150, "percent")

--- A pace as a measure, or the word of a rate: "owner" for rate "pace, owner".
kinds.crew_pace = {
    says = "a percent of the usual pace, or the word of a rate: 70 percent, \"owner\", \"learning\"", unit = "percent",
    take = function(value, _, place, key)
        if type(value) == "string" then return value end
        if not quantity.is(value) or not quantity.fits(value, "percent") then return nil end
        need("schema").bounds(place, { key, least = LEAST, most = MOST }, value)
        return value
    end,
}

--- Most hours that are told for any time: 10 h/wk of { 4 h/wk, { ..., 10 h/wk } }.
function M.most(value, unit)
    if quantity.is(value) then return quantity.number(value, unit) end
    local most = value.each and quantity.number(value.each, unit) or 0
    for _, row in ipairs(value) do most = math.max(most, quantity.number(row.hours, unit)) end
    return most
end

--- What holds where no row does.
function M.usual(value, unit)
    if quantity.is(value) then return quantity.number(value, unit) end
    return value.each and quantity.number(value.each, unit) or 0
end

local function put_rows(crew, value, unit, week)
    if not value or quantity.is(value) then return end
    for _, row in ipairs(value) do
        local hours = quantity.number(row.hours, unit)
        local first, last = row.from, row.to
        if row.entry then first = need("season_days").days(row.entry) end
        if first then plan.crew_hours(crew.index, week and hours or nil, not week and hours or nil, first, last) end
    end
end

--- A day must be longer than the way there and back.
local function check_road(crew, longest)
    local road, values = M.road(crew), crew.values
    if not road or not road.hours or not longest or quantity.number(road.hours, "h") < longest * values.people then return end
    local key = values.travel and "travel" or "distance"
    host.fault(crew.place, key, "crew-travel", ("`%s` (%s) takes all of their longest day, %g h for each of %d")
        :format(key, tostring(values[key]), longest, values.people),
        key == "travel" and "travel is of all of them together, there and back: two people half an hour each way are 2 h" or nil)
end

--- The rate of the longest day, else a fault at it.
function M.longest_day(place)
    local longest = need("rates").find("longest day", "h", place)
    local hours = longest and quantity.number(longest.value, "h")
    if not hours or (hours > 0 and hours <= 24) then return longest end
    host.fault(run.rates:get("longest day").place, "value", "key-bounds", ("the longest day is %s, and a day has more than nothing "
        .. "and no more than 24 h"):format(tostring(longest.value)), "value = 10 h")
    return nil
end

--- Hands the hours of a crew that the plan knows to it, beside its week of other times.
function M.put(crew)
    local values = crew.values
    local day = values.day_each
    local longest = M.longest_day(crew.place)
    if day and (quantity.is(day) or day.each) then
        plan.crew_day(crew.index, M.usual(day, "h"))
    elseif longest then
        plan.crew_day(crew.index, quantity.number(longest.value, "h"))
    end
    check_road(crew, day and M.most(day, "h") or longest and quantity.number(longest.value, "h"))
    put_rows(crew, values.hours_each, "h/wk", true)
    put_rows(crew, day, "h", false)
    for _, off in ipairs(values.off or {}) do
        if off.from then plan.crew_off(crew.index, off.from, off.to) end
    end
end

--- What a visit of a crew takes on the road: hours of all of them together, and money for
--- the truck; nil when nothing is said of it.
function M.road(crew)
    if crew.road ~= nil then return crew.road or nil end
    local values = crew.values
    local hours, cost = values.travel, values.travel_cost
    if values.distance and quantity.number(values.distance, "mi") > 0 then
        local both = quantity.say(values.distance * quantity.leaf(2, "h/h", "there and back"), "mi")
        local speed = need("rates").find("travel speed", "mi/h", crew.place)
        local people = quantity.leaf(values.people, "h/h", ("people of crew %s"):format(crew.name))
        local mile = need("materials").price("mile", "USD/mi")
        hours = hours or speed and quantity.say(both / speed.value * people, "h")
        cost = cost or mile and quantity.say(both * mile, "USD")
    end
    crew.road = (hours or cost) and { hours = hours, cost = cost } or false
    return crew.road or nil
end

--- The days of every year on which a crew is off, or nil.
function M.off(crew)
    local days
    for _, off in ipairs(crew.values.off or {}) do
        local window = off.entry and need("season_days").days(off.entry)
        if window then days = days and calendar.union(days, window) or window end
    end
    return days
end

return M

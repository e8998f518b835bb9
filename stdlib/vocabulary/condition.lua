--- condition: ground or weather that some work needs, and how often it is there, layered.
local host = need "host"
local phrases = need "phrases"
local quantity = need "quantity"
local reference = need "reference"
local run = need "run"

local MONTHS = 12

--- The chances as shares, made when a script asks for them.
local CHANCE = { __index = function(entry, key)
    if key ~= "chance" then return nil end
    local list = {}
    for i, part in ipairs(entry.by_month) do list[i] = quantity.leaf(100 * part, "percent") end
    return list
end }

return reference.declare({
    kind = "condition", as_given = true,
    says = "ground or weather that work needs (only_when, a rule's ground): the chance that a week of each month has it",
    keys = {
        { "chance", kind = "list", of = "share", least = quantity.leaf(0, "percent"),
          most = quantity.leaf(100, "percent"), needed = true,
          says = "how many of the weeks of each month have it: twelve shares, January first; 0 percent closes the month",
          example = "{ 85 percent, 85 percent, ... }" },
        { "says", kind = "text", says = "what is meant by it" },
        { "source", kind = "text", says = "publication, or \"common practice, no source\"" },
    },
    example = [[condition "frozen" {
  chance = { 60 percent, 60 percent, 20 percent, 0, 0, 0,
             0, 0, 0, 0, 0, 25 percent },
  source = "common practice, no source" }]],
    more = "Those below are told in weeks of a hundred, month by month, January first.",
    entry = function(place, name, values)
        local list = values.chance
        if not list then return nil end
        if #list ~= MONTHS then
            host.fault(place, "chance", "condition-months", ("condition \"%s\" has %s, and a year has twelve months"):format(
                name, phrases.count(#list, "chance")))
            return nil
        end
        local by_month, any = {}, false
        for i, share in ipairs(list) do
            by_month[i] = type(share) == "number" and share or quantity.number(share, "percent") / 100
            any = any or by_month[i] > 0
        end
        if not any then
            host.fault(place, "chance", "condition-never", ("condition \"%s\" is there in no month"):format(name))
            return nil
        end
        return setmetatable({ by_month = by_month, says = values.says, source = values.source or "no source given" }, CHANCE)
    end,
}, run.conditions)

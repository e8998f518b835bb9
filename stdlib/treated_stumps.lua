--- Which stumps of a cut are treated with herbicide, so that few of them sprout.
local M = {}
local forest = need "forest"
local run = need "run"
local spraying = need "spraying"

local NONE = { unplaced = true, ["not needed"] = true }

local function nothing() return false end
local function everything() return true end

--- Of the species that a treatment names; without names, of all that was cut.
local function named(record)
    local list = record.values.species
    if not list or #list == 0 then return everything end
    return function(species)
        for _, name in ipairs(list) do
            if forest.species_among(name, species) then return true end
        end
        return false
    end
end

--- Stumps treated after a cut: function(species).
function M.after(act)
    if act.stumps_treated then return act.stumps_treated end
    act.stumps_treated = nothing
    for _, record in ipairs(run.acts) do
        if record.kind == "treat" and record.values.method == "stump" and not NONE[record.state or ""] then
            local cut = spraying.cut_of(record)
            if cut ~= nil and (cut == act or cut == act.copy_of) then act.stumps_treated = named(record) end
        end
    end
    return act.stumps_treated
end

return M

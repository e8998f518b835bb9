--- What one run has gathered: the property, its stands, acts, crews and the layered
--- knowledge. One table, made fresh for every run; the vocabulary fills it, settle.lua turns
--- it into a plan, the reports read it.
local M = {}
local layers = need "layers"

M.property = nil        -- record
M.stands = {}           -- records, in the order described
M.features = {}
M.crews = {}
M.acts = {}
M.waiting = {}          -- acts that no visit has asked for as yet
M.inputs = {}           -- declared by `input`, by name
M.input_names = {}
M.pending = {}          -- `kind "name"` still without its table
M.mentions = {}         -- layered names said: checked when the script has ended
M.applied = {}          -- prescriptions applied: { prescription, values, place, acts, stand }
M.done = {}
M.prescriptions = layers.registry("prescription")
M.rates = layers.registry("rate")
M.prices = layers.registry("price")
M.seasons = layers.registry("season")
M.conditions = layers.registry("condition")
M.rules = layers.registry("rule")
M.notices = layers.registry("notice")
M.current = nil         -- the application whose steps are running
M.settled = false
M.draws = false         -- an act has a shape of its own
M.machines = false      -- an act has a hired machine
M.travels = false       -- something is said of a crew's way there
M.layouts = {}          -- what was laid out: { act, stand, seed, out, openings, shuns }
M.looked_at = false     -- openings and trails of a stand were looked at on the map

local host = need "host"

--- Finds a record by name in one of the lists above, or tells the nearest.
local function by_name(list, kind, name, place, key)
    for _, record in ipairs(list) do
        if record.name == name then return record end
    end
    local names = {}
    for i, record in ipairs(list) do names[i] = record.name or "" end
    local near = host.suggest(name, names)
    local hint
    if near then
        hint = ("did you mean \"%s\"?"):format(near)
    elseif #names == 0 then
        hint = ("no %s is described yet"):format(kind)
    else
        hint = ("described so far: %s"):format(table.concat(names, ", "))
    end
    host.fault(place, key, kind .. "-unknown", ("there is no %s \"%s\""):format(kind, name), hint)
    return nil
end

--- The object of that name in one of the lists, or nil: `stand "Bench aspen"` said again is
--- the stand described before.
function M.known(list, name)
    for _, record in ipairs(list) do
        if record.name == name then return record.object end
    end
    return nil
end

function M.find_stand(name, place, key) return by_name(M.stands, "stand", name, place, key) end
function M.find_crew(name, place, key) return by_name(M.crews, "crew", name, place, key) end
function M.find_feature(name, place, key) return by_name(M.features, "feature", name, place, key) end

--- The act of that id, or nil.
function M.act(id)
    for _, act in ipairs(M.acts) do
        if act.id == id then return act end
    end
    return nil
end

--- The id of a new act: the stand and what the act is called, in lower case with hyphens,
--- numbered when taken.
function M.act_id(stand, word)
    local function slug(text) return (text:lower():gsub("[^%w]+", "-"):gsub("^%-+", ""):gsub("%-+$", "")) end
    local base = (stand and slug(stand.name) .. "/" or "") .. slug(word)
    local id, n = base, 1
    while M.act_ids[id] do
        n = n + 1
        id = base .. "-" .. n
    end
    M.act_ids[id] = true
    return id
end
M.act_ids = {}

return M

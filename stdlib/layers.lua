--- Layers: every rate, price, season, rule, notice and species may be said again by a later
--- layer, and the last layer's word holds. What it replaced stays on record, so that `why`
--- and `spinney why rule NAME` can tell.
--
-- Order of layers: built-in, region, state under the region, pack, property, plan.
local M = {}
local host = need "host"

local RANK = { ["built-in"] = 1, region = 2, state = 3, pack = 4, property = 5, plan = 6 }

local Registry = {}
Registry.__index = Registry

--- A registry for one kind of named thing.
-- @param kind the word used in messages: "rate", "season", ...
function M.registry(kind)
    return setmetatable({ kind = kind, by_name = {}, names = {}, by_kind = {}, asked = {} }, Registry)
end

--- Adds a version; a second one of the same name in the same file is a fault.
function Registry:define(name, entry)
    entry.name = name
    entry.layer = entry.layer or host.layer(entry.place)
    local versions = self.by_name[name]
    if not versions then
        versions = {}
        self.by_name[name] = versions
        self.names[#self.names + 1] = name
        self.sorted = false
    end
    for _, other in ipairs(versions) do
        if other.layer.name == entry.layer.name and host.same_source(other.place, entry.place) then
            host.fault(entry.place, nil, "name-taken",
                ("%s \"%s\" is already described at %s"):format(self.kind, name,
                    host.place_words(other.place)), "give one of the two another name")
            return
        end
    end
    versions[#versions + 1] = entry
    self.by_kind, self.by_word = {}, nil
    if #versions == 1 then return end
    table.sort(versions, function(a, b)
        local ra, rb = RANK[a.layer.kind], RANK[b.layer.kind]
        if ra ~= rb then return ra < rb end
        if a.layer.order ~= b.layer.order then return a.layer.order < b.layer.order end
        return a.place < b.place -- two files of one pack: the one read later
    end)
end

--- The version that holds, or nil. That it was asked for is kept, found or not.
function Registry:get(name)
    self.asked[name] = true
    local versions = self.by_name[name]
    return versions and versions[#versions] or nil
end

--- All versions of a name, the one that holds last.
function Registry:versions(name) return self.by_name[name] or {} end

--- Names in alphabetical order.
function Registry:list()
    if not self.sorted then
        table.sort(self.names)
        self.sorted = true
    end
    return self.names
end

--- Places in the list of names of the versions that hold, by the words of `applies_to`.
local function places_by_word(registry)
    local by_word, names = {}, registry:list()
    for i = 1, #names do
        local entry = registry:get(names[i])
        local words = entry.off and {} or entry.applies_to
        for k = 1, #words do
            local list = by_word[words[k]] or {}
            by_word[words[k]] = list
            if list[#list] ~= i then list[#list + 1] = i end
        end
    end
    return by_word
end

--- The versions that hold and apply to a kind of act (`applies_to` names it, or "act"), by
--- name. Kept for the next act of the kind.
function Registry:for_acts(kind)
    local list = self.by_kind[kind]
    if list then return list end
    self.by_word = self.by_word or places_by_word(self)
    local own, every = self.by_word[kind] or {}, self.by_word.act or {}
    local i, k = 1, 1
    list = {}
    while own[i] or every[k] do
        local place = math.min(own[i] or math.huge, every[k] or math.huge)
        if own[i] == place then i = i + 1 end
        if every[k] == place then k = k + 1 end
        list[#list + 1] = self:get(self.names[place])
    end
    self.by_kind[kind] = list
    return list
end

--- The version that holds; a fault with the nearest name when there is none.
-- @param place, key where the name was written
function Registry:find(name, place, key)
    local entry = self:get(name)
    if entry then return entry end
    local near = host.suggest(name, self:list())
    host.fault(place, key, self.kind .. "-unknown",
        ("there is no %s \"%s\""):format(self.kind, tostring(name)),
        near and ("did you mean \"%s\"?"):format(near)
             or ("`spinney help %s` lists them"):format(self.kind))
    return nil
end

return M

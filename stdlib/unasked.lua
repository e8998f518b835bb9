--- Rates and prices of the author's own, a pack's with them, that nothing asked for, and whose name is nearly one that something did:
--- a misspelled one would be passed over in silence, and the plan would go by another.
local M = {}
local forest = need "forest"
local host = need "host"
local run = need "run"

local OWN = { pack = true, property = true, plan = true }

local function is_crew(name)
    for _, crew in ipairs(run.crews) do
        if crew.name == name then return true end
    end
    return false
end

--- "felling, oak", "felling, owners", "stumpage, red oak sawlogs": right, though no such work is in this plan.
local function is_of_known_form(registry, name)
    local base, rest = name:match("^(.-), (.+)$")
    if not base then return false end
    local word = rest:gsub(" sawlogs$", ""):gsub(" pulpwood$", "")
    return (#registry:versions(base) > 0 or base == "stumpage") and (forest.species_known(word) or is_crew(rest))
end

--- Names that something asks for, or might: asked for in vain, and those of the layers below the author's.
local function wanted(registry)
    local names, seen = {}, {}
    local function add(name)
        if not seen[name] then
            seen[name] = true
            names[#names + 1] = name
        end
    end
    for name in pairs(registry.asked) do
        if #registry:versions(name) == 0 then add(name) end
    end
    table.sort(names)
    for _, name in ipairs(registry:list()) do
        if not OWN[registry:versions(name)[1].layer.kind] then add(name) end
    end
    return names
end

--- The nearest name; of "felling, owner" only what stands behind "felling" is compared.
local function nearest(name, names)
    local base = name:match("^(.-, )")
    local rests = {}
    for _, other in ipairs(names) do
        if base and other:sub(1, #base) == base then rests[#rests + 1] = other:sub(#base + 1) end
    end
    if #rests == 0 then return host.suggest(name, names) end
    local rest = host.suggest(name:sub(#base + 1), rests)
    return rest and base .. rest
end

--- The wood that "stumpage, red oke sawlogs" is the price of, and " sawlogs"; nil where it is of no species.
local function wood_of(name)
    local rest = name:match("^stumpage, (.+)$")
    if not rest or rest == "sawlogs" or rest == "pulpwood" then return nil end
    local product = rest:match(" sawlogs$") or rest:match(" pulpwood$") or ""
    return rest:sub(1, -#product - 1), product
end

--- Warns of the price of a wood that is none. Is it one?
local function is_of_no_species(entry)
    local word, product = wood_of(entry.name)
    if not word or forest.species_known(word) then return false end
    local near = forest.species_near(word)
    host.warning(entry.place, nil, "price-species", ("there is no species \"%s\", so nothing is sold at the price \"%s\"")
        :format(word, entry.name), near and ("did you mean \"stumpage, %s%s\"?"):format(near, product))
    return true
end

local function judge(registry)
    local names
    for _, name in ipairs(registry:list()) do
        local versions = registry:versions(name)
        local entry = versions[#versions]
        if #versions == 1 and OWN[entry.layer.kind] and not registry.asked[name] and not is_of_no_species(entry)
            and not is_of_known_form(registry, name) then
            names = names or wanted(registry)
            local near = nearest(name, names)
            if near then
                host.warning(entry.place, nil, registry.kind .. "-unasked", ("nothing in this plan asks for the %s \"%s\"")
                    :format(registry.kind, name), ("did you mean \"%s\"?"):format(near))
            end
        end
    end
end

--- Warns; once all acts have asked for what they take.
function M.judge()
    judge(run.rates)
    judge(run.prices)
end

return M

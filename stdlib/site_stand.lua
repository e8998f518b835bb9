--- Site index of a stand: what was told of it, worked out where trees were measured.
local M = {}
local forest = need "forest"
local host = need "host"
local quantity = need "quantity"
local site = need "site"

--- The mean of several measured trees, which may be off by its standard error.
local function mean_index(list, label, place)
    local numbers, sum = {}, 0
    for i, index in ipairs(list) do
        numbers[i] = quantity.number(index, "ft")
        sum = sum + numbers[i]
    end
    local n, squares = #list, 0
    local mean = sum / n
    for _, one in ipairs(numbers) do squares = squares + (one - mean) ^ 2 end
    local measure = quantity.say(quantity.sum(list) / n, "ft")
    local off = math.sqrt(squares / (n - 1) / n)
    if off < 1e-9 then return measure end
    local t = forest.student_t(0.8, n - 1) -- 10th to 90th percentile
    local share = t * off / mean
    if share > 0.9 then
        return host.raise(place, "site_index", "site-trees", ("the site trees of %s differ too much to tell a mean: standard error %.0f ft of %.0f ft")
            :format(label, off, mean), "measure more of them, dominant and never overtopped")
    end
    return quantity.say(measure * quantity.range(100 * (1 - share), 100, 100 * (1 + share), "percent",
        "error of the " .. label,
        ("mean of %d trees, standard error %.1f ft, Student's t: Freese 1962, Agric. Handb. 232, from memory")
            :format(n, off)), "ft")
end

local function measured(record, told, place)
    local list = {}
    for i, tree in ipairs(told.trees) do
        list[i] = site.index({ species = told.species, height = tree.height, age = tree.age, curve = tree.curve,
            at = tree.at, years_to_breast_height = tree.years_to_breast_height }, place)
    end
    if #list == 1 then return list[1] end
    return mean_index(list, ("site index of %s, %s"):format(told.species, record.name), place)
end

--- The site index of one row that was told of a stand.
function M.told_index(record, told)
    if not told.index then
        local name = ("site index of %s, %s"):format(told.species, record.name)
        told.index = quantity.name(told.value or measured(record, told, record.place), name)
    end
    return told.index
end

--- The rows told of a stand that a word means (all without one).
local function told_rows(record, word)
    local rows = {}
    for _, told in ipairs(record.site or {}) do
        if not word or forest.species_among(word, told.species) then rows[#rows + 1] = told end
    end
    return rows
end

--- What was told of the site index of a species in a stand; raises when it was not.
-- @return the measure, the species' word as told
function M.of_stand(record, word, place)
    local rows = told_rows(record, word)
    if #rows == 1 then return M.told_index(record, rows[1]), rows[1].species end
    if #rows > 1 then
        local names = {}
        for i, told in ipairs(rows) do names[i] = told.species end
        return host.raise(place, "species", "site-species", ("site index is told of %s"):format(table.concat(names, " and ")),
            "say which species")
    end
    local others = #told_rows(record) > 0
    return host.raise(place, word and "species" or nil, "site-untold", ("no site index%s is told of \"%s\""):format(
        word and " of " .. word or "", record.name), others
            and "that of another species is no help: no published conversion between species is built in"
            or ("give the stand site_index = { [\"%s\"] = 62 ft }"):format(word or "red oak"))
end

--- Walks what was told, in the order of the words it was told under.
local function walk(record)
    local i = 0
    return function()
        i = i + 1
        local told = (record.site or {})[i]
        if told then return told.species, M.told_index(record, told) end
    end
end

--- What `s.site_index` is: what was told, by any name of the species, and callable.
function M.answer(record)
    local call = need("answers").find "site_index"
    return setmetatable({}, {
        __metatable = false,
        __call = function(_, ...) return call(...) end,
        __pairs = function() return walk(record) end,
        __index = function(_, word)
            local rows = type(word) == "string" and told_rows(record, word) or {}
            return #rows == 1 and M.told_index(record, rows[1]) or nil
        end,
        __newindex = function() error("the site index of a stand is told in its table", 2) end,
    })
end

--- The species, among those whose site index is told, that makes up the most of a stand.
function M.leading(record)
    local best, most
    for _, told in ipairs(record.site or {}) do
        local area = record.cruise and quantity.number(record.cruise:basal_area(told.species), "ft2/ac") or 0
        if not best or area > most then best, most = told.species, area end
    end
    return best
end

return M

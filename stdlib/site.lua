--- Site index: which curve holds for a species, and what it says of heights, ages and
--- measured trees. The curves are data: stdlib/site_curves.lua, and `site_curve` of layers.
local M = {}
local forest = need "forest"
local host = need "host"
local layers = need "layers"
local quantity = need "quantity"

--- Curves of layers; a name that is built in too takes its place.
M.registry = layers.registry("site curve")

local FITTED_FROM = 30 -- years: under it the two equations of a curve part by more than a foot
local FITTED_WITHIN = 1 -- ft

--- All curves that hold, the built-in ones first.
local function curves()
    local built_in, list = need "site_curves", {}
    for _, row in ipairs(built_in) do
        row.from, row.to = row.from or built_in.from, row.to or built_in.to
        row.span_source = row.span_source or built_in.span_source
        if not M.registry:get(row.name) then list[#list + 1] = row end
    end
    for _, name in ipairs(M.registry:list()) do list[#list + 1] = M.registry:get(name) end
    return list
end

local meant = {} -- species that a word means, by word

--- The names of the species that a word means.
local function species_of(word)
    if meant[word] then return meant[word] end
    local names = {}
    local one = forest.species_one(word) and forest.species_info(word)
    if one then
        names[1] = one.name
    else
        for _, name in ipairs(forest.species_names()) do
            if forest.species_among(word, name) then names[#names + 1] = name end
        end
    end
    meant[word] = names
    return names
end

--- Is a species among those of a list of words?
local function is_among(name, words)
    for _, word in ipairs(words or {}) do
        if forest.species_among(word, name) then return true end
    end
    return false
end

--- The curve that holds where none is named: a layer's own before the built-in ones.
local function first_for(name)
    local list = curves()
    for i = #list, 1, -1 do
        if list[i].layer and is_among(name, list[i].species) then return list[i] end
    end
    for _, row in ipairs(list) do
        if is_among(name, row.first_for) then return row end
    end
    return nil
end

local function names_for(word)
    local names = {}
    for _, row in ipairs(curves()) do
        for _, name in ipairs(word and species_of(word) or {}) do
            if is_among(name, row.species) and names[#names] ~= row.name then names[#names + 1] = row.name end
        end
    end
    return names
end

local function quoted(names)
    local parts = {}
    for i, name in ipairs(names) do parts[i] = ("\"%s\""):format(name) end
    return table.concat(parts, ", ")
end

--- A curve by its name, or by the short one among those of the species.
local function by_name(wanted, word, place)
    local names, found = {}, nil
    for _, row in ipairs(curves()) do
        if row.name == wanted then return row end
        names[#names + 1] = row.name
        local own = not word
        for _, name in ipairs(word and species_of(word) or {}) do own = own or is_among(name, row.species) end
        if row.short == wanted and own then found = found or row end
    end
    if found then return found end
    local near, own = host.suggest(wanted, names), names_for(word)
    return host.raise(place, "curve", "site-curve-unknown", ("there is no site index curve \"%s\""):format(wanted),
        near and ("did you mean \"%s\"?"):format(near)
            or #own > 0 and ("for %s there are %s"):format(word, quoted(own)) or nil)
end

--- The curve that is named, or the first one for the species. Raises where there is none.
-- @param values with `species` (a word) and, where one is asked for, `curve` (a name)
function M.curve(values, place)
    local word = values.species
    if values.curve then
        local row = by_name(values.curve, word, place)
        local fits = not word
        for _, name in ipairs(word and species_of(word) or {}) do fits = fits or is_among(name, row.species) end
        if not fits then
            host.warning(place, "curve", "site-curve-species", ("%s is a curve of %s, not of %s"):format(row.name,
                row.of, word), "no published conversion between the site indices of species is built in")
        end
        return row
    end
    if not word then
        return host.raise(place, nil, "key-missing", "say whose height it is: `species`, or a `curve`",
            "species = \"red oak\"")
    end
    local first, none, several
    for _, name in ipairs(species_of(word)) do
        local row = first_for(name)
        if not row then
            none = none or name
        elseif first and row ~= first then
            several = true
        end
        first = first or row
    end
    if several or (first and none) then
        return host.raise(place, "species", "site-species", ("the species of \"%s\" grow by curves of their own")
            :format(word), "say which species, or name a `curve`")
    elseif not first then
        return host.raise(place, "species", "site-curve-none", ("no site index curve of %s was seen"):format(word),
            forest.species_among(word, "oak") and "curve = \"NC-128 fig. 36\" is that of upland oaks"
                or "name the `curve` of a species that grows like it")
    end
    return first
end

--- What `why` says of a curve.
local function words_of(curve, more)
    local words = curve.layer and ("%s, %s: %s"):format(curve.name, curve.layer.words, curve.source)
        or ("%s%s: %s"):format(curve.source, curve.short and curve.short:find("^fig") and ", " .. curve.short or "",
            curve.of)
    if curve.note then words = words .. "; " .. curve.note end
    return more and words .. "; " .. more or words
end

--- Years from the seed to breast height, or nil where nobody says.
local function years_up(curve, values)
    if values.years_to_breast_height then return values.years_to_breast_height end
    if not curve.to_breast_height then return nil end
    return quantity.leaf(curve.to_breast_height, "yr", ("years to breast height: %s"):format(words_of(curve)))
end

local function need_years_up(curve, values, place)
    local years = years_up(curve, values)
    if years then return years end
    return host.raise(place, values.at and "at" or "age", "site-breast-height", curve.counts == "breast height"
        and ("%s counts ages at breast height; how long these trees took to get there is not said"):format(curve.name)
        or ("%s gives the years to breast height by site index, which was not seen"):format(curve.name),
        curve.counts == "breast height" and "at = \"breast height\", or years_to_breast_height = 8 yr"
            or "give the age from the seed, or years_to_breast_height = 8 yr")
end

--- An age as the curve counts it.
local function own_age(curve, values, place)
    local age, at = values.age, values.at or "total"
    if at == (curve.counts or "total") then return age end
    local years = need_years_up(curve, values, place)
    if at == "breast height" then return age + years end
    if quantity.number(age, "yr") <= quantity.number(years, "yr") then
        return host.raise(place, "age", "site-breast-height", ("trees of %s have not reached breast height, from where %s counts")
            :format(tostring(age), curve.name))
    end
    return age - years
end

--- Tells when an age lies outside of what the curve is good for.
-- @return words for `why`, or nil
local function age_caution(curve, age, place, key)
    local years = quantity.number(age, "yr")
    if years >= curve.from and years <= curve.to then return nil end
    host.warning(place, key, "site-age", ("%s is good for ages of %g to %g yr (%s); this is %s"):format(curve.name,
        curve.from, curve.to, curve.span_source or "as its layer says", tostring(age)),
        years < curve.from and "measure young growth itself: it tells little of the site" or nil)
    return ("outside its ages of %g to %g yr"):format(curve.from, curve.to)
end

local function curve_caution(curve, place)
    if not curve.caution then return end
    host.warning(place, nil, "site-curve-far", ("%s: %s"):format(curve.name, curve.caution))
end

--- Height at an age, on ground of a site index.
-- @param values species or curve, site_index, age, at, years_to_breast_height
function M.height(values, place)
    local curve = M.curve(values, place)
    curve_caution(curve, place)
    local age = own_age(curve, values, place)
    local outside = age_caution(curve, age, place, "age")
    return forest.site_height(curve, values.site_index, age, words_of(curve, outside))
end

--- The age at which that height is reached; as `at` counts.
-- @param values species or curve, site_index, height, at, years_to_breast_height
function M.age_at_height(values, place)
    local curve = M.curve(values, place)
    curve_caution(curve, place)
    local site, height = quantity.number(values.site_index, "ft"), quantity.number(values.height, "ft")
    local most = forest.site_height_most(curve, site)
    if height >= most then
        return host.raise(place, "height", "site-reach", ("on site index %s %s levels off at %.0f ft; %s is never reached")
            :format(tostring(values.site_index), curve.name, most, tostring(values.height)))
    elseif height <= (curve.base or 0) then
        return host.raise(place, "height", "site-reach", ("%s begins at %g ft; this is %s"):format(curve.name,
            curve.base or 0, tostring(values.height)))
    end
    local at, counts = values.at or "total", curve.counts or "total"
    local years = at ~= counts and need_years_up(curve, values, place)
    local age = forest.site_age(curve, values.site_index, values.height, words_of(curve))
    age_caution(curve, age, place, "height")
    if not years then return age end
    if at == "total" then return age + years end
    return age - years
end

--- What is told of a curve whose two equations were fitted apart.
local function fitted_words(curve, height, age, place)
    if not forest.site_is_fitted_apart(curve) then return nil end
    local years = quantity.number(age, "yr")
    local published, inverted = forest.site_numbers(curve, quantity.number(height, "ft"), years)
    if not inverted or (years >= FITTED_FROM and math.abs(published - inverted) <= FITTED_WITHIN) then
        return "fitted apart from its height curve, about 1 ft either way from 30 yr on"
    end
    local both = ("%.1f ft by its equation for site index, %.1f ft by its height curve"):format(published, inverted)
    host.warning(place, "age", "site-fitted-apart", ("%s at %s: %s"):format(curve.name, tostring(age), both),
        years < FITTED_FROM and "under 30 yr the two part: measure older trees where there are any" or nil)
    return "fitted apart from its height curve: " .. both
end

--- Site index from a tree of known height and age.
-- @param values species or curve, height, age, at, years_to_breast_height
function M.index(values, place)
    local curve = M.curve(values, place)
    curve_caution(curve, place)
    local age = own_age(curve, values, place)
    local published, inverted = forest.site_numbers(curve, quantity.number(values.height, "ft"),
        quantity.number(age, "yr"))
    if not published and not inverted then
        return host.raise(place, "height", "site-reach", ("no site index of %s gives %s at %s"):format(curve.name,
            tostring(values.height), tostring(values.age)))
    end
    local how = published and "by its equation for site index" or "by its height curve turned round"
    for _, more in ipairs({ age_caution(curve, age, place, "age") or false,
        fitted_words(curve, values.height, age, place) or false }) do
        if more then how = how .. "; " .. more end
    end
    return forest.site_index(curve, values.height, age, words_of(curve, how))
end

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
        list[i] = M.index({ species = told.species, height = tree.height, age = tree.age, curve = tree.curve,
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

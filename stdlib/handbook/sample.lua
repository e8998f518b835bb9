--- The handbook on sampling: what plots say of a whole, how many are needed.
local confidence = need "confidence"
local forest = need "forest"
local host = need "host"
local quantity = need "quantity"

local FREESE = "Freese 1962, Elementary Forest Sampling, USDA Agriculture Handbook 232 (formulas from memory)"

local CONFIDENCE = confidence.key(95)
local POPULATION = { "population", kind = "number", says = "how many such plots the whole holds; endless without it" }

--- The values as numbers of the first one's unit.
local function numbers_of(list, key, place)
    local unit, out = nil, {}
    for i, value in ipairs(list) do
        local measured = quantity.is(value)
        if i == 1 then unit = measured and quantity.unit(value) or "" end
        if measured and unit ~= "" and quantity.fits(value, unit) then
            out[i] = quantity.number(value, unit)
        elseif not measured and type(value) == "number" and unit == "" then
            out[i] = value
        else
            host.raise(place, key, "sample-values", ("`%s` wants numbers, or measures that can be compared; number %d is %s")
                :format(key, i, need("kinds").describe(value)), key .. " = { 7, 10, 7, 4 }")
        end
    end
    if #out == 0 then
        host.raise(place, key, "sample-values", ("`%s` is empty"):format(key), key .. " = { 7, 10, 7, 4 }")
    end
    return out, unit
end

local function giver(unit, words)
    return function(number)
        if unit == "" then return number end
        return quantity.leaf(number, unit, words .. "; " .. FREESE)
    end
end

local function sample(values, place)
    local list, unit = numbers_of(values.values, "values", place)
    local level = confidence.of(values, place)
    if values.population and values.population < #list then
        host.raise(place, "population", "sample-population", ("%d plots cannot be of a whole of %g"):format(#list, values.population))
    end
    local row = forest.sample(list, values.population or 0)
    local give = giver(unit, ("sample of %d"):format(#list))
    local out = { count = #list, mean = give(row.mean) }
    if #list == 1 then
        out.words = "one plot: no error can be told"
        return out
    end
    local t = forest.student_t(level, #list - 1)
    out.deviation, out.error = give(math.sqrt(row.variance)), give(row.error)
    out.variance = row.variance -- in the square of the unit
    out.cv = quantity.leaf(row.cv, "percent", FREESE)
    out.low, out.high = give(row.mean - t * row.error), give(row.mean + t * row.error)
    out.t = t
    out.words = ("%d plots, Student's t with %d degree%s of freedom, %g percent"):format(#list, #list - 1,
        #list == 2 and "" or "s", level * 100)
    return out
end

local function student_t(values, place)
    if values.freedom < 1 or values.freedom > 1000000 then
        host.raise(place, "freedom", "key-bounds", "`freedom` lies between 1 and 1,000,000: one less than the plots")
    end
    return forest.student_t(confidence.of(values, place), values.freedom)
end

local function plots_needed(values, place)
    local within, cv = quantity.number(values.within, "percent"), quantity.number(values.cv, "percent")
    if within < 0.5 or within > 100 then
        host.raise(place, "within", "key-bounds", ("`within` is %s; it lies between 0.5 and 100 percent")
            :format(tostring(values.within)))
    end
    if values.population and values.population < 2 then
        host.raise(place, "population", "sample-population", ("a whole of %g plots needs no plan"):format(
            values.population), "population = 250, as many plots as the whole holds")
    end
    return forest.plots_needed(cv / 100, within / 100, confidence.of(values, place), values.population or 0)
end

local function strata_faults(row, i, place)
    local area = type(row) == "table" and row.area
    if not (quantity.is(area) and quantity.fits(area, "ac")) then
        host.raise(place, "strata", "strata-row", ("number %d of `strata` has no area"):format(i),
            "{ area = 12 ac, values = { 20, 24, 17 } }")
    elseif type(row.values) ~= "table" then
        host.raise(place, "strata", "strata-row", ("number %d of `strata` has no values, one a plot"):format(i),
            "{ area = 12 ac, values = { 20, 24, 17 } }")
    end
    return quantity.number(area, "ac")
end

local function strata(values, place)
    local rows, unit = {}, nil
    for i, row in ipairs(values.strata) do
        local acres = strata_faults(row, i, place)
        local list, its = numbers_of(row.values, "strata", place)
        unit = unit or its
        if its ~= unit then
            host.raise(place, "strata", "sample-values", "all strata are measured in one unit")
        end
        local one = forest.sample(list, type(row.population) == "number" and row.population or 0)
        rows[i] = { weight = acres, mean = one.mean, error = one.error, count = #list }
    end
    if #rows == 0 then
        host.raise(place, "strata", "strata-row", "`strata` is empty", "strata = { { area = 12 ac, values = { 20, 24 } }, ... }")
    end
    local level = confidence.of(values, place)
    local all = forest.strata(rows, level)
    local differ = all.told and all.freedom < math.huge
    local words = differ and ("%d strata, %.1f degrees of freedom, %g percent"):format(#rows, all.freedom, level * 100)
        or all.told and "plots agree exactly in each stratum: no error can be told"
        or "a stratum has one plot: no error can be told"
    if not differ then all.error, all.low, all.high, all.freedom = nil, nil, nil, nil end
    local acre = quantity.leaf(1, "ac")
    local function give(number)
        if not number then return nil end
        if unit == "" then return number end
        return quantity.leaf(number, unit, words .. "; Cochran 1977, ch. 5; Satterthwaite 1946 (from memory)") * acre
    end
    return { total = give(all.total), error = give(all.error), low = give(all.low), high = give(all.high),
        freedom = all.freedom, words = words }
end

return {
    { name = "sample", main = "values",
      says = "what plots say of a whole: mean, variance, standard error, interval by Student's t",
      keys = { { "values", kind = "table", needed = true, says = "one a plot: bare numbers or measures" }, POPULATION, CONFIDENCE },
      gives = "{ count, mean, variance, deviation, error, cv, t, low, high, words }", source = FREESE,
      example = "handbook.sample { values = { 7, 10, 7, 4, 7 }, population = 1000 }", call = sample },
    { name = "student_t", main = "freedom", says = "Student's t, two-sided",
      keys = { { "freedom", kind = "count", needed = true, says = "degrees of freedom: plots less one" }, CONFIDENCE },
      gives = "a bare number", source = "Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4",
      example = "handbook.student_t { freedom = 24, confidence = 95 percent }", call = student_t },
    { name = "plots_needed", says = "plots for a wanted precision: n = (t CV / E)^2, with the t of that n",
      keys = { { "cv", kind = "quantity", unit = "percent", needed = true, least = quantity.leaf(0, "percent"),
            most = quantity.leaf(1000, "percent"), says = "coefficient of variation between plots" },
          { "within", kind = "share", needed = true, says = "how far the mean may be off, of itself" }, CONFIDENCE, POPULATION },
      gives = "a whole number", source = FREESE,
      example = "handbook.plots_needed { cv = 28 percent, within = 10 percent }", call = plots_needed },
    { name = "strata", main = "strata", says = "a total over strata, each with its acres and its plots' values an acre",
      keys = { { "strata", kind = "table", needed = true, says = "a list of { area, values (an acre, one a plot), population }" },
          CONFIDENCE },
      gives = "{ total, error, low, high, freedom, words }",
      source = "Freese 1962; Cochran 1977, Sampling Techniques, ch. 5; Satterthwaite 1946 (from memory)",
      example = "handbook.strata { { area = 12 ac, values = { 20, 24 } },\n  { area = 5 ac, values = { 8, 11 } } }",
      call = strata },
}

--- How sure a stand's figures are: intervals, and the plots that would make them surer; totals
--- over several stands with their error.
local answers = need "answers"
local confidence = need "confidence"
local forest = need "forest"
local host = need "host"
local phrases = need "phrases"
local quantity = need "quantity"

--- What may be asked, and its unit for an acre and in all.
local OF = {
    ["basal area"] = { unit = "ft2/ac", whole = "ft2" },
    trees = { unit = "trees/ac", whole = "trees" },
    cords = { unit = "cord/ac", whole = "cord" },
    ["density index"] = { unit = "trees/ac" },
    share = { unit = "percent", times = 100 },
}
local TOTALS = { "basal area", "trees", "cords" }
local SOURCE = "Freese 1962, Agric. Handb. 232 (formulas from memory)"

local OF_KEY = { "of", kind = "choice", of = { "basal area", "trees", "cords", "density index", "share" },
    default = "basal area", says = "what: so much an acre, or the share of the basal area" }
local SPECIES = { "species", kind = "list", of = "species", says = "only these species; all without it" }
local FROM = { "at_least", kind = "diameter", says = "only trees of this diameter and more" }
local function precision(record, trees, values, level, place)
    local pick = { species = values.species, from = values.at_least and quantity.number(values.at_least, "in") }
    -- Cords at the likely tree length: the plots say nothing of how high trees are.
    local ask = values.of == "cords" and need("products").ask(record, nil, place) or nil
    return forest.precision(trees, values.of, pick, level, ask)
end

--- Words for where the error comes from, and for where none can be told.
local function words_of(row, percent, trees)
    if row.plots == 1 then return "one plot: no error can be told" end
    if row.plots > 1 and row.value <= 0 then
        return ("%d plots without any of it: no error can be told"):format(row.plots)
    end
    if row.plots > 1 and not row.told then return ("%d plots that agree exactly: no error can be told"):format(row.plots) end
    if row.plots == 0 then
        local judged = trees:words() == "not walked" and "not walked, a guess" or "judged by eye"
        return ("%s: %g percent sure as far as that can be trusted"):format(judged, percent)
    end
    return ("%d plots, Student's t with %d degree%s of freedom, %g percent"):format(row.plots, row.plots - 1,
        row.plots == 2 and "" or "s", percent)
end

local function interval(record, values, place)
    local level = confidence.of(values, place)
    local trees = answers.trees(record, place)
    local row = precision(record, trees, values, level, place)
    local of, words = OF[values.of], words_of(row, level * 100, trees)
    local function leaf(number)
        if not number then return nil end
        return quantity.leaf(number * (of.times or 1), of.unit,
            ("%s of %s: %s; %s"):format(values.of, record.name, words, SOURCE))
    end
    -- Plots without any of it cannot tell how much of it there may be elsewhere.
    local sampled = row.told and row.plots > 0 and row.value > 0
    local known = sampled or row.told and row.plots == 0
    return { mean = leaf(row.value), error = sampled and leaf(row.error) or nil,
        cv = sampled and quantity.leaf(row.cv, "percent", SOURCE) or nil,
        low = known and leaf(row.low) or nil, high = known and leaf(row.high) or nil,
        plots = row.plots, words = words }
end

local function within_of(values, place)
    local percent = quantity.number(values.within, "percent")
    if percent < 0.5 or percent > 100 then
        host.raise(place, "within", "key-bounds", ("`within` is %s; it lies between 0.5 and 100 percent")
            :format(tostring(values.within)))
    end
    return percent / 100
end

local function plots_needed(record, values, place)
    local level, within = confidence.of(values, place), within_of(values, place)
    local row = precision(record, answers.trees(record, place), values, level, place)
    if row.plots < 2 or not row.told or row.value <= 0 then
        local why = row.plots == 0 and "no plots were taken" or row.value <= 0 and "there is nothing of it on the plots"
            or row.plots == 1 and "there is one plot" or "all plots agree exactly"
        host.raise(place, nil, "no-error", ("how many plots \"%s\" needs cannot be told: %s"):format(record.name, why),
            "take two plots or more first, or tell handbook.plots_needed a cv from a stand like it")
    end
    if values.of == "share" then
        host.raise(place, "of", "plots-of-share", "plots are planned for an amount an acre, not for a share",
            "of = \"basal area\"")
    end
    if values.population and values.population < 2 then
        host.raise(place, "population", "sample-population", ("a whole of %d plots needs no plan"):format(
            values.population), "population = 250, as many plots as the stand holds")
    end
    return forest.plots_needed(row.cv / 100, within, level, values.population or 0)
end

local M = {
    { name = "interval", main = "of",
      says = "mean, standard error, coefficient of variation and confidence interval of a figure: { mean, error, cv, low, high, plots, words }",
      keys = { OF_KEY, SPECIES, FROM, confidence.key(95) },
      example = "s:interval { of = \"basal area\", species = \"red oak\" }", call = interval },
    { name = "plots_needed", main = "within",
      says = "how many plots in all such a stand needs for a wanted precision",
      keys = { { "within", kind = "share", needed = true, says = "how far the mean may be off, of itself" },
          OF_KEY, SPECIES, FROM, confidence.key(90),
          { "population", kind = "count", says = "how many such plots the whole stand holds; endless without it" } },
      example = "s:plots_needed { within = 10 percent, of = \"trees\" }",
      call = plots_needed },
}

--- The total over stands, each a stratum of its own acres.
-- @param records of stands; those of whose trees nothing is said are left out and named
-- @param values { of, species, from, confidence }
-- @return { total (with its draws), error, low, high, freedom, words }
function M.total(records, values, place)
    local level, of = confidence.of(values, place), OF[values.of]
    local rows, parts, one, judged, left_out = {}, {}, {}, 0, {}
    local pick = { species = values.species, from = values.at_least and quantity.number(values.at_least, "in") }
    for _, record in ipairs(records) do
        if record.cruise and record.area then
            local row = precision(record, record.cruise, values, level, place)
            local told = row.plots > 0
            rows[#rows + 1] = { weight = quantity.number(record.area, "ac"), mean = row.value, count = row.plots,
                -- By eye: half the span between its 10th and 90th percentiles, as a normal has it.
                error = told and (row.error or 0) or row.judged / 1.2815515655 }
            if told and not row.told then
                rows[#rows].count = 1
                one[#one + 1] = record.name
            end
            if not told then judged = judged + 1 end
            local figure = values.of == "cords" and need("products").wood(record, record.cruise, pick, nil, place)
                or values.of == "trees" and record.cruise:trees(pick) or record.cruise:basal_area(pick)
            parts[#parts + 1] = quantity.say(figure * record.area, of.whole)
        else
            left_out[#left_out + 1] = record.name
        end
    end
    if #rows == 0 then
        host.raise(place, nil, "stand-unknown-trees", "nothing is said of the trees of any stand",
            "give the stands a tally, or species, diameter and basal_area by eye")
    end
    local all = forest.strata(rows, level)
    local words = { ("%s weighted by their acres, %g percent"):format(phrases.count(#rows, "stand"), level * 100) }
    if #one > 0 then words[#words + 1] = "no error can be told: one plot, or plots that agree exactly, in " .. table.concat(one, ", ") end
    if judged > 0 then words[#words + 1] = ("%d judged by eye"):format(judged) end
    if #left_out > 0 then words[#words + 1] = "left out, as nothing is said of the trees: " .. table.concat(left_out, ", ") end
    words = table.concat(words, "; ")
    local function leaf(number)
        if not number then return nil end
        return quantity.leaf(number, of.whole, words .. "; Cochran 1977, ch. 5; Satterthwaite 1946 (from memory)")
    end
    return { total = quantity.name(quantity.sum(parts), values.of .. " in all", words), error = leaf(all.error),
        low = leaf(all.low), high = leaf(all.high),
        freedom = all.freedom and all.freedom < 1e9 and all.freedom or nil, words = words }
end

--- What `property:total { ... }` takes.
M.total_row = { name = "total", main = "of", example = "p:total { of = \"cords\", confidence = 90 percent }",
    says = "a total over all stands, with its error and interval: { total, error, low, high, freedom, words }",
    keys = { { "of", kind = "choice", of = TOTALS, default = "cords", says = "what" }, SPECIES, FROM, confidence.key(90) } }

return M

--- site_curve: a site index curve of one's own, or a built-in one said again.
local host = need "host"
local quantity = need "quantity"
local reference = need "reference"
local site = need "site"

--- Is it a list of so many bare numbers?
local function is_numbers(value, count)
    if #value ~= count then return false end
    for i = 1, count do
        if type(value[i]) ~= "number" then return false end
    end
    return true
end

return reference.declare({
    kind = "site_curve",
    says = "a site index curve, base age 50: how tall leading trees are at an age; the last layer's curve of a species comes first",
    keys = {
        { "species", kind = "list", of = "species", needed = true, says = "whose", example = "\"bur oak\"" },
        { "height", kind = "table", needed = true,
          says = "b1 to b5 of H = b1 S^b2 (1 - e^(b3 A))^(b4 S^b5), feet and years",
          example = "{ 2.1037, 0.9140, -0.0275, 3.7962, -0.2530 }" },
        { "site", kind = "table", says = "c1 to c5 of S = c1 H^c2 (1 - e^(c3 A))^(c4 H^c5); without it the height curve is turned round" },
        { "counts", kind = "choice", of = { "total", "breast height" }, default = "total",
          says = "what ages are counted from; at breast height, 4.5 ft are added to the curve" },
        { "years_to_breast_height", kind = "span", says = "years from the seed to breast height: 4 yr" },
        { "from_age", kind = "span", default = quantity.leaf(20, "yr"), says = "youngest age it is good for" },
        { "to_age", kind = "span", default = quantity.leaf(100, "yr"), says = "oldest" },
        { "source", kind = "text", says = "publication, or \"common practice, no source\"" },
    },
    example = [[site_curve "our bur oak" { species = "bur oak",
  height = { 2.1037, 0.9140, -0.0275, 3.7962, -0.2530 },
  years_to_breast_height = 4 yr, source = "our own stem counts" }]],
    entry = function(place, name, values)
        if not values.species or not values.height then return nil end
        local before = host.fault_count()
        for _, key in ipairs({ "height", "site" }) do
            if values[key] and not is_numbers(values[key], 5) then
                host.fault(place, key, "site-curve-numbers", ("`%s` wants five bare numbers"):format(key),
                    ("%s = { 2.1037, 0.9140, -0.0275, 3.7962, -0.2530 }"):format(key))
            end
        end
        local b = values.height
        if host.fault_count() == before and not (b[1] > 0 and b[2] > 0 and b[3] < 0 and b[4] > 0) then
            host.fault(place, "height", "site-curve-numbers", "such a curve does not rise with age and site",
                "b1, b2 and b4 are above zero, b3 is below")
        end
        if host.fault_count() > before then return nil end
        local years = values.years_to_breast_height
        return { species = values.species, of = table.concat(values.species, ", "), height = b, site = values.site,
            counts = values.counts, base = values.counts == "breast height" and 4.5 or nil,
            to_breast_height = years and quantity.number(years, "yr"), from = quantity.number(values.from_age, "yr"),
            to = quantity.number(values.to_age, "yr"), source = values.source or "no source given", name = name }
    end,
}, site.registry)

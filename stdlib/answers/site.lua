--- What a stand answers on its site: site index, heights.
local host = need "host"
local quantity = need "quantity"
local site = need "site"

local CURVE = { "curve", kind = "text", says = "a curve by its name: \"NC-128 fig. 47\"" }
local AT = { "at", kind = "choice", of = { "total", "breast height" }, says = "where the age was counted; from the seed when nothing is said" }
local UP = { "years_to_breast_height", kind = "span", says = "years from the seed to breast height, in place of the curve's" }

--- The age that is asked for, else the stand's.
local function age_of(record, values, place)
    local age = values.age or record.values.age
    if age then return age end
    return host.raise(place, nil, "site-age-untold", ("the age of \"%s\" is not told"):format(record.name),
        "age = 55 yr")
end

local function height(record, values, place)
    local index, species = values.site_index, values.species
    if not index then index, species = site.of_stand(record, values.species, place) end
    return site.height({ species = values.species or species, curve = values.curve, site_index = index,
        age = age_of(record, values, place), at = values.at,
        years_to_breast_height = values.years_to_breast_height }, place)
end

local function dominant(record, _, place)
    local name = "dominant height of " .. record.name
    local told = record.values.tree_length
    local age = record.values.age
    local species = not told and age and site.leading(record)
    if not species then return quantity.name(need("vocabulary/stand").tree_length(record), name) end
    return quantity.name(site.height({ species = species, site_index = site.of_stand(record, species, place),
        age = age }, place), name)
end

return {
    {
        name = "site_index", says = "site index: as told of the stand, or from a tree measured there",
        keys = {
            { "species", kind = "species", says = "whose; not needed where one alone is told" },
            { "height", kind = "quantity", unit = "ft", says = "of a measured tree: a dominant one, never overtopped" },
            { "age", kind = "span", says = "of a measured tree; without it, that of the stand" },
            AT, CURVE, UP,
        },
        main = "species",
        example = "s:site_index { species = \"bigtooth aspen\", height = 66 ft, age = 48 yr }",
        call = function(record, values, place)
            if not values.height then return (site.of_stand(record, values.species, place)) end
            return site.index({ species = values.species, height = values.height, curve = values.curve,
                age = age_of(record, values, place), at = values.at,
                years_to_breast_height = values.years_to_breast_height }, place)
        end,
    },
    {
        name = "height", says = "how tall the leading trees of a species are at an age, by its site index curve",
        keys = {
            { "species", kind = "species", says = "whose; not needed where one alone has its site index told" },
            { "age", kind = "span", says = "at which age; without it, that of the stand" },
            { "site_index", kind = "quantity", unit = "ft", says = "where the stand does not tell it" },
            AT, CURVE, UP,
        },
        main = "species",
        example = "s:height { species = \"bigtooth aspen\", site_index = 68 ft, age = 40 yr }",
        call = height,
    },
    {
        name = "dominant_height",
        says = "height of the leading trees: tree_length where it is told, else by site index and age, else by mean diameter",
        keys = {},
        example = "s:dominant_height()",
        call = dominant,
    },
}

--- The handbook on density: quadratic mean diameter, density index, relative density, cover.
local forest = need "forest"
local host = need "host"
local quantity = need "quantity"

local TREES = { "trees", kind = "density", needed = true, says = "trees an acre" }
local DIAMETER = { "diameter", kind = "diameter", needed = true, least = quantity.leaf(0.1, "in"),
    says = "their quadratic mean diameter" }

--- Woods lie between balsa and lignum vitae; ours from 0.29 to 0.64.
local function relative_density(values, place)
    local gravity = values.gravity
    local number = quantity.is(gravity) and quantity.fits(gravity, "percent") and quantity.number(gravity, "percent") / 100
        or type(gravity) == "number" and gravity
    if not number or number < 0.1 or number > 1.3 then
        host.raise(place, "gravity", "key-bounds", ("`gravity` wants a bare number between 0.1 and 1.3; this is %s")
            :format(need("kinds").describe(gravity)), "gravity = 0.5")
    end
    return forest.relative_density_of(values.trees, values.diameter, gravity)
end

return {
    { name = "quadratic_mean", says = "diameter of the tree of mean basal area",
      keys = { { "basal_area", kind = "basal_area", needed = true, says = "basal area an acre" },
          { "trees", kind = "density", needed = true, least = quantity.leaf(0.001, "trees/ac"), says = "trees an acre" } },
      gives = "a diameter", source = "Husch, Beers and Kershaw 2003, Forest Mensuration",
      example = "handbook.quadratic_mean { basal_area = 80 ft2/ac, trees = 200 trees/ac }",
      call = function(values) return forest.mean_diameter_of(values.basal_area, values.trees) end },
    { name = "density_index", says = "stand density index: trees x (diameter / 10 in)^1.605",
      keys = { TREES, DIAMETER }, gives = "10-in trees an acre",
      source = "Reineke 1933, J. Agric. Res. 46:627-638 (page numbers from memory)",
      example = "handbook.density_index { trees = 200 trees/ac, diameter = 12.3 in }",
      call = function(values) return forest.density_index_of(values.trees, values.diameter) end },
    { name = "relative_density",
      says = "how full, against the most such wood carries: trees a hectare x (0.00015 + 0.00218 gravity) (diameter / 25 cm)^1.6",
      keys = { TREES, DIAMETER,
          { "gravity", kind = "any", needed = true,
            says = "specific gravity of the wood, a bare number or a range of them" } },
      gives = "a percent", source = "Ducey and Knapp 2010, For. Ecol. Manage. 260:1613-1622 (from memory)",
      example = "handbook.relative_density { trees = 90 trees/ac, diameter = 9 in,\n  gravity = 0.5 }",
      call = relative_density },
    { name = "crown_cover", main = "crown_area",
      says = "ground under crowns that lie over one another at random: 1 - exp(-crown area an acre)",
      keys = { { "crown_area", kind = "basal_area", needed = true, says = "area of all crowns an acre, 20000 ft2/ac" } },
      gives = "a percent", source = "Crookston and Stage 1999, Gen. Tech. Rep. RMRS-GTR-24 (from memory)",
      example = "handbook.crown_cover { crown_area = 20000 ft2/ac }",
      call = function(values) return forest.crown_cover_of(values.crown_area) end },
}

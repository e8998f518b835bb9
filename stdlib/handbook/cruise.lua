--- The handbook's chapter on cruising: prisms, plots, distances.
local forest = need "forest"
local host = need "host"
local quantity = need "quantity"

local BAF = { "baf", kind = "basal_area", bare = true, needed = true, least = quantity.leaf(1, "ft2/ac"),
    most = quantity.leaf(100, "ft2/ac"), says = "basal area factor of the prism, in ft2/ac", example = "10" }
local DIAMETER = { "diameter", kind = "diameter", bare = true, needed = true, least = quantity.leaf(0.5, "in"),
    most = quantity.leaf(60, "in"), says = "diameter at breast height", example = "12 in" }
local SLOPE = { "slope", kind = "slope", bare = true,
    most = quantity.leaf(150, "percent"), says = "steepness; level ground when left out", example = "30 percent" }
local SIZE = { "size", kind = "area", needed = true, least = quantity.leaf(0.0001, "ac"),
    most = quantity.leaf(10, "ac"), says = "area of the plot", example = "0.1 ac" }

--- A key as it is declared, but not needed.
local function spared(spec, says)
    local copy = {}
    for name, value in pairs(spec) do copy[name] = value end
    copy.needed, copy.says = nil, says
    return copy
end

return {
    { name = "limiting_distance",
      says = "how far a tree may stand from the point and still be in; exactly there it is borderline, and every other such tree is counted, or each as half (common practice)",
      keys = { BAF, DIAMETER, SLOPE,
          { "to", kind = "choice", of = { "center", "face" }, default = "center",
            says = "measured to the tree's center, or to its face at breast height, which is half a diameter nearer" } },
      gives = "a length; on a slope, to be taped straight up or down it",
      source = "Grosenbaugh 1952, J. For. 50:32-37; formula from memory. To the face: K. Iles, cruising newsletter",
      example = "handbook.limiting_distance { baf = 10, diameter = 12.4 in, to = \"face\" }",
      call = function(values)
          local level = forest.cruise_equation("limit_" .. values.to, values.baf, values.diameter)
          return values.slope and forest.cruise_equation("along_slope", level, values.slope) or level
      end },
    { name = "radius_factor", main = "baf", keys = { BAF },
      says = "feet from the point to a tree's center for each inch of its diameter, within which a prism takes it in",
      gives = "ft/in",
      source = "Grosenbaugh 1952, J. For. 50:32-37; formula from memory",
      example = "handbook.radius_factor { baf = 20 }",
      call = function(values) return forest.cruise_equation("radius_factor", values.baf) end },
    { name = "plot_radius", main = "size", keys = { SIZE },
      says = "radius of a round plot",
      gives = "a length, on the level", source = "geometry; 43,560 ft2 in an acre: NIST Handbook 44",
      example = "handbook.plot_radius { size = 0.1 ac }",
      call = function(values) return forest.cruise_equation("plot_radius", values.size) end },
    { name = "trees_per_acre",
      keys = { spared(BAF, "basal area factor, when it was counted with a prism"),
          spared(DIAMETER, "its diameter, with a prism"), spared(SIZE, "area of the plot, when it stood on one") },
      says = "trees an acre that one counted tree stands for: at a point, by its diameter; on a plot, by the plot's area",
      gives = "trees an acre", source = "Husch, Beers and Kershaw 2003, Forest Mensuration",
      example = "handbook.trees_per_acre { baf = 20, diameter = 12 in }",
      call = function(values, place)
          local prism = values.baf and values.diameter
          if (prism ~= nil) == (values.size ~= nil) or (values.size and (values.baf or values.diameter)) then
              host.raise(place, nil, "key-missing", "handbook.trees_per_acre wants `baf` and `diameter`, or `size`",
                  "handbook.trees_per_acre { baf = 20, diameter = 12 in }")
          end
          if values.size then return forest.cruise_equation("trees_on_plot", values.size) end
          return forest.cruise_equation("trees_at_point", values.baf, values.diameter)
      end },
    { name = "basal_area", main = "diameter", keys = { DIAMETER },
      says = "basal area of one tree",
      gives = "ft2", source = "0.005454154 D^2: Husch, Beers and Kershaw 2003, Forest Mensuration",
      example = "handbook.basal_area { diameter = 12 in }",
      call = function(values) return forest.cruise_equation("tree_basal_area", values.diameter) end },
    { name = "slope_distance",
      keys = { { "level", kind = "length", says = "the distance on the level, to be taped along the slope", example = "33 ft" },
          { "along", kind = "length", says = "the other way round: a distance along the slope, wanted on the level", example = "34.45 ft" },
          { "slope", kind = "slope", bare = true, needed = true, most = SLOPE.most, says = "steepness", example = "30 percent" } },
      says = "what a level distance is along a slope, straight up or down; or what one along a slope is on the level",
      gives = "a length", source = "geometry: level = along x cos(atan(slope))",
      example = "handbook.slope_distance { level = 33 ft, slope = 30 percent }",
      call = function(values, place)
          if (values.level == nil) == (values.along == nil) then
              host.raise(place, nil, "key-missing", "handbook.slope_distance wants `level` or `along`, one of them",
                  "handbook.slope_distance { level = 33 ft, slope = 30 percent }")
          end
          if values.level then return forest.cruise_equation("along_slope", values.level, values.slope) end
          return forest.cruise_equation("on_the_level", values.along, values.slope)
      end },
}

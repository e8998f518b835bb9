--- The handbook on seed and plants: pure live seed, seeds on a foot, plants by spacing.
local host = need "host"
local quantity = need "quantity"
local work = need "work"

local PURITY = { "purity", kind = "share", needed = true, says = "pure seed in the bag, from its tag", example = "85 percent" }
local GERMINATION = { "germination", kind = "share", needed = true, says = "how much of it germinates, from the tag, hard seed with it",
    example = "75 percent" }
local BETWEEN = { "between", kind = "length", needed = true, says = "between rows", example = "8 ft" }
local IN_ROW = { "in_row", kind = "length", says = "from plant to plant in a row; as between rows when not told" }
local PLS_SOURCE = "purity x germination: Texas DOT; LSU AgCenter; Penn State Extension"

local above_nothing = need("words").above_nothing

local function live(values) return quantity.say(values.purity * values.germination, "percent") end

--- Plants on an acre, each with its whole space, not rounded.
local function per_acre(values, place)
    above_nothing(values, { "between", "in_row" }, place)
    if values.triangular and values.in_row then
        host.raise(place, "triangular", "plant-triangular", "a triangular planting has one distance from plant to plant",
            "handbook.plants_per_acre { between = 8 ft, triangular = true }")
    end
    local space = values.between * (values.in_row or values.between)
    if values.triangular then space = space * quantity.leaf(math.sqrt(3) / 2, "h/h", "rows of a triangle: sqrt(3) / 2") end
    return quantity.say(quantity.leaf(1, "plants", "one plant") / space, "plants/ac")
end

local function to_order(values, place)
    if values.losses and values.survival then
        host.raise(place, "survival", "key-together", "`losses` and `survival` each say how many more are ordered", "keep one of them")
    end
    above_nothing(values, { "survival" }, place)
    return work.plants_to_order(values.plants, values.losses, values.survival)
end

return {
    { name = "pure_live_seed", says = "part of the bag that is pure and lives", keys = { PURITY, GERMINATION }, gives = "a percent",
      source = PLS_SOURCE, example = "handbook.pure_live_seed { purity = 85 percent, germination = 75 percent }", call = live },
    { name = "bulk_seed", says = "what must come out of the bag for so much pure live seed",
      keys = { { "pure_live", kind = "quantity", unit = "lb", needed = true, says = "pure live seed wanted", example = "20 lb" },
          PURITY, GERMINATION },
      gives = "pounds", source = PLS_SOURCE,
      example = "handbook.bulk_seed { pure_live = 20 lb, purity = 48 percent,\n  germination = 80 percent }",
      call = function(values, place)
          above_nothing(values, { "purity", "germination" }, place)
          return quantity.say(values.pure_live / live(values), "lb")
      end },
    { name = "seeds_per_foot", says = "seeds on a square foot",
      keys = { { "rate", kind = "quantity", unit = "lb/ac", needed = true, says = "pounds on an acre", example = "37.88 lb/ac" },
          { "seeds_per_lb", kind = "quantity", unit = "seeds/lb", bare = true, needed = true, says = "how many make a pound", example = "12800" } },
      gives = "seeds a square foot", source = "Minnesota BWSR, pilot seed mix report 2018",
      example = "handbook.seeds_per_foot { rate = 37.88 lb/ac, seeds_per_lb = 12800 }",
      call = function(values) return quantity.say(values.rate * values.seeds_per_lb, "seeds/ft2") end },
    { name = "seed_rate", says = "pounds on an acre for so many seeds on a square foot",
      keys = { { "seeds", kind = "quantity", unit = "seeds/ft2", needed = true, says = "seeds a square foot", example = "40 seeds/ft2" },
          { "seeds_per_lb", kind = "quantity", unit = "seeds/lb", bare = true, needed = true, says = "how many make a pound", example = "1500000" } },
      gives = "pounds an acre", source = "Minnesota BWSR, pilot seed mix report 2018, turned round",
      example = "handbook.seed_rate { seeds = 10 seeds/ft2, seeds_per_lb = 1500000 }",
      call = function(values, place)
          above_nothing(values, { "seeds_per_lb" }, place)
          return quantity.say(values.seeds / values.seeds_per_lb, "lb/ac")
      end },
    { name = "plants_per_acre", main = "between", says = "plants on an acre by their spacing, not rounded",
      keys = { BETWEEN, IN_ROW, { "triangular", kind = "flag", says = "each as far from all its neighbors" } },
      gives = "plants an acre", source = "43,560 / (between x in the row): conservation district spacing sheet, Michigan",
      example = "handbook.plants_per_acre { between = 8 ft, in_row = 6 ft }", call = per_acre },
    { name = "plants_on_area", says = "whole plants on an area",
      keys = { { "area", kind = "area", needed = true, says = "ground planted", example = "0.5 ac" }, BETWEEN, IN_ROW,
          { "triangular", kind = "flag", says = "each as far from all its neighbors" } },
      gives = "plants, counted down", source = "43,560 / (between x in the row): conservation district spacing sheet, Michigan",
      example = "handbook.plants_on_area { area = 0.5 ac, between = 10 ft, in_row = 8 ft }",
      call = function(values, place)
          per_acre(values, place) -- the same checks
          return work.plants_on_area(values.area, values.between, values.in_row or values.between, values.triangular)
      end },
    { name = "plants_in_rows", says = "plants in rows: one at each end and one for each whole step between",
      keys = { { "length", kind = "length", needed = true, says = "length of a row", example = "400 ft" },
          { "in_row", kind = "length", needed = true, says = "from plant to plant", example = "8 ft" },
          { "rows", kind = "count", least = 1, default = 1, says = "how many rows" } },
      gives = "plants", source = "common practice, no source: length / spacing + 1",
      example = "handbook.plants_in_rows { length = 400 ft, in_row = 8 ft, rows = 3 }",
      call = function(values, place)
          above_nothing(values, { "in_row" }, place)
          return work.plants_in_rows(values.length, values.in_row, quantity.leaf(values.rows, "h/h", "rows"))
      end },
    { name = "plants_to_order", says = "plants to order, up to whole ones",
      keys = { { "plants", kind = "quantity", unit = "plants", bare = true, needed = true, says = "plants wanted", example = "153" },
          { "losses", kind = "share", says = "ordered on top: 10 percent" },
          { "survival", kind = "share", says = "the share that lives, in place of it" } },
      gives = "plants", source = "common practice, no source: 10 to 15 percent on top",
      example = "handbook.plants_to_order { plants = 153, losses = 10 percent }", call = to_order },
}

--- tally: cruise notes of a stand, said apart from the stand.
local forest = need "forest"
local host = need "host"
local run = need "run"

--- The notes of a call: their text, its key, and the source when it is a file's.
local function notes_of(place, values)
    if values.notes and values.file then
        host.fault(place, "file", "tally-two", "a tally has `notes` or a `file`, not both", "take out one of them")
        return nil
    end
    if values.notes then return values.notes, "notes" end
    if not values.file then
        host.fault(place, nil, "key-missing", "tally needs `notes`: the cruise notes, or `file`: where they are",
            "notes = [[ baf 10\nplot 1: red oak 12 14 ]]")
        return nil
    end
    local text, source, words, hint = forest.notes(values.file)
    if text then return text, "file", source end
    host.fault(place, "file", source, words, hint) -- the second is the fault's id then
    return nil
end

--- Has the stand a tally already? Told then.
local function is_twice(stand, place)
    if not stand.cruise then return false end
    host.fault(place, nil, "tally-twice", ("stand \"%s\" already has a tally, at %s"):format(stand.name,
        host.place_words(stand.tally_place)))
    return true
end

--- Notes that name their stands.
local function read_stands(place, text, key, source)
    local names, by_name = {}, {}
    for i, stand in ipairs(run.stands) do names[i], by_name[stand.name] = stand.name, stand end
    for _, found in ipairs(forest.tally_stands(text, names, place, key, source) or {}) do
        local stand = by_name[found.name]
        if not is_twice(stand, place) then stand.tally_place, stand.cruise = place, found.trees end
    end
end

return {
    kind = "tally", named = "may",
    says = "the cruise notes of a stand as typed in the field, when they stand apart from it; without a name, those of several stands that the notes name",
    keys = {
        { "notes", kind = "text", says = "baf 10 / radius 24 ft / size 1/10 ac, then a line a plot: plot 1: bigtooth aspen 7 8 8; red oak 14",
          example = "[[ baf 10\nplot 1: red oak 12 14 ]]" },
        { "file", kind = "text", says = "or the name of a file that holds them, found as `use` finds scripts", example = "\"cruise.txt\"" },
        { "walked", kind = "date", says = "the day of the cruise" },
    },
    example = [==[tally "Bench aspen" { notes = [[
  baf 10
  plot 1: bigtooth aspen 7 8 8 9 11; red oak 14
]] }]==],
    more = [[
notes:
  baf 10                        how the plots below it were taken: the factor of
  radius 24 ft                  the prism, or the radius of a plot, or its size;
  size 1/10 ac                  it holds until the next such line
  plot 1: red oak 12 14; BTA 7x3
                                species by name, code or alias, then diameters
                                in inches at breast height; 7x3 is three of 7
          red maple 5           a plot may go on in the next line
  plot 2: none                  an empty plot counts
  # a remark                    to the end of its line
  They make trees, basal area and diameter for each species, with the doubt that
  lies between the plots. Names of species: spinney help species.

  red oak 14 half               a borderline tree, at the very edge of the plot:
                                it counts half (spinney help limit)
  red oak 14 double             counts twice: seen from the mirage point too
  slope 30%                     of the plots below, until the next such line or
                                stand. Radii taped along the ground and prisms
                                held upright are mended by it;
  slope 30%, corrected          says that it was done in the field
  plot 3, slope 25%: ...        of this plot alone
  plot 4, half: ...             half a plot, its center on the stand's edge:
                                trees count double; quarter, in a corner: by 4

small plots about the same centers:
  saplings on 1/100 ac, below 5 in
  regeneration on 1/1000 ac     a size, or: on radius 6.8 ft. They hold for the
                                plots below until: no saplings, no regeneration
  plot 5: red oak 12 14
    saplings: red maple 1x3 2; bigtooth aspen 1x5
    regeneration: red oak 3 under 1 ft, 5 1-3 ft; red maple 12 over 5 ft
                                a count, then the class of height it is in
    snags: 12 14, red oak 9     dead trees on the large plot, with their species
                                or without; they count with snags only
    den trees: red maple 18     living trees with a den: they count among the
                                trees too, and are not noted there again
    trees: red oak 11           back to plain trees; `snag red oak 9` and
                                `den red oak 20` may stand among these as well
  Where saplings have their own plots, every thinner tree is noted with them.
  `snags: none` on a plot says that snags were looked for.

several stands in one text, tally { file = "cruise.txt" }:
  stand Bench aspen             whose plots follow; each stand numbers its own]],
    make = function(place, name, values)
        local stand = name and run.find_stand(name, place)
        local text, key, source = notes_of(place, values)
        if not text or name and (not stand or is_twice(stand, place)) then return nil end
        if stand then
            need("vocabulary/stand").read_tally(stand, place, key, text, source)
        else
            read_stands(place, text, key, source)
        end
        return nil
    end,
}

--- tally: cruise notes of a stand, said apart from the stand.
local host = need "host"
local run = need "run"

return {
    kind = "tally", named = "must",
    says = "the cruise notes of a stand as typed in the field, when they stand apart from it",
    keys = {
        { "notes", kind = "text", needed = true, says = "baf 10 / radius 24 ft / size 1/10 ac, then a line a plot: plot 1: bigtooth aspen 7 8 8; red oak 14",
          example = "[[ baf 10\nplot 1: red oak 12 14 ]]" },
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
  lies between the plots. Names of species: spinney help species.]],
    make = function(place, name, values)
        local stand = run.find_stand(name, place)
        if not stand then return nil end
        if stand.cruise then
            host.fault(place, nil, "tally-twice", ("stand \"%s\" already has a tally, at %s"):format(name,
                host.place_words(stand.tally_place)))
            return nil
        end
        if values.notes then need("vocabulary/stand").read_tally(stand, place, "notes", values.notes) end
        return nil
    end,
}

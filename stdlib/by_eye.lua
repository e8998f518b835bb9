--- A stand judged by eye: shares of species, diameters, crowding or basal area, become an
--- inventory with wide ranges.
local M = {}
local estimates = need "estimates"
local forest = need "forest"
local host = need "host"
local kinds = need "kinds"
local quantity = need "quantity"

--- Reads the keys of a stand that was not plotted into its record; what is wrong is told.
function M.judge(record, place, values)
    local before = host.fault_count()
    local shares = {}
    local names = {}
    for name in pairs(values.species or {}) do
        if type(name) == "string" then
            names[#names + 1] = name
        else
            host.fault(place, "species", "eye-shares", "each species by eye has its share",
                "species = { [\"red oak\"] = 60 percent, [\"red maple\"] = 40 percent }")
        end
    end
    if #names == 0 and host.fault_count() == before then
        host.fault(place, values.species and "species" or nil, "eye-shares",
            "a stand judged by eye needs `species`: their shares of the basal area",
            "species = { [\"red oak\"] = 60 percent, [\"red maple\"] = 40 percent }")
    elseif #names > 40 then
        host.fault(place, "species", "eye-shares", "at most 40 species are judged by eye")
    end
    table.sort(names)
    for _, name in ipairs(names) do
        local known, id, message, mend = forest.species_one(name)
        if not known then host.fault(place, { "species", name }, id, message, mend) end
        local share = kinds.share.take(values.species[name])
        if not share then
            host.fault(place, { "species", name }, "key-kind", ("the share of %s wants %s; this is %s"):format(name,
                kinds.share.says, kinds.describe(values.species[name])),
                kinds.mend({ ("[\"%s\"]"):format(name) }, kinds.share, values.species[name]))
        elseif known then
            local percent = quantity.number(share, "percent")
            if percent <= 0 or percent > 100 then
                host.fault(place, { "species", name }, "eye-share", ("the share of %s is %s; it lies above 0 and up to 100 percent")
                    :format(name, tostring(share)))
            end
            shares[#shares + 1] = { species = name, percent = percent }
        end
    end
    local low, high = 4, 10 -- inches, when nothing was judged: common practice, no source
    if values.diameter ~= nil then
        if quantity.is(values.diameter) and quantity.fits(values.diameter, "in") then
            low, high = quantity.ends(values.diameter, "in")
        else
            host.fault(place, "diameter", "key-kind", ("`diameter` wants a diameter or a range, such as 4 to 8 in; this is %s")
                :format(kinds.describe(values.diameter)), type(values.diameter) == "number"
                and ("diameter = %s in"):format(tostring(values.diameter)) or nil)
        end
    end
    local density = { 45, 65, 85 } -- "moderate"
    if values.basal_area then
        density[1], density[3] = quantity.ends(values.basal_area, "ft2/ac")
        density[2] = quantity.number(values.basal_area, "ft2/ac")
    else
        for _, row in ipairs(estimates.crowding) do
            if row.word == (values.crowding or "moderate") then density = { row.low, row.likely, row.high } end
        end
    end
    if host.fault_count() > before then return end
    local doubt = estimates.doubt
    record.cruise = forest.estimate(record.name, place, {
        shares = shares, least = low, most = high, low = density[1], likely = density[2],
        high = density[3], walked = values.walked ~= false,
        density_percent = doubt.density_percent, share_points = doubt.share_points,
        diameter_percent = doubt.diameter_percent, not_walked_times = doubt.not_walked_times,
    })
end

return M

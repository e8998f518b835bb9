--- Dry weight of trees above ground, and of their parts.
local list = {}
local JENKINS = "Jenkins, Chojnacky, Heath and Birdsey 2003, For. Sci. 49:12-35"
local function add(ask, unit, printed, to, seen, where, differs)
    list[#list + 1] = { ask = ask, unit = unit, printed = printed, to = to, source = JENKINS,
        seen = seen, where = where, differs = differs }
end

local function whole(group, diameter)
    return ("handbook.biomass { group = %q, diameter = %g cm }"):format(group, diameter)
end

local diameters = { 5, 10, 20, 25.4, 30 }
for _, row in ipairs {
    { "aspen, alder, cottonwood, willow", -2.2094, 2.3867, 5.11, 26.74, 139.84, 247.39, 368.06 },
    { "soft maple, birch", -1.9123, 2.3651, 6.65, 34.25, 176.43, 310.51, 460.30 },
    { "mixed hardwood", -2.4800, 2.4835, 4.56, 25.49, 142.58, 258.14, 390.28 },
    { "hard maple, oak, hickory, beech", -2.0127, 2.4342, 6.72, 36.32, 196.27, 351.19, 526.63 },
    { "cedar, larch", -2.0336, 2.2592, 4.97, 23.77, 113.79, 195.26, 284.40 },
    { "true fir, hemlock", -2.5384, 2.4814, 4.29, 23.93, 133.65, 241.85, 365.52 },
    { "pine", -2.5356, 2.4349, 3.99, 21.56, 116.60, 208.66, 312.93 },
    { "spruce", -2.0773, 2.3323, 5.35, 26.92, 135.59, 236.77, 349.08 } } do
    -- The printed coefficients, read back out of what two trees weigh.
    add(("(math.log(%s:number \"kg\") - math.log(%s:number \"kg\")) / math.log(3)"):format(
        whole(row[1], 30), whole(row[1], 10)), nil, row[3], 0.0001, "seen", "table 4, slope")
    add(("math.log(%s:number \"kg\") - %.4f * math.log(20)"):format(whole(row[1], 20), row[3]), nil,
        row[2], 0.0001, "seen", "table 4, intercept")
    for i, diameter in ipairs(diameters) do
        add(whole(row[1], diameter), "kg", row[3 + i], 0.01, "computed")
    end
end
add(("math.log(%s:number \"kg\") - 2.3867 * math.log(20)"):format(
    whole("aspen, alder, cottonwood, willow", 20)), nil, -2.20294, 0.00001, "seen",
    "table 4 as one research code copies it", "a slip of the copy; the table has -2.2094")

-- Parts: exp(a + b / diameter) of the whole; both read back out of two trees.
local function part(group, name, diameter)
    return ("math.log(handbook.biomass { group = %q, diameter = %g cm, part = %q }:number \"kg\""
        .. " / %s:number \"kg\")"):format(group, diameter, name, whole(group, diameter))
end
for _, row in ipairs { { "soft maple, birch", "foliage", -4.0813, 5.8816 },
    { "soft maple, birch", "bark", -2.0129, -1.6805 },
    { "soft maple, birch", "wood", -0.3065, -5.4240 },
    { "soft maple, birch", "roots", -1.6911, 0.8160 },
    { "pine", "foliage", -2.9584, 4.4766 }, { "pine", "bark", -2.0980, -1.1432 },
    { "pine", "wood", -0.3737, -1.8055 }, { "pine", "roots", -1.5619, 0.6614 } } do
    local group, name, a, b = table.unpack(row)
    add(("(%s - %s) * 20"):format(part(group, name, 10), part(group, name, 20)), nil, b, 0.0001,
        "seen", "ratio of parts, slope")
    add(("2 * %s - %s"):format(part(group, name, 20), part(group, name, 10)), nil, a, 0.0001,
        "seen",
        "ratio of parts, intercept")
end

return list

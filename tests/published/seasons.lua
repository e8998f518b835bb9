--- Dates as published, and what the regions make of them: what it is, the region, a plan,
--- what speaks and what must not. Both ends of a season belong to it.
local list = {}

local function add(what, region, source, plan, speaks, silent, more)
    local row = { what = what, region = region, source = source, plan = plan, speaks = speaks,
        silent = silent }
    for key, value in pairs(more or {}) do row[key] = value end
    list[#list + 1] = row
end

-- Oak wilt ------------------------------------------------------------------------------------

local MN, WI, MI = "lake-states/minnesota", "lake-states/wisconsin", "lake-states/michigan"
local MN_OAK = "Minnesota DNR 2016, 2021, 2023: April 1 to July 31 (secondary copy); Univ. "
    .. "Minnesota 2010: July to October low"
local MI_OAK = "Michigan DNR 2018: April 15 to July 15 (secondary copy)"
local WI_OAK = "Wisconsin DNR 2017, 2021: April through July (secondary copy)"

--- Oaks cut on a day: "stop", "caution" or nothing.
local function oak(region, source, day, level)
    local speaks, silent = {}, {}
    for name, of in pairs({ ["oak wilt"] = "stop", ["oak wilt, low risk"] = "caution" }) do
        if of == level then speaks[#speaks + 1] = { name, of } else silent[#silent + 1] = name end
    end
    add(("oak cut in %s, %s"):format(region, day), region, source,
        -- A tree or two, done within the day, so that the day alone decides.
        ('cut { stand = "Oak", species = "oak", hours = 4 h, date = %s }'):format(day), speaks,
            silent)
end
oak(MN, MN_OAK, "Apr 1 2027", "stop")
oak(MN, MN_OAK, "Jul 31 2027", "stop")
oak(MN, MN_OAK, "Aug 1 2027", "caution")
oak(MI, MI_OAK, "Apr 14 2027", "caution")
oak(MI, MI_OAK, "Apr 15 2027", "stop")
oak(MI, MI_OAK, "Jul 15 2027", "stop")
oak(MI, MI_OAK, "Jul 16 2027", "caution")
oak(WI, WI_OAK, "Apr 1 2027", "stop")
oak(WI, WI_OAK, "Jul 31 2027", "stop")
oak(WI, WI_OAK, "Dec 10 2027", nil)

-- Contract grass ------------------------------------------------------------------------------

local CRP = "USDA Farm Service Agency, primary nesting season May 15 to August 1, "
    .. "Minnesota 2012 (secondary copy)"
for _, row in ipairs { { "May 14 2027", false }, { "May 15 2027", true }, { "Aug 1 2027", true },
    { "Aug 2 2027", false } } do
    add("contract grass mown in Minnesota, " .. row[1], MN, CRP,
        ('mow { stand = "Field", hours = 4 h, date = %s }'):format(row[1]),
        row[2] and { { "nesting, contract grass", "stop" } } or {},
        row[2] and {} or { "nesting, contract grass", "nesting, grass" },
        { property = 'tax_program = "CRP contract"' })
end

-- Firearm deer seasons ------------------------------------------------------------------------

--- A season's first and last day, and the days around it.
local function hunt(region, name, level, source, before, first, last, after)
    for _, row in ipairs { { before, false }, { first, true }, { last, true }, { after, false } } do
        add(("%s, %s, %s"):format(region, name, row[1]), region, source,
            ('job "rake the trail" { stand = "Field", hours = 4 h, date = %s }'):format(row[1]),
            row[2] and { { name, level } } or {}, row[2] and {} or { name },
            { walked = "Oct 1 " .. row[1]:match("%d+$") })
    end
end
local MN_2017, MN_2021 = "season calendar 2017, November 4 to 19 (secondary copy)",
    "season calendar 2021, November 6 to 21 (secondary copy)"
local NEAREST = "by rule, the Saturday nearest November 6: November 7 2026, "
    .. "November 6 2027 (calculated)"
hunt(MN, "deer firearm season", "caution", MN_2017, "Nov 3 2017", "Nov 4 2017", "Nov 12 2017",
    "Nov 13 2017")
hunt(MN, "deer firearm season, second week", "note", MN_2017, "Nov 12 2017", "Nov 13 2017",
    "Nov 19 2017", "Nov 20 2017")
hunt(MN, "deer firearm season", "caution", MN_2021, "Nov 5 2021", "Nov 6 2021", "Nov 14 2021",
    "Nov 15 2021")
hunt(MN, "deer firearm season, second week", "note", MN_2021, "Nov 14 2021", "Nov 15 2021",
    "Nov 21 2021", "Nov 22 2021")
hunt(MN, "deer firearm season", "caution", NEAREST, "Nov 6 2026", "Nov 7 2026", "Nov 15 2026",
    "Nov 16 2026")
hunt(MN, "deer firearm season", "caution", NEAREST, "Nov 5 2027", "Nov 6 2027", "Nov 14 2027",
    "Nov 15 2027")
local WI_RULE = "by rule, nine days from the Saturday before Thanksgiving (calculated)"
hunt(WI, "deer gun season", "caution", "season calendar 2016, November 19 to 27 (secondary copy)",
    "Nov 18 2016", "Nov 19 2016", "Nov 27 2016", "Nov 28 2016")
hunt(WI, "deer gun season", "caution", "season calendar 2017, November 18 to 26 (secondary copy)",
    "Nov 17 2017", "Nov 18 2017", "Nov 26 2017", "Nov 27 2017")
hunt(WI, "deer gun season", "caution", WI_RULE, "Nov 20 2026", "Nov 21 2026", "Nov 29 2026",
    "Nov 30 2026")
hunt(WI, "deer gun season", "caution", WI_RULE, "Nov 19 2027", "Nov 20 2027", "Nov 28 2027",
    "Nov 29 2027")
hunt(MI, "deer firearm season", "caution",
    "Michigan DNR, news 2020: November 15 to 30 every year (secondary copy)",
    "Nov 14 2026", "Nov 15 2026", "Nov 30 2026", "Dec 1 2026")

-- Wisconsin's cutting notice --------------------------------------------------------------------

local NOTICE = "Wis. Stat. 26.03: 14 days ahead, expires December 31"
add("cutting notice for January 15 2027", WI, NOTICE,
    'cut { stand = "Aspen", species = "aspen", share = 20 percent, hours = 4 h, '
        .. 'date = Jan 15 2027 }', {}, { "fixed date" },
    { file = { "cutting notice", "2027-01-01" } })
add("cutting notice for January 14 2027, which no notice of that year can cover", WI, NOTICE,
    'cut { stand = "Aspen", species = "aspen", share = 20 percent, hours = 4 h, '
        .. 'date = Jan 14 2027 }',
    { { "fixed date", "stop", "it expires with that year" } }, {})
add("cutting notice, earliest start in the new year", WI, NOTICE,
    'cut { stand = "Aspen", species = "aspen", share = 20 percent, hours = 4 h, '
        .. 'during = Jan 1 to Mar 31 }', {}, {},
    { file = { "cutting notice", "2027-01-01" }, walked = "Dec 20 2026" })

return list

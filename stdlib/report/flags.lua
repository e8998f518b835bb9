--- The flags to walk to: a paper to take along.
local M = {}
local page = need "page"
local phrases = need "phrases"
local run = need "run"
local stake = need "stake"
local survey = need "survey"

--- Whole feet and paces, and a decimal of the few.
function M.short(number) return page.fixed(number, number < 10 and 1 or 0) end

--- "2 openings, 14 trail flags" is what the head of the paper counts.
local KIND_WORDS = { { "opening", "opening center", "opening centers" }, { "trail", "on trails", "on trails" },
    { "buffer", "along buffers", "along buffers" }, { "corner", "at corners of kept clumps", "at corners of kept clumps" } }

--- How many flags of each kind, in words.
function M.counts(flags)
    local count, words = {}, {}
    for _, flag in ipairs(flags) do count[flag.kind] = (count[flag.kind] or 0) + 1 end
    for _, row in ipairs(KIND_WORDS) do
        local n = count[row[1]]
        if n then words[#words + 1] = ("%d %s"):format(n, n == 1 and row[2] or row[3]) end
    end
    return table.concat(words, ", ")
end

--- What else stands at a flag: "trail 1 part 2, start; trail 1 part 3, start".
function M.name(flag)
    if #flag.also == 0 then return flag.name end
    return ("%s (also %s)"):format(flag.name, table.concat(flag.also, "; "))
end

local function head(d, walk)
    local values = run.property.values
    d:heading(1, run.property.name .. ": flags")
    if values.walked then d:definition("walked", { values.walked }) end
    d:definition("flags", { M.counts(walk) })
    d:definition("start", { walk.start or "wherever is best: the map has no gate" })
    d:definition("walk", { M.short(walk.length), " ft in straight lines, without the way back" })
    d:definition("compass", { not walk.declination and "no declination is told, so bearings are true ones only"
        or walk.declination == 0 and "points to true north (declination 0°)"
        or ("points %s° %s of true north"):format(page.fixed(math.abs(walk.declination), 1),
            walk.declination < 0 and "west" or "east") })
    d:definition("pace", { walk.pace and page.fixed(walk.pace, 2) .. " ft" or "none is told" })
end

local function way(d, walk)
    local columns = { { "no.", align = "right" }, { "flag", wrap = true }, { "true", align = "left", wrap = false } }
    if walk.declination then columns[#columns + 1] = { "compass", align = "right" } end
    columns[#columns + 1] = { "feet", align = "right" }
    if walk.pace then columns[#columns + 1] = { "paces", align = "right" } end
    local rows = {}
    for i, flag in ipairs(walk) do
        local row = { tostring(i), M.name(flag), flag.azimuth and survey.quadrant(flag.azimuth, "degrees") or "" }
        if walk.declination then row[#row + 1] = flag.magnetic and survey.azimuth(flag.magnetic, "degrees") or "" end
        row[#row + 1] = flag.distance and M.short(flag.distance) or ""
        if walk.pace then row[#row + 1] = flag.paces and M.short(flag.paces) or "" end
        rows[i] = row
    end
    d:heading(2, "The way")
    d:paragraph { "From the flag before, number by number", walk.start and (", the first from " .. walk.start) or "",
        ": by the compass, in feet and in paces." }
    d:table { columns = columns, rows = rows }
end

local function places(d, walk)
    local rows = {}
    for i, flag in ipairs(walk) do
        rows[i] = { tostring(i), flag.kind, page.fixed(flag.longitude, 6), page.fixed(flag.latitude, 6) }
    end
    d:heading(2, "Where they stand")
    d:table { columns = { { "no.", align = "right" }, "kind", { "longitude", align = "right" },
        { "latitude", align = "right" } }, rows = rows }
    d:paragraph { "Degrees of WGS 84, as receivers and phones have them. Under leaves they may be off by 10 to 30 ft, so "
        .. "compass and paces are the better guide from one flag to the next (common practice, no source)." }
end

local function how(d, walk)
    d:heading(2, "How they were chosen")
    d:paragraph { ("Flagged are the centers of openings (where a center lies outside, a place well inside), both ends of "
        .. "trails and of the edges of buffers, the corners of kept clumps, and as few bends between that whoever walks "
        .. "straight from flag to flag stays within %d ft. Flags within %d ft of one another are one."):format(
        walk.within, stake.ONE_FLAG_FT) }
    d:paragraph { ("Trails, edges and the rims of clumps are walked along, each from one end to the other. %s, always to the "
        .. "nearest of them or of the flags that stand alone; then stretches of the way were turned round, and one to three "
        .. "of its pieces moved, as long as that made it shorter. It is a short way, and not always the shortest."):format(
        walk.start and "From " .. walk.start or "From the best of all flags") }
end

--- The weeks of hunters, as the rule of the region says it.
local function orange()
    local rule = run.rules:get("hunters about")
    if rule and type(rule.says) == "string" then
        return ("%s (%s)."):format(phrases.capital(rule.says), rule.source or "no source")
    end
    return "Blaze orange for everybody who walks there in the hunting weeks (common practice, no source)."
end

local function cautions(d)
    d:heading(2, "Take care")
    d:item { "The lines run straight, whatever lies between: go round water, ice, wire, cliffs and a neighbor's ground, "
        .. "and take up the bearing again behind." }
    d:item { orange() }
    d:item { "Tell somebody where you walk and when you are back; look up before you drive a stake under dead tops." }
    d:item { "A property line is where a surveyor has marked it, not where a flag or a phone says." }
end

--- The document; nil without flags.
function M.document()
    local walk = stake.walk()
    if not walk then return nil end
    local d = page.doc()
    head(d, walk)
    way(d, walk)
    places(d, walk)
    how(d, walk)
    cautions(d)
    return d
end

return M

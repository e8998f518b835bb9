--- Reads lengths: `130 ft`, `3 chains 25 links`, `55 paces`; to feet.
local M = {}

local handbook44 = "NIST Handbook 44, appendix C: 1 chain = 66 ft, 1 rod = 16 1/2 ft, 1 link = 1/100 chain"
local units = {
    { words = { "ft", "foot", "feet" }, feet = 1, source = "the unit itself" },
    { words = { "chains", "chain", "ch" }, feet = 66, source = handbook44 },
    { words = { "links", "link", "lk" }, feet = 0.66, source = handbook44 },
    { words = { "rods", "rod", "rd", "poles", "pole", "perches", "perch" }, feet = 16.5, source = handbook44 },
    { words = { "yd", "yard", "yards" }, feet = 3, source = "1 yard = 3 ft" },
    { words = { "m", "meter", "meters" }, feet = 1 / 0.3048, source = "1 ft = 0.3048 m, by definition" },
    -- The walker's own; how long it is comes with the traverse.
    { words = { "paces", "pace" }, pace = true },
}

M.by_word, M.words = {}, {}
for _, unit in ipairs(units) do
    for _, word in ipairs(unit.words) do
        M.by_word[word] = unit
        M.words[#M.words + 1] = word
    end
end

M.FORM = "130 ft; also chains, links, rods, yards, m and paces"

local function no_unit(c, number)
    local t = c:peek()
    if number.mark then
        return c:fail(number, number, "traverse-unit",
            ("`%s` is part of an angle, and no length"):format(c:typed(number)),
            ("%s ft, where feet are meant"):format(number.text))
    end
    if t.kind == "word" then
        return c:fail(t, t, "traverse-unit", ("`%s` is no unit of length here"):format(c:typed(t)),
            c.near(t.text, M.words, M.FORM))
    end
    return c:fail(number, number, "traverse-unit", ("%s has no unit"):format(number.text), M.FORM)
end

--- One number with its unit, in feet.
local function one(c, pace)
    local number = c:take()
    local unit = not number.mark and c:meaning(M.by_word)
    if not unit then return no_unit(c, number) end
    local word = c:take()
    if unit.pace and not pace then
        return c:fail(word, word, "traverse-pace", "how long a pace is has not been said",
            "on a line above: pace 2.6 ft")
    end
    return tonumber(number.text) * (unit.feet or pace)
end

--- Reads the length at hand.
-- @param pace of the walker in feet; nil when not known
-- @param most feet
-- @return feet; nil when a fault was kept
function M.read(c, pace, most)
    local first, sum = c:peek(), 0
    if first.kind == "grouped" then
        return c:fail(first, first, "traverse-length", "numbers are written without commas",
            (c:typed(first):gsub(",", "")))
    elseif first.kind ~= "number" then
        return c:fail(first, first, "traverse-length", "a length is wanted here", M.FORM)
    end
    while c:peek().kind == "number" do
        local feet = one(c, pace)
        if not feet then return nil end
        sum = sum + feet
    end
    if not (sum > 0 and sum <= most) then
        return c:fail(first, c:peek(-1), "traverse-length", ("a length lies above 0 and up to %d ft"):format(most), nil)
    end
    return sum
end

return M

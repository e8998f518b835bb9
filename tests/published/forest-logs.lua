--- Log rules.
local list = {}
local function log(source, seen, rule, diameter, length, printed, to, where, differs)
    list[#list + 1] = { ask = ("handbook.log_volume { rule = %q, diameter = %d in, "
        .. "length = %d ft%s }"):format(rule, diameter, length,
            to < 1 and ", rounded = false" or ""), unit = "board ft",
        printed = printed, to = to, source = source, seen = seen, where = where, differs = differs }
end

local DOYLE = "Doyle's rule, c. 1825, table of a log-rule reference page"
local DECIMAL_C = "USDA Forest Service, FSH 2409.11, Scribner Decimal C (attribution from memory)"
local SCRIBNER = "Bruce and Schumacher 1950, Forest Mensuration (attribution from memory)"
local STATUTE = "Mich. Comp. Laws 290.401 (Act 208 of 1941), International 1/4-inch"
local CLARK = "Clark 1906, For. Quart. 4:79-93, International 1/8-inch"
local VIRGINIA = "Virginia extension, three rules side by side"

-- Doyle's table, small-end diameter by length; halves rounded up.
local lengths = { 8, 10, 12, 14, 16, 18, 20 }
for _, row in ipairs { { 8, 8, 10, 12, 14, 16, 18, 20 }, { 10, 18, 23, 27, 32, 36, 41, 45 },
    { 12, 32, 40, 48, 56, 64, 72, 80 }, { 14, 50, 63, 75, 88, 100, 113, 125 },
    { 16, 72, 90, 108, 126, 144, 162, 180 }, { 18, 98, 123, 147, 172, 196, 221, 245 },
    { 20, 128, 160, 192, 224, 256, 288, 320 }, { 24, 200, 250, 300, 350, 400, 450, 500 },
    { 30, 338, 423, 507, 592, 676, 761, 845 } } do
    for i, length in ipairs(lengths) do log(DOYLE, "seen", "doyle", row[1], length, row[1 + i],
        1) end
end

-- Scribner Decimal C is a table: its figures are met to the last board foot.
for i, tens in ipairs { 2, 2, 3, 3, 4, 6, 7, 8, 10, 11, 14, 16, 18, 21, 24, 28, 30, 33, 38, 40, 46,
    50,
    55, 58, 61, 66 } do
    log(DECIMAL_C, "seen", "scribner c", 4 + i, 16, 10 * tens, 1, "16-ft logs")
end

-- The formula is another rule: 12 in is 85.76, where the table says 80.
for _, row in ipairs { { 6, 12.44 }, { 8, 30.56 }, { 10, 55 }, { 12, 85.76 }, { 14, 122.84 },
    { 16, 166.24 }, { 20, 272 }, { 24, 403.04 }, { 30, 647 } } do
    log(SCRIBNER, "computed", "scribner", row[1], 16, row[2], 1)
end

-- International 1/4-inch to the nearest 5, and unrounded.
for _, row in ipairs { { 6, 20 }, { 8, 40 }, { 10, 65 }, { 14, 135 }, { 18, 230 }, { 20, 290 },
    { 22, 355 }, { 24, 425 }, { 28, 585 }, { 30, 675 } } do
    log(STATUTE, "computed", "international", row[1], 16, row[2], 5, "16-ft logs")
end
for _, row in ipairs { { 8, 10, 30 }, { 8, 12, 45 }, { 8, 16, 85 }, { 8, 20, 135 }, { 12, 10, 45 },
    { 12, 12, 70 }, { 12, 16, 130 }, { 12, 20, 210 } } do
    log(STATUTE, "computed", "international", row[2], row[1], row[3], 5)
end

-- All three printed together, 12 and 16 in, 16-ft logs.
for _, row in ipairs { { 12, 95, 80, 64 }, { 16, 180, 160, 144 } } do
    log(VIRGINIA, "seen", "international", row[1], 16, row[2], 5)
    log(VIRGINIA, "seen", "scribner c", row[1], 16, row[3], 1)
    log(VIRGINIA, "seen", "doyle", row[1], 16, row[4], 1)
end

-- International 1/8-inch by its closed forms; a page calls the 16-ft form the 1/4-inch rule.
log(CLARK, "computed", "international 1/8", 10, 16, 71.44, 0.01, "0.88 D^2 - 1.52 D - 1.36")
log(CLARK, "computed", "international 1/8", 10, 4, 0.22 * 100 - 7.1, 0.01, "0.22 D^2 - 0.71 D")
log(CLARK, "computed", "international 1/8", 12, 8, 0.44 * 144 - 14.4 - 0.3, 0.01,
    "0.44 D^2 - 1.20 D - 0.30")
log(CLARK, "computed", "international 1/8", 12, 12, 0.66 * 144 - 1.47 * 12 - 0.79, 0.01,
    "0.66 D^2 - 1.47 D - 0.79")
log(CLARK, "computed", "international 1/8", 12, 20, 1.1 * 144 - 1.35 * 12 - 1.9, 0.01,
    "1.10 D^2 - 1.35 D - 1.90")
log("a course page that calls the International 1/8-inch form the 1/4-inch rule", "seen",
    "international", 10, 16, 71.44, 5, "10 in x 16 ft", "the 1/8-inch rule; 1/4-inch is 64.64")

return list

--- What plots say of a whole.
local list = {}
local function add(source, seen, script, ask, unit, printed, to, where, differs)
    list[#list + 1] = { ask = ask, unit = unit, printed = printed, to = to, source = source,
        seen = seen, where = where, script = script, differs = differs }
end

local FREESE = "Freese 1962, Elementary Forest Sampling, USDA Agric. Handb. 232"
local R = "R 4.2.2, the function qt"
local RYAN = "Ryan, Joiner and Ryan 1976, black cherry trees, as summed up by R 4.2.2"

-- 250 acres, 25 plots of 1/4 acre of 1,000, cords. The data are from memory.
local CORDS = "local cords = handbook.sample { values = { 7, 10, 7, 4, 7, 8, 8, 8, 7, 5, 2, 6, 9, "
    .. "7, 8, 6, 7, 11, 8, 8, 7, 3, 8, 7, 7 }, population = 1000 }"
add(FREESE, "memory", CORDS, "cords.mean", nil, 7, 1, "simple random sampling")
add(FREESE, "computed", CORDS, "cords.variance", nil, 3.8333, 0.0001)
add(FREESE, "computed", CORDS, "cords.cv", "percent", 28.0, 0.1)
add(FREESE, "computed", CORDS, "cords.error", nil, 0.3867, 0.0001)
add(FREESE, "computed", CORDS, "cords.low", nil, 6.20, 0.01)
add(FREESE, "computed", CORDS, "cords.high", nil, 7.80, 0.01)

-- A mean and its error over 10,000 acres: two plots with that mean and that error.
local ACRES = "local acres = handbook.strata { strata = { { area = 10000 ac, "
    .. "values = { 5680 - 632, 5680 + 632 } } } }"
local BOOK = "repeated in Spellman and Whiting (authors from memory), Mathematics and Statistics "
    .. "for the Environment, ex. 7.5"
add(FREESE, "seen", ACRES, "acres.total", "ac", 56800000, 1, BOOK)
add(FREESE, "seen", ACRES, "acres.error", "ac", 6320000, 1, BOOK)

-- Two-sided 95 percent.
for _, row in ipairs { { 4, 2.776 }, { 9, 2.262 }, { 14, 2.145 }, { 19, 2.093 }, { 24, 2.064 },
    { 29, 2.045 }, { 30, 2.042 } } do
    add(R, "seen", nil, ("handbook.student_t { freedom = %d, confidence = 95 percent }"):format(
        row[1]), nil, row[2], 0.001)
end

-- Cubic feet of 31 trees.
local CHERRY = "local cherry = handbook.sample { values = { 10.3, 10.3, 10.2, 16.4, 18.8, 19.7, "
    .. "15.6, 18.2, 22.6, 19.9, 24.2, 21.0, 21.4, 21.3, 19.1, 22.2, 33.8, 27.4, 25.7, 24.9, 34.5, "
    .. "31.7, 36.3, 38.3, 42.6, 55.4, 55.7, 58.3, 51.5, 51.0, 77.0 }, confidence = 95 percent }"
for _, row in ipairs { { "mean", 30.171, 0.001 }, { "deviation", 16.43785, 0.00001 },
    { "error", 2.9523, 0.0001 }, { "low", 24.142, 0.001 }, { "high", 36.200, 0.001 } } do
    add(RYAN, "seen", CHERRY, "cherry." .. row[1], nil, row[2], row[3], "the dataset `trees`")
end

return list

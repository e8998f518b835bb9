--- Does what a script computes agree with what was published?
---     lua5.4 tests/published.lua FOLDER_OF_SPINNEY [--rows] [PART_OF_A_ROW]
--- Rows are in tests/published/forest-*.lua, ground-*.lua and work-*.lua; every one is asked in a
--- script, as an author would ask it:
---   ask      an expression, `handbook.radius_factor { baf = 10 }`
---   script   what must stand before it: stands and their tallies
---   unit     the unit in which the answer is read; none for a bare number
---   printed  the value as it was printed, or { least, most } where a range was
---   to       the unit of its last digit; half of it is allowed either way
---   source   the publication; where: table, page, or who repeats it
---   seen     "seen", "memory", or "computed" here from what was seen: such a row is a check
---            of arithmetic, and is not counted as a published value
---   again    the value of a row before it, asked another way: not counted twice
---   differs  why the printed value is known to be another; it must then differ indeed
---   refused  words of the fault that it is known to end in, in place of an answer
--- With --rows every row is shown; without, only what is wrong.
package.path = (arg[0]:match("^(.*/)") or "") .. "?.lua"

local shell = require "runner.shell"

local VALUES_LEAST, SOURCES_LEAST = 80, 15
local SEEN = { seen = true, memory = true, computed = true }

if not arg[1] then
    io.stderr:write("usage: lua5.4 tests/published.lua FOLDER_OF_SPINNEY [--rows] [PART]\n")
    os.exit(64)
end
local shows_rows = arg[2] == "--rows"
local only = arg[shows_rows and 3 or 2]
shell.begin(arg[1])

-- Asking ----------------------------------------------------------------------------------------

--- An answer that is refused must not keep the other rows from being asked.
local HEAD = [[
local function show(i, ask, unit)
  local good, answer = pcall(ask)
  if good and type(answer) ~= "number" and answer ~= nil then
    good, answer = pcall(function () return answer:number(unit) end)
  end
  if good and type(answer) == "number" then print(("= %d %.17g"):format(i, answer))
  else print(("! %d %s"):format(i, tostring(answer))) end
end
]]

--- One script for rows; those that stand one after another with the same `script` share it.
local function script_of(rows)
    local lines, open = { HEAD }, false
    for i, row in ipairs(rows) do
        if i == 1 or row.script ~= rows[i - 1].script then
            if open then lines[#lines + 1] = "end" end
            lines[#lines + 1] = "do " .. (row.script or "")
            open = true
        end
        lines[#lines + 1] = ("show(%d, function () return %s end%s)"):format(i, row.ask,
            row.unit and (", %q"):format(row.unit) or "")
    end
    lines[#lines + 1] = "end"
    return table.concat(lines, "\n") .. "\n"
end

--- Runs a script for the rows; fills in `answer`, or `trouble`.
local function ask(rows)
    local path = shell.scratch("published.rx")
    shell.write(path, script_of(rows))
    -- What a script prints stands among its complaints.
    local out, _, status = shell.run(".", "spinney run " .. shell.quote(path), true)
    for mark, i, rest in out:gmatch("%f[^\n\0]([=!]) (%d+) ([^\n]*)") do
        local row = rows[tonumber(i)]
        if mark == "=" then row.answer = tonumber(rest) else row.trouble = rest end
    end
    for _, row in ipairs(rows) do
        if not row.answer and not row.trouble then
            row.trouble = shell.crash(status) or out:match("error: ([^\n]+)")
                or "it was not answered"
        end
    end
end

--- A slip in one row ends its script: those left without an answer are asked alone.
local function ask_all(rows)
    ask(rows)
    for _, row in ipairs(rows) do
        if not row.answer then
            row.trouble = nil
            ask({ row })
        end
    end
end

-- Judging ---------------------------------------------------------------------------------------

--- How far the answer is from what was printed, beyond a range's ends.
local function distance(row)
    if type(row.printed) == "table" then
        local least, most = row.printed[1], row.printed[2]
        return row.answer < least and row.answer - least or row.answer > most
            and row.answer - most or 0
    end
    return row.answer - row.printed
end

--- What is wrong with the row itself, or nil.
local function malformed(row)
    if type(row.ask) ~= "string" then return "it asks nothing" end
    if type(row.printed) ~= "number" and type(row.printed) ~= "table" then
        return "no printed value"
    end
    if type(row.printed) == "number" and not (row.to and row.to > 0) then
        return "no rounding (to)"
    end
    if not row.source or not SEEN[row.seen] then return "no source, or not said whether seen" end
end

--- Fills in `verdict` ("agrees", "differs", "refused", "wrong") and the words beside it.
local function judge(row)
    if row.trouble and row.refused and row.trouble:find(row.refused, 1, true) then
        row.verdict, row.words = "refused", row.trouble
        return
    elseif row.answer and row.refused then
        row.verdict, row.words = "wrong", "it is answered, but is said to be refused"
        return
    elseif row.trouble then
        row.verdict, row.words = "wrong", row.trouble
        return
    end
    local off = distance(row)
    -- A half as it is written in binary may lie a hair beyond itself.
    local agrees = math.abs(off) <= (row.to or 0) / 2 * (1 + 1e-9) + 1e-12 * math.abs(row.answer)
    if agrees and row.differs then
        row.verdict, row.words = "wrong", "it agrees, but is said to differ: " .. row.differs
    elseif agrees then
        row.verdict, row.words = "agrees", ""
    elseif row.differs then
        row.verdict, row.words = "differs", ("by %.3g: %s"):format(off, row.differs)
    else
        row.verdict, row.words = "wrong", ("off by %.3g"):format(off)
    end
end

-- Showing ---------------------------------------------------------------------------------------

local function digits(to)
    local n = 0
    while n < 9 and to and to * 10 ^ n < 1 - 1e-6 do n = n + 1 end
    return n
end

local function printed_words(row)
    if type(row.printed) == "table" then
        local least, most = row.printed[1], row.printed[2]
        return least == 0 and ("up to %.10g"):format(most) or most == math.huge
            and ("from %.10g"):format(least) or ("%.10g to %.10g"):format(least, most)
    end
    return ("%.10g"):format(row.printed)
end

local function show(row)
    local computed = row.answer and ("%." .. digits(row.to) + 2 .. "f"):format(row.answer) or "none"
    io.write(("%-8s %12s %16s  %-8s %s%s\n"):format(row.verdict, printed_words(row), computed,
        row.seen, row.says or row.ask, row.unit and ", " .. row.unit or ""))
    io.write((" "):rep(8), " ", row.source, row.where and ", " .. row.where or "", "\n")
    if row.words ~= "" then io.write((" "):rep(8), " ", row.words, "\n") end
end

local function wanted(row)
    return not only or (row.ask .. " " .. row.source):find(only, 1, true) ~= nil
end

local passed, failed, values, differing = 0, 0, 0, 0
local sources, source_count = {}, 0

--- Published values and their sources; what was computed here is not one.
local function count(row)
    if row.verdict == "wrong" then failed = failed + 1 else passed = passed + 1 end
    if row.verdict == "differs" then differing = differing + 1 end
    if row.seen == "computed" or row.again or not row.answer then return end
    values = values + 1
    if not sources[row.source] then
        sources[row.source] = true
        source_count = source_count + 1
    end
end

local function run_file(path)
    local rows = {}
    for _, row in ipairs(dofile(path)) do
        if wanted(row) then rows[#rows + 1] = row end
    end
    if #rows == 0 then return end
    local sound = {}
    for _, row in ipairs(rows) do
        row.trouble = malformed(row)
        if not row.trouble then sound[#sound + 1] = row end
    end
    if #sound > 0 then ask_all(sound) end
    if shows_rows then
        io.write("\n", path:match("%l+%-(.*)%.lua$"), "\n")
        io.write(("%-8s %12s %16s\n"):format("", "printed", "computed"))
    end
    for _, row in ipairs(rows) do
        judge(row)
        count(row)
        if shows_rows or row.verdict == "wrong" then show(row) end
    end
end

for _, room in ipairs { "forest", "ground", "work" } do
    for _, path in ipairs(shell.files("tests/published", room .. "-*.lua")) do run_file(path) end
end
shell.finish()
if shows_rows then
    io.write(("\n%d published values of %d sources, %d of them known to differ; "
        .. "%d rows with those computed here\n"):format(values, source_count, differing,
            passed + failed))
end
if not only and (values < VALUES_LEAST or source_count < SOURCES_LEAST) then
    failed = failed + 1
    io.write(("published: %d values of %d sources were answered; at least %d of %d are wanted\n")
        :format(values, source_count, VALUES_LEAST, SOURCES_LEAST))
end
io.write(("published: %d passed, %d failed\n"):format(passed, failed))
os.exit(failed == 0 and passed > 0 and 0 or 1)

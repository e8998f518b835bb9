--- The script tests: tests/scripts/TOPIC/NAME.rx, run in their own folder.
---
--- NAME.out holds what it prints and NAME.err what it complains of. Comments that start a
--- line say the rest:
---     --$ check              the command, instead of `run`; the file is put behind the verb
---     --$ why rule x FILE    or where FILE stands
---     --$ exit 1             the exit status, when it is not 0, or 2 with errors in NAME.err
--- and comments at the end of a line name the messages that belong to the line:
---     width = 3 ac           --! dimension-wrong
---     ]]                     --! tally-number -2      (two lines above: inside a long text)
--- Once a case or a file that it uses has one such mark, exactly the marked messages must
--- come. Scripts in folders further down are there to be used or applied, and are no cases.
local M = { name = "scripts", must_run = true }

local shell = require "runner.shell"

local folder = "tests/scripts"

local function lines(text)
    return text:gmatch("([^\n]*)\n?")
end

--- What the `--$` lines say: the command and the exit status.
local function directions(text)
    local command, status
    for line in lines(text) do
        local direction = line:match("^%-%-%$%s*(.-)%s*$")
        local number = direction and direction:match("^exit (%d+)$")
        if number then
            status = tonumber(number)
        elseif direction then
            command = direction
        end
    end
    return command, status
end

--- Adds the marks of a text to `marks`, a count by "file:line id". Returns whether any.
local function collect_marks(file, text, marks)
    local any, number = false, 0
    for line in lines(text) do
        number = number + 1
        local ids = line:match("%-%-!%s*(.*)$")
        if ids then
            local offset = tonumber(ids:match("%s(%-%d+)%s*$")) or 0
            for id in ids:gsub("%s%-%d+%s*$", ""):gmatch("%S+") do
                local key = ("%s:%d %s"):format(file, number + offset, id)
                marks[key] = (marks[key] or 0) + 1
                any = true
            end
        end
    end
    return any
end

--- The marks of a case and of all that it uses, or nil when there are none.
local function marks_of(where, file)
    local marks, any, seen, waiting = {}, false, {}, { file }
    while #waiting > 0 do
        local name = table.remove(waiting)
        local text = not seen[name] and shell.read(where .. "/" .. name)
        seen[name] = true
        if text then
            any = collect_marks(name, text, marks) or any
            for used in text:gmatch("use%s*%(?%s*[\"']([^\"']+)[\"']") do
                waiting[#waiting + 1] = used
            end
            for applied in text:gmatch("apply%s*[\"']([^\"']+)[\"']") do
                waiting[#waiting + 1] = "prescriptions/" .. applied .. ".rx"
            end
        end
    end
    return any and marks or nil
end

--- The messages in a text printed with --ids, as marks; the second result is the text as
--- an author sees it.
local function messages_of(text)
    local found = {}
    local plain = {}
    for line in text:gmatch("[^\n]*\n?") do
        local head, level, id, rest = line:match("^(.-)(%l+)%[([%l%d-]+)%](: .*)$")
        local file, number = (head or ""):match("^([^:]+):(%d+):%d+: $")
        if id and (file or head == "") and (level == "error" or level == "warning") then
            local key = ("%s %s"):format(file and file .. ":" .. number or "nowhere", id)
            found[key] = (found[key] or 0) + 1
            line = head .. level .. rest
        end
        plain[#plain + 1] = line
    end
    return found, table.concat(plain)
end

--- Says which marks have no message and which messages no mark.
local function compare_marks(marks, found, trouble)
    local keys = {}
    for key in pairs(marks) do
        keys[#keys + 1] = key
    end
    for key in pairs(found) do
        if not marks[key] then
            keys[#keys + 1] = key
        end
    end
    table.sort(keys)
    for _, key in ipairs(keys) do
        local wanted, got = marks[key] or 0, found[key] or 0
        if wanted ~= got then
            trouble[#trouble + 1] = ("%s: marked %d times, reported %d times")
                :format(key, wanted, got)
        end
    end
end

local function compare_text(what, wanted, got, trouble)
    if wanted ~= got then
        trouble[#trouble + 1] = what .. ":\n" .. shell.difference(wanted, got)
    end
end

local function command_line(direction, file, with_ids)
    direction = direction or "run"
    local quoted = shell.quote(file)
    local words, count = direction:gsub("%f[%w]FILE%f[%W]", (quoted:gsub("%%", "%%%%")))
    if count == 0 then
        words = direction:gsub("^%S+", function(verb) return verb .. " " .. quoted end)
    end
    return "spinney " .. words .. (with_ids and " --ids" or "")
end

--- Runs one case. Returns what is wrong, or nil.
local function run_case(path, accept)
    local where, file = path:match("^(.*)/([^/]+)$")
    local base = path:gsub("%.rx$", "")
    local direction, status = directions(shell.read(path))
    local marks = marks_of(where, file)
    local out, err, got_status = shell.run(where, command_line(direction, file, marks ~= nil))
    local found, plain = messages_of(err)
    if marks then
        err = plain
    end

    if accept then
        local said_nothing = out == "" and (err ~= "" or marks)
        -- Marks say enough about a run whose paper nobody wanted to see before.
        if said_nothing then
            os.remove(base .. ".out")
        elseif not marks or shell.read(base .. ".out") then
            shell.write(base .. ".out", out)
        end
        if err == "" then
            os.remove(base .. ".err")
        else
            shell.write(base .. ".err", err)
        end
    end

    local wanted_out, wanted_err = shell.read(base .. ".out"), shell.read(base .. ".err")
    local trouble = {}
    if not wanted_out and not wanted_err and not marks then
        trouble[#trouble + 1] = "it expects nothing: there is no .out, no .err and no mark"
    end
    local in_error = wanted_err or (marks and plain) or ""
    local is_bad = in_error:find("error: ", 1, true) or
        (in_error ~= "" and not in_error:find("warning: ", 1, true))
    status = status or (is_bad and 2 or 0)
    if got_status ~= status then
        trouble[#trouble + 1] = shell.crash(got_status) or
            ("exit status %d, wanted %d"):format(got_status, status)
    end
    if wanted_out or got_status >= 2 then
        compare_text("output", wanted_out or "", out, trouble)
    end
    if wanted_err or not marks then
        compare_text("complaints", wanted_err or "", err, trouble)
    end
    if marks then
        compare_marks(marks, found, trouble)
    end
    if #trouble > 0 then
        return table.concat(trouble, "\n")
    end
end

--- Says which expectations have lost their script.
local function find_orphans(topic, report)
    for _, kind in ipairs { "out", "err" } do
        for _, path in ipairs(shell.files(topic, "*." .. kind, 1)) do
            if not shell.read((path:gsub("%.%l+$", ".rx"))) then
                report(path, "there is no script for it")
            end
        end
    end
end

--- Runs all cases, a topic at a time.
function M.run(options, report)
    for _, topic in ipairs(shell.folders(folder)) do
        local cases = shell.files(topic, "*.rx", 1)
        if #cases == 0 and topic:find(options.only, 1, true) then
            report(topic, "there is no script in this folder")
        end
        for _, path in ipairs(cases) do
            if path:find(options.only, 1, true) then
                report(path, run_case(path, options.accept))
            end
        end
        if options.only == "" then
            find_orphans(topic, report)
        end
    end
end

return M

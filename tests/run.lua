--- Runs the script tests, the book, the examples and the code blocks of the documents:
---     lua5.4 tests/run.lua FOLDER_OF_SPINNEY [--accept] [PART_OF_A_NAME]
--- With --accept, what the scripts print now becomes what they should print: read the
--- difference before you keep it. With a part of a name, only cases whose path holds it.
package.path = (arg[0]:match("^(.*/)") or "") .. "?.lua"

local books = require "runner.books"
local documents = require "runner.documents"
local scripts = require "runner.scripts"
local shell = require "runner.shell"

local options = { accept = false, only = "" }
for i = 2, #arg do
    if arg[i] == "--accept" then
        options.accept = true
    else
        options.only = arg[i]
    end
end
if not arg[1] then
    io.stderr:write("usage: lua5.4 tests/run.lua FOLDER_OF_SPINNEY [--accept] [NAME]\n")
    os.exit(64)
end

shell.begin(arg[1])
local passed, failed = 0, 0

--- Counts one case; `trouble` is nil when it passed, else what to show.
local function report(name, trouble)
    if trouble then
        failed = failed + 1
        io.write("FAILED ", name, "\n", (trouble:gsub("[^\n]+", "    %0")), "\n")
    else
        passed = passed + 1
    end
end

for _, group in ipairs { scripts, books, documents } do
    local before = passed + failed
    group.run(options, report)
    if options.only == "" and group.must_run and passed + failed == before then
        report(group.name, "there are none")
    end
    io.write(("%s: %d cases\n"):format(group.name, passed + failed - before))
end
shell.finish()

if passed + failed == 0 then
    io.write("nothing ran\n")
end
io.write(("%d passed, %d failed\n"):format(passed, failed))
os.exit(failed == 0 and passed > 0 and 0 or 1)

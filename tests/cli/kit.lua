--- What the tests from outside share: a folder of their own, runs in it, and verdicts.
local M = { passed = 0, failed = 0 }

local shell = require "runner.shell"

M.quote = shell.quote
M.read = shell.read

--- The folder the tests work in: every relative path of theirs is below it.
M.folder = nil
--- The folder that spinney was built in.
M.built = nil

--- A plan that is fine: one stand, one cut with its crew, an opening and a rule of its own.
M.plan = [=[
property "Hazel Hill" {
  region = "lake-states/michigan", county = "Test County", walked = Oct 14 2026,
  owner = "nobody", goals = { "deer cover" },
}
local width = input "width" { default = 40 ft, least = 25 ft, most = 90 ft, says = "of an opening" }
crew "owner" { people = 2, hours_each = 10 h/wk, skills = { "saw" }, from = Nov 1 2026 }
stand "Bench aspen" {
  area = 4.5 ac, ground = "moist", tree_length = 55 to 65 ft, width = 310 ft,
  tally = [[
    baf 10
    plot 1: bigtooth aspen 7 8 8 9 11; red oak 14
    plot 2: bigtooth aspen 6 8 9 10 10 12; paper birch 8
  ]],
}
local fell = cut "fell" { stand = "Bench aspen", species = "aspen", how = "flush",
  during = season "dormant", leave = 15 trees/ac, slash = "lop and leave" }
opening "rest" { stand = "Bench aspen", use = "rest", width = width, count = 2, after = fell }
]=]

--- The same, with a stop.
M.stopped = M.plan .. [[
rule "never" { level = "stop", applies_to = { "opening" }, when = function () return true end,
               says = "this is not to be done", source = "the test" }
]]

--- A path in the tests' folder.
function M.path(name)
    return M.folder .. "/" .. name
end

--- Writes a file there, with the folders above it.
function M.put(name, text)
    os.execute("mkdir -p " .. shell.quote(M.path(name):match("^(.*)/")))
    shell.write(M.path(name), text)
end

function M.begin(built)
    shell.patience = 60
    shell.begin(built)
    M.built = built
    M.folder = shell.scratch("cli")
    M.put("plan.rx", M.plan)
    M.put("stopped.rx", M.stopped)
    M.put("wrong.rx", "property \"x\" { walkd = Oct 14 2026 }\n")
end

M.finish = shell.finish

--- Runs a shell command in the tests' folder. Returns what it printed, what it complained
--- of and its exit status. A crash is a failure, whatever was expected.
function M.run(command)
    local out, err, status = shell.run(M.folder, command)
    local crash = shell.crash(status)
    if crash and not (status > 128 and command:find("# may be ended", 1, true)) then
        M.fail(command, crash .. "\n" .. err)
    end
    return out, err, status
end

function M.fail(name, trouble)
    M.failed = M.failed + 1
    io.write("FAILED ", name, "\n", ((trouble or ""):gsub("[^\n]+", "    %0")), "\n")
end

function M.check(name, fine, trouble)
    if fine then
        M.passed = M.passed + 1
    else
        M.fail(name, trouble)
    end
    return fine
end

--- The first lines of a text: enough to see what went wrong.
local function head(text)
    local lines = {}
    for line in text:gmatch("[^\n]*\n?") do
        lines[#lines + 1] = #lines < 15 and line or nil
    end
    return table.concat(lines)
end

--- Compares two values or texts.
function M.same(name, wanted, got)
    if wanted == got then
        return M.check(name, true)
    end
    if type(wanted) == "string" and type(got) == "string" then
        return M.check(name, false, head(shell.difference(wanted, got)))
    end
    return M.check(name, false, ("wanted %s, got %s"):format(tostring(wanted), tostring(got)))
end

--- Runs a command and judges it: `wanted` holds the exit status, and for each stream a text
--- that it has (plain), or false when it must be empty. Returns the two streams.
function M.expect(command, wanted)
    local out, err, status = M.run(command)
    local trouble = {}
    if status ~= wanted.status then
        trouble[#trouble + 1] = ("exit status %d, wanted %d"):format(status, wanted.status)
    end
    for name, got in pairs { out = out, err = err } do
        local want = wanted[name]
        if want == false and got ~= "" then
            trouble[#trouble + 1] = ("std%s is not empty:\n%s"):format(name, head(got))
        elseif type(want) == "string" and not got:find(want, 1, true) then
            trouble[#trouble + 1] = ("std%s has no %q:\n%s"):format(name, want, head(got))
        end
    end
    table.sort(trouble)
    M.check(command, #trouble == 0, table.concat(trouble, "\n"))
    return out, err, status
end

--- Is a program there?
function M.has(program)
    return os.execute("command -v " .. program .. " >/dev/null 2>&1") == true
end

return M

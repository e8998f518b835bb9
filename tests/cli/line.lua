--- Verbs, options, exit status, and which stream a thing goes to.
local kit = require "cli.kit"

--- A command line that is refused: status 64, nothing printed, these words.
local function refused(words, complaint, mend)
    local _, err = kit.expect("spinney " .. words, { status = 64, out = false, err = complaint })
    if mend then
        kit.check(words .. ": mend", err:find(mend, 1, true), err)
    end
end

local function verbs()
    kit.expect("spinney run plan.rx", { status = 0, out = "Hazel Hill\n===", err = false })
    kit.expect("spinney run stopped.rx", { status = 1, out = "STOP     This is not to be done.",
        err = false })
    kit.expect("spinney run wrong.rx", { status = 2, out = false, err = "property has no `walkd`" })
    kit.expect("spinney check plan.rx", { status = 0, out = false, err = "note: " })
    kit.expect("spinney check stopped.rx", { status = 1, out = false,
        err = "stop: this is not to be done" })
    kit.expect("spinney check wrong.rx", { status = 2, out = false,
        err = "wrong.rx:1:16: error: " })
    kit.expect("spinney why plan.rx total.hours", { status = 0, out = "total hours = ",
        err = false })
    kit.expect("spinney why stopped.rx total.hours", { status = 0, out = "total hours = " })
    kit.expect("spinney why plan.rx nothing", { status = 2, out = false,
        err = "no quantity \"nothing\"" })
    kit.expect("spinney why 'range(3 ft, 4 ft) * 2'", { status = 0,
        out = "what is asked = 7 ft (6 to 8)" })
    kit.expect("spinney why '(\"ab\"):rep(2)'", { status = 0, out = "abab\n" })
    kit.expect("spinney why 'range(3 ft, 4 ac)'", { status = 2, out = false,
        err = "the question:1:" })
    kit.expect("spinney why 'handbook.plot_radios { }'", { status = 2, out = false,
        err = "did you mean `handbook.plot_radius`?" })
    kit.expect("spinney why rule 'wet ground'", { status = 0, out = "source: ", err = false })
    kit.expect("spinney why rule nothing", { status = 2, out = false, err = "there is no rule" })
    kit.expect("spinney help", { status = 0, out = "prescription", err = false })
    kit.expect("spinney help cut", { status = 0, out = "slash", err = false })
    kit.expect("spinney limit 10 12", { status = 0, out = "33.00 ft", err = false })
    kit.expect("spinney limit 10 12in 30%", { status = 0, out = "34.45 ft", err = false })
    kit.expect("spinney limit 40", { status = 0, out = "   30 in       41.25       40.00",
        err = false })
    kit.expect("spinney help limit", { status = 0, out = "borderline", err = false })
    kit.expect("spinney --version", { status = 0, out = "spinney ", err = false })
    kit.expect("spinney --help", { status = 0, out = "usage: spinney", err = false })
end

local function several_files()
    local _, err = kit.expect("spinney check plan.rx wrong.rx stopped.rx", { status = 2,
        out = false })
    local at = 1
    for _, words in ipairs { "plan.rx:", "wrong.rx:1:16: error: ",
        "stop: this is not to be done" } do
        local found = err:find(words, at, true)
        kit.check("check of several: " .. words, found, err)
        at = found or at
    end
    kit.expect("spinney check stopped.rx plan.rx", { status = 1, out = false })
    kit.expect("spinney check plan.rx nosuch.rx stopped.rx", { status = 2,
        err = "no file `nosuch.rx`" })
    -- The same plan twice is two plans.
    local _, once = kit.run("spinney check stopped.rx")
    local _, twice = kit.run("spinney check stopped.rx stopped.rx")
    kit.same("check of one plan twice", once .. once, twice)
end

local function wrong_lines()
    local _, err = kit.expect("spinney", { status = 64, out = false, err = "usage: spinney" })
    kit.same("the usage is that of --help", (kit.run("spinney --help")), err)
    refused("rnu plan.rx", "there is no verb `rnu`", "did you mean `spinney run`?")
    refused("plan.rx", "there is no verb `plan.rx`", "`spinney run plan.rx`")
    refused("run", "run wants one plan")
    refused("limit", "limit wants a basal area factor", "spinney limit 10 12.4")
    refused("limit 10 12 ft", "`ft` is not read by limit")
    refused("limit 10 12 --json", "`spinney limit` takes no --json")
    refused("limt 10 12", "there is no verb `limt`", "did you mean `spinney limit`?")
    refused("run plan.rx stopped.rx", "run wants one plan")
    refused("check", "check wants")
    refused("why", "why wants a plan and a name")
    refused("why plan.rx", "why wants a plan and a name")
    refused("why plan.rx a b", "why wants a plan and a name")
    refused("why rule", "and price want a name")
    refused("why rule a plan.rx b", "and price want a name")
    refused("help a b", "help wants one word")
    refused("--version x", "--version stands alone")
    refused("--help x", "--help stands alone")
end

local function wrong_options()
    refused("run plan.rx --jsn", "there is no option `--jsn`", "did you mean `--json`?")
    refused("run plan.rx -x", "there is no option `-x`")
    refused("run --version plan.rx", "there is no option `--version`")
    refused("run plan.rx --set", "--set wants a value: --set NAME=VALUE")
    refused("run plan.rx --pack", "--pack wants a value: --pack DIR")
    refused("run plan.rx --steps", "--steps wants a value")
    refused("run plan.rx --set width", "--set wants NAME=VALUE, not `width`")
    refused("run plan.rx --set =3", "--set wants NAME=VALUE, not `=3`")
    for _, number in ipairs { "0", "-3", "x", "3x", "", "1,5", "nan", "inf", "0x10", "1e999" } do
        refused("run plan.rx --steps " .. kit.quote(number), "--steps wants a number above zero")
        refused("run plan.rx --memory " .. kit.quote(number), "--memory wants a number above zero")
    end
    for _, verb in ipairs { "check plan.rx", "why plan.rx total.hours", "help cut" } do
        refused(verb .. " --json", "takes no --json")
    end
    refused("help cut --set width=3", "takes no --set")
    refused("run plan.rx" .. (" --pack ."):rep(17), "--pack is given more than 16 times")
    refused("run plan.rx" .. (" --set a=1"):rep(65), "--set is given more than 64 times")
    -- What was typed is shown without what could steer a terminal.
    local _, err = kit.run("spinney \"$(printf '\\033[31mred')\"")
    kit.check("a verb that steers", not err:find("\27", 1, true), err)
end

--- What no count of instructions ends, the processor's time does.
local function endless()
    kit.put("call.rx", "local m = {}\nlocal t = setmetatable({}, m)\nm.__call = t\nt()\n")
    kit.expect("ulimit -St 1; spinney run call.rx", { status = 2, out = false,
        err = "used up its time on the processor" })
    -- Without a loop or a function nothing is counted, but in a plan of many acts.
    local acts = {}
    for i = 1, 60 do
        acts[i] = ("mow \"m%d\" { stand = \"Bench aspen\", in_year = { %s } }\n"):format(i,
            "1, 2, 3, 4, 5, 6, 7, 8, 9, 10")
    end
    kit.put("many.rx", kit.plan .. table.concat(acts))
    kit.expect("spinney run many.rx", { status = 0, out = "Hazel Hill", err = false })
    kit.expect("spinney run many.rx --steps 1", { status = 2, out = false,
        err = "was stopped after 1 million steps" })
end

--- Options that do something.
local function options()
    local plain = kit.run("spinney run plan.rx")
    kit.same("options before the plan", kit.run("spinney run --json plan.rx"),
        kit.run("spinney --json run plan.rx"))
    kit.same("after -- no word is an option", plain, kit.run("spinney run -- plan.rx"))
    kit.expect("spinney run -- --json", { status = 2, err = "there is no file `--json`" })
    -- By another name its ranges are other draws.
    local sure = kit.plan:gsub("tree_length = 55 to 65 ft", "tree_length = 60 ft")
    kit.put("sure.rx", sure)
    kit.put("--odd.rx", sure)
    kit.same("a plan whose name starts with hyphens", kit.run("spinney run sure.rx"),
        kit.run("spinney run -- --odd.rx"))
    kit.expect("spinney check wrong.rx --ids", { status = 2, err = "error[key-unknown]: " })
    kit.expect("spinney check stopped.rx --ids", { status = 1, err = "stop[never]: " })
    kit.put("loop.rx", "while true do end\n")
    kit.expect("spinney run loop.rx --steps 0.5", { status = 2, out = false,
        err = "loop.rx:1:1: error: the script was stopped after 1 million steps" })
    kit.put("fat.rx", "local t = {} for i = 1, 1e7 do t[i] = i end\n")
    kit.expect("spinney run fat.rx --memory 8", { status = 2, out = false,
        err = "wants more than 8 MB of memory" })
    kit.put("deep.rx", "local function f() local x = nil + 1 return x end\nf()\n")
    local _, err = kit.expect("spinney run deep.rx --trace", { status = 2, out = false })
    kit.check("--trace shows the traceback", err:find("stack traceback", 1, true), err)
    _, err = kit.run("spinney run deep.rx")
    kit.check("and nothing else does", not err:find("traceback", 1, true), err)
end

local function inputs()
    local wide = kit.expect("spinney run plan.rx --set 'width=60 ft'", { status = 0, err = false })
    kit.check("--set is heeded", wide:find("60 ft", 1, true) and not kit.run("spinney run plan.rx")
        :find("60 ft", 1, true), wide)
    kit.same("the last --set of a name counts", wide,
        kit.run("spinney run plan.rx --set 'width=30 ft' --set 'width=60 ft'"))
    kit.same("blanks do not matter", wide, kit.run("spinney run plan.rx --set 'width = 60 ft'"))
    kit.expect("spinney why plan.rx width --set 'width=60 ft'", { status = 0, out = "= 60 ft" })
    kit.expect("spinney check plan.rx --set 'width=60 ft'", { status = 0 })
    kit.expect("spinney run plan.rx --set 'width=3 ac'", { status = 2, out = false,
        err = "error: " })
    kit.expect("spinney run plan.rx --set 'width=95 ft'", { status = 2, err = "the most is 90 ft" })
    kit.expect("spinney run plan.rx --set 'width=95 ft' --set wdth=1", { status = 2, out = false })
    kit.expect("spinney run plan.rx --set 'wdth=60 ft'", { status = 2,
        err = "did you mean \"width\"?" })
    for _, odd in ipairs { "", "60 fot", ")", "'", "\"", "[[", "--", "nil", "(", "end",
        "60 ft\n", "\27[31m", "\255" } do
        local _, err, status = kit.run("spinney run plan.rx --set " .. kit.quote("width=" .. odd))
        local name = ("--set width=%q"):format(odd)
        if odd == "60 ft\n" then
            kit.check(name, status == 0, err)
        else
            kit.check(name, status == 2 and err:find("error: ", 1, true)
                and not err:find("\27", 1, true) and not err:find("stdlib/", 1, true), err)
        end
    end
    kit.expect("spinney run plan.rx --set 'width=(function() while true do end end)()' --steps 1",
        { status = 2, err = "was stopped after 1 million steps" })
end

return function()
    verbs()
    several_files()
    wrong_lines()
    wrong_options()
    options()
    endless()
    inputs()
end

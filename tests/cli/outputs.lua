--- Streams that are closed, full, pipes or terminals.
local kit = require "cli.kit"

local function broken_outputs()
    local full = io.open("/dev/full", "w")
    if full then
        full:close()
    end
    for _, words in ipairs { "run plan.rx", "run plan.rx --json", "why plan.rx total.hours", "help",
        "help cut",
        "--version", "--help", "why rule 'wet ground'" } do
        kit.expect("spinney " .. words .. " >&-", { status = 2, out = false,
            err = "could not be written" })
        if full then
            kit.expect("spinney " .. words .. " >/dev/full", { status = 2,
                err = "could not be written" })
        end
    end
    kit.expect("spinney check stopped.rx 2>&-", { status = 2, out = false })
    kit.expect("spinney run wrong.rx 2>&-", { status = 2, out = false })
    if full then
        kit.expect("spinney check stopped.rx 2>/dev/full", { status = 2, out = false })
    end
    kit.expect("spinney run plan.rx <&-", { status = 0, out = "Hazel Hill", err = false })
    kit.expect("spinney run stopped.rx <&- >&- 2>&-", { status = 2, out = false, err = false })
    kit.expect("spinney 2>&-", { status = 64, out = false })
    -- The plan is not written to, whichever numbers its file gets.
    kit.same("the plan after runs without streams", kit.plan, kit.read(kit.path("plan.rx")))
end

local function pipes()
    local out, err = kit.run("spinney run plan.rx | head -1")
    kit.same("| head -1", "Hazel Hill\n", out)
    kit.same("| head -1 complains of nothing", "", err)
    -- More than a pipe holds, so that the writer is still at it when the reader goes.
    local stand = [[
stand "Stand %d" { area = %d ac, species = { ["red oak"] = 100 percent }, diameter = 6 to 9 in,
  crowding = "open", says = "%s" }
]]
    local stands = {}
    for i = 1, 400 do
        stands[i] = stand:format(i, i, ("a long remark "):rep(20))
    end
    kit.put("large.rx", kit.plan .. table.concat(stands))
    out, err = kit.run("{ spinney run large.rx; echo $? >status; } | head -1 # may be ended")
    kit.same("a large paper | head -1", "Hazel Hill\n", out)
    kit.same("a large paper | head -1 complains of nothing", "", err)
    kit.same("its status is that of a closed pipe", "141\n", kit.read(kit.path("status")))
end

--- What a command shows on a terminal, by way of script(1).
local function on_terminal(words)
    local out = kit.run(("script -qec %s /dev/null"):format(kit.quote("spinney " .. words)))
    return out
end

local function terminals()
    local piped = kit.run("spinney run stopped.rx")
    kit.check("no colour in a pipe", not piped:find("\27", 1, true), piped)
    kit.check("no colour in a pipe, with other words",
        not kit.run("spinney help cut; spinney why plan.rx total.cost;"
        .. " CLICOLOR_FORCE=1 FORCE_COLOR=1 spinney run stopped.rx"):find("\27", 1, true))
    if not kit.has("script") then
        return
    end
    local shown = on_terminal("run stopped.rx")
    kit.check("colour on a terminal", shown:find("\27[1;31mSTOP\27[0m", 1, true), shown:sub(1, 600))
    local plain = shown:gsub("\27%[[%d;]*m", ""):gsub("\r", "")
    kit.same("the same words on a terminal", piped, plain)
    for _, setting in ipairs { "NO_COLOR=1", "NO_COLOR=yes", "NO_COLOR=0" } do
        local out = kit.run(("%s script -qec 'spinney run stopped.rx' /dev/null"):format(setting))
        kit.same(setting, piped, (out:gsub("\r", "")))
    end
    kit.same("an empty NO_COLOR is none", shown,
        (kit.run("NO_COLOR= script -qec 'spinney run stopped.rx' /dev/null")))
    local data = on_terminal("run stopped.rx --json"):gsub("\r", "")
    kit.same("JSON is the same on a terminal", (kit.run("spinney run stopped.rx --json")), data)
end

return function()
    broken_outputs()
    pipes()
    terminals()
end

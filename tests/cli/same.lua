--- The same input gives the same bytes: in every surrounding that a run may find itself in.
local kit = require "cli.kit"

--- Builds the library that is put before the C library; its path, or nil when there is no
--- compiler to do it.
local function shim()
    local top = io.popen("pwd"):read("l")
    local _, err, status = kit.run(("cc -shared -fPIC -O1 -o shim.so %s"):format(
        kit.quote(top .. "/tests/cli/shim.c")))
    return kit.check("the shim is built", status == 0, err) and kit.path("shim.so")
end

--- Surroundings, as words before the command.
local function surroundings()
    local list = { "", "", "", "TZ=Pacific/Kiritimati", "TZ=America/Adak", "TZ=:nonsense", "TZ=",
        "LC_ALL=C", "LC_ALL=de_DE.UTF-8", "LC_ALL=tr_TR.UTF-8 LANGUAGE=de", "LANG= LC_ALL=",
        "MALLOC_PERTURB_=171", "MALLOC_ARENA_MAX=1 MALLOC_TOP_PAD_=9000000",
            "MALLOC_MMAP_THRESHOLD_=4096",
        "COLUMNS=40 LINES=10", "TERM=dumb", "TERM=xterm-256color COLORTERM=truecolor",
            "HOME=/ USER=root",
        "SOURCE_DATE_EPOCH=0", "LUA_INIT='error(1)' LUA_INIT_5_4='error(2)' LUA_PATH=x LUA_CPATH=y",
        "LUA_PATH_5_4=./?.lua", "env -i PATH=\"$PATH\"", "nice -n 5" }
    if kit.has("setarch") and select(3, kit.run("setarch -R true")) == 0 then
        list[#list + 1] = "setarch -R"
        list[#list + 1] = "setarch -R env MALLOC_PERTURB_=85"
    end
    local library = shim()
    if library then
        -- The sanitizers want to come first, and may come second.
        local loaded = "ASAN_OPTIONS=exitcode=99:verify_asan_link_order=0 LD_PRELOAD="
            .. kit.quote(library)
        for _, words in ipairs { "SHIM_TIME=1", "SHIM_TIME=1794096000", "SHIM_TIME=4102444800",
            "SHIM_LOCALE=1" } do
            list[#list + 1] = words .. " " .. loaded
        end
        kit.put("comma.c",
            "#include <stdio.h>\nint main(void) { printf(\"%.1f\\n\", 3.5); return 0; }\n")
        kit.expect("cc comma.c -o comma && SHIM_LOCALE=1 LD_PRELOAD=" .. kit.quote(library)
            .. " ./comma",
            { status = 0, out = "3,5\n" })
    end
    return list
end

--- The words must come before the program, not before the shell.
local function within(words, command)
    return words:find("^[%w_]+=") and words .. " " .. command or (words .. " "
        .. command):gsub("^ ", "")
end

local function everywhere(list, command)
    local wanted, wanted_err, wanted_status = kit.run(command)
    for _, words in ipairs(list) do
        local out, err, status = kit.run((within(words, command)))
        local name = ("%s: %s"):format(command, words:gsub("LD_PRELOAD=%S+", "shim"))
        kit.same(name .. ": status", wanted_status, status)
        kit.same(name, wanted, out)
        kit.same(name .. ": complaints", wanted_err, err)
    end
end

--- What belongs to the command line alone: the folder it is typed in.
local function folders(demo)
    local paper = kit.run("spinney run " .. demo)
    local data = kit.run("spinney run --json " .. demo):gsub('"file": "[^"]*/', '"file": "')
    kit.run("mkdir -p 'deep/down/under a blank' && cp -r " .. demo:gsub("/plan%.rx'$", "'")
        .. " deep/creek")
    for _, way in ipairs { "cd deep/creek && spinney run plan.rx", "spinney run deep/creek/plan.rx",
        "cd 'deep/down/under a blank' && spinney run ../../creek/plan.rx",
        "cd / && spinney run " .. kit.quote(kit.path("deep/creek/plan.rx")) } do
        kit.same(way, paper, (kit.run(way)))
        local out = kit.run((way:gsub(" run ", " run --json "))):gsub('"file": "[^"]*/',
            '"file": "')
        kit.same(way .. " --json", data:gsub('"file": "prescriptions/', '"file": "'), out)
    end
    -- The order in which a folder lists its files is nobody's business.
    for i = 1, 9 do
        kit.put(("one/prescriptions/p%d.rx"):format(i), kit.plan)
        kit.put(("two/prescriptions/p%d.rx"):format(10 - i), kit.plan)
    end
    kit.same("lists of folders", (kit.run("spinney help prescriptions --pack one")),
        (kit.run("spinney help prescriptions --pack two")))
end

return function()
    local demo = kit.quote(io.popen("pwd"):read("l") .. "/examples/quill-creek/plan.rx")
    local list = surroundings()
    everywhere(list, "spinney run " .. demo)
    everywhere(list, "spinney run --json " .. demo)
    everywhere(list, "spinney why " .. demo .. " total.hours")
    everywhere(list, "spinney run " .. demo .. " -o into && cat into/*; cat into/*")
    everywhere(list, "spinney check stopped.rx wrong.rx plan.rx")
    everywhere({ "", "SHIM_TIME=7", "LC_ALL=de_DE.UTF-8" }, "spinney help")
    folders(demo)
end

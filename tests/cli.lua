--- The program from outside: the command line, odd files, packs, papers, and that the same
--- input gives the same bytes:
---     lua5.4 tests/cli.lua FOLDER_OF_SPINNEY [PART_OF_A_TOPIC]
--- Run from the top of the source tree, as the other tests are.
package.path = (arg[0]:match("^(.*/)") or "") .. "?.lua"

local kit = require "cli.kit"

if not arg[1] then
    io.stderr:write("usage: lua5.4 tests/cli.lua FOLDER_OF_SPINNEY [TOPIC]\n")
    os.exit(64)
end

kit.begin(arg[1])
for _, topic in ipairs { "line", "outputs", "plans", "why", "help", "packs", "data", "texts",
    "same", "libraries", "maps", "map_verb", "files", "flags", "schedule" } do
    if topic:find(arg[2] or "", 1, true) then
        local before = kit.passed + kit.failed
        require("cli." .. topic)()
        io.write(("%s: %d cases\n"):format(topic, kit.passed + kit.failed - before))
    end
end
kit.finish()
io.write(("%d passed, %d failed\n"):format(kit.passed, kit.failed))
os.exit(kit.failed == 0 and kit.passed > 0 and 0 or 1)

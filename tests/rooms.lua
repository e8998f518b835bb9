--- Which room may include which: one way, no turning back. Run from the top of the source
--- tree; prints each include that goes the wrong way.
local allowed = {
    base = "base",
    quantity = "base quantity",
    calendar = "base calendar",
    forest = "base quantity calendar forest",
    ground = "base quantity calendar ground",
    work = "base quantity calendar work",
    -- The plan writes itself as data with page's JSON.
    plan = "base quantity calendar forest ground work plan page",
    page = "base quantity calendar page",
}
-- The rooms that may see Lua stand on all others.
local sees_lua = { lang = true, bind = true }

local function is_lua_header(name)
    return name:find("^lua") or name:find("^lauxlib") or name:find("lpeg")
end

local function stands_on(room, target)
    return (" " .. allowed[room] .. " "):find(" " .. target .. " ", 1, true) ~= nil
end

local troubles, files = 0, 0

local function check(path, room, number, mark, name)
    local target = name:match("^([%w_]+)/")
    local words
    if mark == '"' and not target then
        words = "is not written from src/"
    elseif sees_lua[room] then
        return
    elseif is_lua_header(name) then
        words = "is Lua's, which only lang and bind may include"
    elseif target and mark == '"' and not stands_on(room, target) then
        words = "is of a room that " .. room .. " does not stand on"
    end
    if words then
        troubles = troubles + 1
        print(("%s:%d: %s %s"):format(path, number, name, words))
    end
end

local pipe = assert(io.popen("find src -mindepth 2 -name '*.[ch]' | LC_ALL=C sort"))
for path in pipe:lines() do
    local room = path:match("^src/([^/]+)/")
    if not allowed[room] and not sees_lua[room] then
        troubles = troubles + 1
        print(path .. ": no such room; add it to tests/rooms.lua")
    else
        files = files + 1
        local number = 0
        for line in io.lines(path) do
            number = number + 1
            local mark, name = line:match("^%s*#%s*include%s*([<\"])([^>\"]+)")
            if name then
                check(path, room, number, mark, name)
            end
        end
    end
end
pipe:close()

print(("rooms: %d files, %d includes the wrong way"):format(files, troubles))
os.exit(troubles == 0 and files > 0 and 0 or 1)

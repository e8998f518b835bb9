--- Writes the files named in a list as one C file, the table of lang/builtin.h:
---     lua5.4 src/embed.lua LIST OUT.c
--- Lua modules become bytecode that keeps its line numbers; scripts stay text, because the
--- reader of literals wants them. Nothing but the files decides what is written.

local list_path, out_path = arg[1], arg[2]

local function read(path)
    local file = assert(io.open(path, "rb"))
    local text = assert(file:read("a"))
    file:close()
    return text
end

local function as_bytes(data)
    local lines = {}
    for at = 1, #data, 24 do
        lines[#lines + 1] = data:sub(at, at + 23):gsub(".", function(c)
            return c:byte() .. ","
        end)
    end
    lines[#lines + 1] = "0" -- a NUL behind the text
    return table.concat(lines, "\n")
end

local entries = {}
for path in read(list_path):gmatch("[^\n]+") do
    local name = path:gsub("^src/", "")
    local data, is_bytecode = read(path), false
    if path:find("%.lua$") then
        data = string.dump(assert(load(data, "@" .. name, "t")))
        is_bytecode = true
    end
    entries[#entries + 1] = { name = name, data = data, is_bytecode = is_bytecode }
end
table.sort(entries, function(a, b) return a.name < b.name end)

local out = { '#include "lang/builtin.h"\n' }
for i, entry in ipairs(entries) do
    out[#out + 1] = ("static const unsigned char data_%d[] = {\n%s };")
        :format(i, as_bytes(entry.data))
end
out[#out + 1] = "\nconst struct builtin builtin_list[] = {"
for i, entry in ipairs(entries) do
    out[#out + 1] = ('    { "%s", data_%d, %d, %s },')
        :format(entry.name, i, #entry.data, tostring(entry.is_bytecode))
end
-- C knows no empty table: one entry without a name closes it, not counted.
out[#out + 1] = "    { NULL, NULL, 0, false },\n};"
out[#out + 1] = ("const size_t builtin_count = %d;\n"):format(#entries)

local file = assert(io.open(out_path, "wb"))
assert(file:write(table.concat(out, "\n")))
assert(file:close())

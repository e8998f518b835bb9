--- Writes the files named in a list as one C file, the table of lang/builtin.h:
---     lua5.4 src/embed.lua LIST OUT.c [names]
--- Lua modules become bytecode that keeps its line numbers; scripts stay text, because the
--- reader of literals wants them. Nothing but the files decides what is written.

local list_path, out_path, keeps_names = arg[1], arg[2], arg[3] == "names"

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

--- Bytecode of Lua 5.4 without the names of locals and upvalues, which a run reads for
--- nothing: a third of the work of reading it. Lines stay. Errors of our own then name no
--- variable; the sanitizers' build keeps the names.
local function without_names(code)
    assert(code:sub(1, 6) == "\27Lua\x54\0", "bytecode of another Lua than 5.4")
    local at, out = 1, {}
    local copied = 1 -- all before it is in `out`
    local function skip(count) at = at + count end
    local function number()
        local value = 0
        repeat
            local byte = code:byte(at)
            at = at + 1
            value = value << 7 | byte & 0x7f
        until byte & 0x80 ~= 0
        return value
    end
    local function text()
        local size = number()
        if size > 0 then skip(size - 1) end
    end
    local function items(each)
        for _ = 1, number() do each() end
    end
    local constant = { [0x00] = 0, [0x01] = 0, [0x11] = 0, [0x03] = 8, [0x13] = 8 }
    local function leave_out(each)
        out[#out + 1] = code:sub(copied, at - 1) .. "\x80" -- none of them
        items(each)
        copied = at
    end
    local function body()
        text() -- source
        number() -- its first and last line
        number()
        skip(3)
        items(function() skip(4) end) -- instructions
        items(function()
            local kind = code:byte(at)
            skip(1)
            if constant[kind] then skip(constant[kind]) else text() end
        end)
        items(function() skip(3) end) -- upvalues
        items(body)
        items(function() skip(1) end) -- lines
        items(function() number() number() end)
        leave_out(function() text() number() number() end)
        leave_out(text)
    end
    skip(31 + 1) -- header, number of upvalues
    body()
    assert(at == #code + 1)
    return table.concat(out) .. code:sub(copied)
end

local entries = {}
for path in read(list_path):gmatch("[^\n]+") do
    local name = path:gsub("^src/", "")
    local data, is_bytecode = read(path), false
    if path:find("%.lua$") then
        data = string.dump(assert(load(data, "@" .. name, "t")))
        if not keeps_names then data = without_names(data) end
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

--- Writes what a shared library needs, as `readelf -d` tells it on standard input, as the list
--- of bind/module.h, the last first:
---     readelf -d LIBRARY | lua5.4 src/needs.lua OUT.c

local names = {}
for line in io.lines() do
    local name = line:match("%(NEEDED%).*%[([%w%.%-_+]+)%]")
    if name then table.insert(names, 1, ('    "%s",\n'):format(name)) end
end
local file = assert(io.open(arg[1], "wb"))
assert(file:write('#include "bind/module.h"\n\nconst char *const module_needs[] = {\n',
    table.concat(names), "    NULL,\n};\n"))
assert(file:close())

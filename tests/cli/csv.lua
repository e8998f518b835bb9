--- A reader of tables (RFC 4180) for the tests.
---     for _, row in ipairs(csv.table_of(text)) do print(row.act) end
local M = {}
local kit = require "cli.kit"

--- The cells of a row, as RFC 4180 has them.
local function cells(line)
    local list, at = {}, 1
    while at <= #line + 1 do
        local quoted, after = line:match('^"(.-)"()[,\r]', at)
        while quoted and select(2, quoted:gsub('"', "")) % 2 == 1 do
            local more, next_after = line:match('^(.-")()[,\r]', after)
            if not more then break end
            quoted, after = quoted .. '"' .. more:sub(1, -2), next_after
        end
        local plain
        if quoted then
            plain = quoted:gsub('""', '"')
        else
            plain, after = line:match("^([^,\r]*)()", at)
        end
        list[#list + 1], at = plain, after + 1
        if line:sub(after, after) ~= "," then break end
    end
    return list
end

local function rows_of(text)
    local rows = {}
    for line in text:gmatch("[^\n]*\n") do
        if line:sub(-2) ~= "\r\n" then kit.fail("a row ends in CR LF", line) end
        rows[#rows + 1] = cells(line)
    end
    return rows
end

--- The rows below the head, cells by the names of their columns.
function M.table_of(text)
    local rows = rows_of(text)
    local list = {}
    for i = 2, #rows do
        list[i - 1] = {}
        for k, name in ipairs(rows[1]) do list[i - 1][name] = rows[i][k] end
    end
    return list
end

return M

--- A strict reader of JSON (RFC 8259) for the tests: objects keep the order of their keys.
---     local value = json.read(text)     -- raises when the text is no JSON
---     json.keys(object)                 -- its keys, in order
local M = {}

M.null = setmetatable({}, { __tostring = function() return "null" end })

local order = setmetatable({}, { __mode = "k" })

--- The keys of an object in the order they came; nil for a list.
function M.keys(object) return order[object] end

local ESCAPES = { ['"'] = '"', ["\\"] = "\\", ["/"] = "/", b = "\b", f = "\f", n = "\n", r = "\r",
    t = "\t" }

function M.read(text)
    assert(utf8.len(text), "not UTF-8")
    local at = 1
    local function fail(words) error(("byte %d: %s, near %q"):format(at, words, text:sub(at,
        at + 20)), 0) end
    local function blanks() at = text:find("[^ \t\r\n]", at) or #text + 1 end
    local function take(pattern)
        local from, to, found = text:find("^" .. pattern, at)
        if from then at = to + 1 end
        return from and (found or text:sub(from, to))
    end

    local function code()
        return tonumber(take("u(%x%x%x%x)") or fail("a bad \\u"), 16)
    end

    local function string()
        local parts = {}
        if not take('"') then fail("a string is wanted") end
        while true do
            local plain = take('[^"\\\0-\31]+')
            if plain then
                parts[#parts + 1] = plain
            elseif take('"') then
                return table.concat(parts)
            elseif take("\\") then
                if text:sub(at, at) == "u" then
                    local unit = code()
                    if unit >= 0xD800 and unit < 0xDC00 then
                        if not take("\\") then fail("half a pair") end
                        unit = 0x10000 + (unit - 0xD800) * 0x400 + (code() - 0xDC00)
                    end
                    parts[#parts + 1] = utf8.char(unit)
                else
                    parts[#parts + 1] = ESCAPES[take("(.)")] or fail("a bad escape")
                end
            else
                fail("a string without its end")
            end
        end
    end

    local value

    local function list()
        local out = {}
        blanks()
        if take("%]") then return out end
        repeat
            out[#out + 1] = value()
            blanks()
        until not take(",")
        if not take("%]") then fail("] is wanted") end
        return out
    end

    local function object()
        local out, keys = {}, {}
        order[out] = keys
        blanks()
        if take("}") then return out end
        repeat
            blanks()
            local key = string()
            if out[key] ~= nil then fail("the key " .. key .. " comes twice") end
            blanks()
            if not take(":") then fail(": is wanted") end
            out[key] = value()
            keys[#keys + 1] = key
            blanks()
        until not take(",")
        if not take("}") then fail("} is wanted") end
        return out
    end

    local function number()
        local whole = take("%-?0%f[^%d]") or take("%-?[1-9]%d*") or take("%-?0")
            or fail("a value is wanted")
        local digits = whole .. (take("%.%d+") or "") .. (take("[eE][+-]?%d+") or "")
        return tonumber(digits)
    end

    function value()
        blanks()
        if text:sub(at, at) == '"' then return string() end
        if take("{") then return object() end
        if take("%[") then return list() end
        if take("true") then return true end
        if take("false") then return false end
        if take("null") then return M.null end
        return number()
    end

    local whole = value()
    blanks()
    if at <= #text then fail("more than one value") end
    return whole
end

return M

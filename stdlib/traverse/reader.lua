--- Reads the text of a traverse, one statement after another (a semicolon or the end of a line
--- ends one):
---     from "NW corner"                   the corner it starts at
---     declination 3.5 W; pace 2.6 ft     of what follows; magnetic, true: its bearings
---     N 42 E 130 ft                      a call: bearing and length
---     S 45 30 E, 3.2 chains to "post"    and the name of where it ends
---     210 deg magnetic 55 paces          this call alone by the needle
---     close                              the last call came back to the start
---     close on "SE corner"               or to another known corner
---     back to start                      the last side was not measured
--- A remark runs from # or -- to the end of its line.
local cursor = need "traverse/cursor"
local bearings = need "traverse/bearings"
local lengths = need "traverse/lengths"
local most = need "survey".most

local M = {}
local TEXT_MOST = 65536
local PACE_LEAST, PACE_MOST = 1, 8

local NORTHS = { magnetic = "magnetic", mag = "magnetic", ["true"] = "true" }
local SIDES = { e = 1, east = 1, w = -1, west = -1 }
local statements = {}

local function starts()
    local words = { "from", "close", "back", "pace", "declination", "magnetic", "true", "thence" }
    for _, word in ipairs(bearings.words) do words[#words + 1] = word end
    return words
end

--- Whether the call is by the needle; the token that says so, or nil.
local function take_north(c, state)
    local said = c:meaning(NORTHS)
    local token = said and c:take()
    local north = said or state.north
    if north == "magnetic" and not state.declination then
        return c:fail(token or c:peek(-1), token or c:peek(-1), "traverse-declination",
            "the bearing is magnetic, and how far the needle is off has not been said",
            "on a line above: declination 3.5 W")
    end
    state.assumed = state.assumed or not north
    return north or "true"
end

--- `to "corner post"` behind a call.
local function take_end_name(c, state)
    if not c:take_word("to") then return true end
    local name = c:take_kind("name")
    if not name then
        return c:fail(c:peek(), c:peek(), "traverse-point", "the name of a point is wanted here, in quotes",
            "to \"corner post\"")
    end
    if state.named[name.text] then
        return c:fail(name, name, "traverse-point", ("there is a point \"%s\" already"):format(name.text),
            "each point has a name of its own")
    end
    state.named[name.text] = true
    return name.text
end

--- Nothing more may stand in the statement.
local function ends(c, hint)
    local t = c:peek()
    if t.kind == "end" then return true end
    local last = t
    while c:peek().kind ~= "end" do last = c:take() end
    return c:fail(t, last, "traverse-call", ("`%s` is left over here"):format(c:typed(t, last)),
        hint or "a semicolon or a line break between calls")
end

--- An unknown word at the start of a statement is most likely a slip in one of these.
local function unknown_start(c)
    local t = c:peek()
    return c:fail(t, t, "traverse-call", ("`%s` starts no call"):format(c:typed(t)),
        c.near(t.kind == "word" and t.text, starts(), "a bearing and a length: N 42 E 130 ft"))
end

local function is_bearing(c)
    local t = c:peek()
    return t.kind ~= "word" or bearings.starts[t.text]
end

local function call(c, state)
    local first = c:peek()
    if not is_bearing(c) or first.kind == "odd" or first.kind == "name" then return unknown_start(c) end
    local azimuth = bearings.read(c, lengths.by_word)
    if not azimuth then return nil end
    local north = take_north(c, state)
    if not north then return nil end
    c:take_kind(",")
    local length = lengths.read(c, state.pace, most.length)
    if not length then return nil end
    local last = c:peek(-1)
    c:take_kind(",")
    local name = take_end_name(c, state)
    if not name or not ends(c) then return nil end
    local calls = state.read.calls
    calls[#calls + 1] = { azimuth = azimuth, length = length, magnetic = north == "magnetic",
        name = name ~= true and name or nil, from = first.from, to = last.to, words = c:typed(first, last) }
    return true
end

function statements.from(c, state)
    local word = c:take()
    local name = c:take_kind("name")
    if not name then
        return c:fail(c:peek(), c:peek(), "traverse-start", "the name of the corner is wanted here, in quotes",
            "from \"NW corner\"")
    elseif state.read.from or #state.read.calls > 0 then
        return c:fail(word, name, "traverse-start", "where a traverse starts is said once, before its calls", nil)
    end
    state.read.from = { name = name.text, from = name.from, to = name.to }
    state.named[name.text] = true
    return ends(c)
end

function statements.pace(c, state)
    c:take()
    local first = c:peek()
    local feet = lengths.read(c, nil, most.length)
    if not feet then return nil end
    if feet < PACE_LEAST or feet > PACE_MOST then
        return c:fail(first, c:peek(-1), "traverse-pace",
            ("a pace lies between %d and %d ft"):format(PACE_LEAST, PACE_MOST),
            "a step is some 2.5 ft, a pace of both feet some 5")
    end
    state.pace = feet
    return ends(c)
end

function statements.declination(c, state)
    local word = c:take()
    local first = c:peek()
    local degrees = bearings.angle(c, true)
    if not degrees then return nil end
    local side = c:meaning(SIDES)
    if side then c:take() end
    if degrees ~= 0 and not side then
        return c:fail(first, c:peek(-1), "traverse-declination", "to which side the needle is off is not said",
            ("declination %s W: it points west of true north"):format(c:typed(first, c:peek(-1))))
    elseif degrees > 45 then
        return c:fail(first, c:peek(-1), "traverse-declination", "a declination is 45 degrees at most", nil)
    end
    if state.declined or #state.read.calls > 0 then
        return c:fail(word, c:peek(-1), "traverse-declination", "the declination is said once, before the calls", nil)
    end
    state.declined, state.declination = true, degrees * (side or 1)
    state.north = state.north or "magnetic"
    return ends(c)
end

function statements.north(c, state)
    state.north = NORTHS[c:take().text]
    return ends(c)
end

local function finish(c, state, first, ending)
    local read = state.read
    if read.ending ~= "open" then
        return c:fail(first, c:peek(-1), "traverse-end", "the end of the traverse was said already", nil)
    end
    read.ending, read.end_from, read.end_to = ending, first.from, c:peek(-1).to
    return ends(c)
end

function statements.close(c, state)
    local first = c:take()
    if not c:take_word("on") then return finish(c, state, first, "closed") end
    local name = c:take_kind("name")
    if not name then
        return c:fail(c:peek(), c:peek(), "traverse-point", "the name of the corner is wanted here, in quotes",
            "close on \"SE corner\"")
    end
    state.read.close_on = { name = name.text, from = name.from, to = name.to }
    return finish(c, state, first, "tied")
end

function statements.back(c, state)
    local first = c:take()
    local to = c:take_word("to")
    if not (to and c:take_word("start")) then
        return c:fail(first, c:peek(), "traverse-end", "`back to start` is what can stand here",
            "or `close`, when the last call came back to the start")
    end
    return finish(c, state, first, "back")
end

local function statement(c, state)
    local t = c:peek()
    local word = t.kind == "word" and t.text
    if word and NORTHS[word] then return statements.north(c, state) end
    if word and statements[word] and word ~= "north" then return statements[word](c, state) end
    c:take_word("thence")
    if state.read.ending ~= "open" then
        local first = c:peek()
        local last = first
        while c:peek().kind ~= "end" do last = c:take() end
        return c:fail(first, last, "traverse-end", "the traverse has ended above", "calls stand before `close`")
    end
    return call(c, state)
end

--- Reads a text.
-- @param given { pace, in feet; declination, in degrees, east positive }: as far as known
-- @return { from = { name, from, to }, calls = { { azimuth, length, magnetic, name, from, to, words } },
-- ending = "open", "closed", "back" or "tied", end_from, end_to, close_on = { name, from, to },
-- assumed: whether bearings were taken as true without a word }, and the list of faults
-- { id, from, to, words, hint }: bytes [from, to) of the text, counted from 1
function M.read(text, given)
    if #text > TEXT_MOST then
        return nil, { { id = "traverse-many", from = 1, to = 1,
            words = ("a traverse has at most %d bytes; this one has %d"):format(TEXT_MOST, #text) } }
    end
    local c = cursor(text)
    local read = { calls = {}, ending = "open" }
    local state = { read = read, named = {}, pace = given.pace, declination = given.declination,
        north = given.declination and "magnetic" or nil }
    while c:next_statement() do
        statement(c, state)
        if #read.calls > most.calls then
            local last = read.calls[#read.calls]
            c.faults[#c.faults + 1] = { id = "traverse-many", from = last.from, to = last.to,
                words = ("a traverse has at most %d calls"):format(most.calls) }
            break
        end
    end
    read.declination, read.assumed = state.declination, state.assumed
    if #c.faults == 0 and #read.calls == 0 then
        c.faults[1] = { id = "traverse-empty", from = 1, to = #text + 1, words = "a traverse needs a call",
            hint = "N 42 E 130 ft" }
    end
    return #c.faults == 0 and read or nil, c.faults
end

return M

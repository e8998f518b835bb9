--- What an author calls things comes out right in every paper, whatever letters it has: no
--- byte that steers a terminal, no broken letter, no line over its edge, JSON that reads.
local kit = require "cli.kit"
local json = require "cli.json"

--- Names, as written in a script, and as data should have them.
local NAMES = {
    { "quotes", [["Say \"when\" and 'then' `now`"]], "Say \"when\" and 'then' `now`" },
    { "a backslash", [["C:\\woods\\n"]], "C:\\woods\\n" },
    { "two lines", [["upper\nlower"]] },
    { "a carriage return", [["over\rwritten"]] },
    { "a tab", [["left\tright"]] },
    { "a bell and a backspace", [["ring\a rub\b out"]] },
    { "colours", [["\27[31mred\27[0m"]] },
    { "a title of the window", [["\27]0;owned\7"]] },
    { "the eight-bit form of the same", [["\u{9b}31m\u{9d}0;x\u{9c}"]] },
    { "a NUL", [["before\0behind"]] },
    { "delete", [["rub\127out"]] },
    { "German", [["Öffnung am Bächle"]], "Öffnung am Bächle" },
    { "letters and marks apart", [["e\u{301}tang"]], "e\u{301}tang" },
    { "wide letters", [["白楊の林"]], "白楊の林" },
    { "from right to left", [["חורשה"]], "חורשה" },
    { "turned round", [["abc\u{202e}fed\u{2066}x"]] },
    { "nothing to be seen", [["a\u{200b}b\u{feff}c\u{ad}d"]] },
    { "a joined family", [["👩‍🌾 stand"]] },
    { "bytes that are no letters", [["caf\xe9 \xff\xfe"]] },
    { "half a letter", [["\xe2\x82"]] },
    { "HTML", [["<b>&amp;</b><script>alert(1)</script>"]],
        "<b>&amp;</b><script>alert(1)</script>" },
    { "a formula", [["=1+1"]], "=1+1" },
    { "a format", [["%s %d %n %99999d"]], "%s %d %n %99999d" },
    { "a dollar", [["$(reboot) `reboot`"]], "$(reboot) `reboot`" },
    { "one long word", ("\"%s\""):format(("Nebelwald"):rep(40)), ("Nebelwald"):rep(40) },
    { "a long wide word", ("\"%s\""):format(("林"):rep(300)), ("林"):rep(300) },
    { "many marks on one letter", ("\"a%s\""):format(("\u{301}"):rep(500)) },
    { "a dot and nothing", [["."]], "." },
    { "a blank in front", [["  indented"]] },
}

--- A rule that has a name in all its words.
local SPEAKS = [[
rule NAME { level = "caution", applies_to = { "cut" }, says = NAME, ask = NAME, source = NAME,
  when = function () return true end }
]]

--- The plan with a name in every place that a paper shows.
local function plan_with(name)
    local plan = kit.plan .. SPEAKS
    name = name:gsub("%%", "%%%%")
    for _, old in ipairs { "\"Hazel Hill\"", "\"Bench aspen\"", "\"Test County\"", "\"nobody\"",
        "\"deer cover\"", "\"owner\"", "\"fell\"", "NAME" } do
        plan = plan:gsub(old, name)
    end
    return (plan:gsub("slash = \"lop and leave\"", "%0, says = " .. name))
end

--- Columns that a terminal gives a line: enough of Unicode for the names above.
local function columns(line)
    local count = 0
    for _, code in utf8.codes(line) do
        local wide = code >= 0x1100 and code <= 0x115F or code >= 0x2E80 and code <= 0xA4CF
            or code >= 0xAC00 and code <= 0xD7A3 or code >= 0xFF00 and code <= 0xFF60
                or code >= 0x1F300 and code <= 0x1FAFF
        local none = code >= 0x300 and code <= 0x36F or code == 0x200D or code >= 0xFE00
            and code <= 0xFE0F
        count = count + (wide and 2 or none and 0 or 1)
    end
    return count
end

local STEERS = { [0x61C] = true, [0x200E] = true, [0x200F] = true, [0xFEFF] = true }

--- What is wrong with a text for a terminal, or nil.
-- @param width the columns that a line may have, nil for any number
local function trouble(text, width)
    if not utf8.len(text) then return "not UTF-8" end
    for line in text:gmatch("[^\n]*") do
        for _, code in utf8.codes(line) do
            if code < 0x20 or code >= 0x7F and code < 0xA0 or STEERS[code] or code >= 0x202A
                and code <= 0x202E
                or code >= 0x2066 and code <= 0x2069 then
                return ("a character that steers: U+%04X"):format(code)
            end
        end
        if width and columns(line) > width then
            return ("a line of more than %d columns: %s"):format(width, line)
        end
    end
end

local function one(name, literal, exact)
    kit.put("named.rx", plan_with(literal))
    local paper, err, status = kit.run("spinney run named.rx")
    if not kit.check(name .. ": a plan", status == 0 and err == "", err) then return end
    kit.check(name .. ": the paper", not trouble(paper, 80), trouble(paper, 80))
    if exact and #exact < 60 then
        kit.check(name .. ": is in the paper", paper:find(exact, 1, true), paper:sub(1, 300))
    end
    local out = kit.run("spinney run named.rx --json")
    local fine, plan = pcall(json.read, out)
    if kit.check(name .. ": JSON", fine, tostring(plan)) then
        kit.check(name .. ": JSON holds nothing that steers", not out:find("[\0-\9\11-\31]"))
        kit.same(name .. ": property and stand are called the same", plan.property,
            plan.stands[1].name)
        if exact then kit.same(name .. ": as data", exact, plan.property) end
        kit.check(name .. ": acts have ids of their own", plan.acts[1].id ~= plan.acts[2].id)
        local id = plan.acts[1].id
        local why, why_err, why_status = kit.run("spinney why named.rx " .. kit.quote(id
            .. ".hours"))
        kit.check(name .. ": why of its act", why_status == 0 and not trouble(why, 80), id .. "\n"
            .. why_err .. why)
    end
    local _, found, check_status = kit.run("spinney check named.rx")
    kit.check(name .. ": check", check_status == 0 and not trouble(found), trouble(found) or found)
    -- One message a line: a name must not be able to forge another.
    for line in found:gmatch("[^\n]+") do
        if not line:find("^named%.rx:%d+:%d+: %l+: ") and not line:find("^%l+: ") then
            kit.fail(name .. ": a line of check is no message", line)
        end
    end
end

return function()
    for _, row in ipairs(NAMES) do
        one(table.unpack(row))
    end
    -- An error quotes what was typed, without what steers.
    for _, row in ipairs(NAMES) do
        kit.put("named.rx",
            ("property %s { walked = Oct 14 2026, crew = %s, region = %s }\n"):format(row[2],
            row[2], row[2]))
        local _, err, status = kit.run("spinney run named.rx")
        kit.check(row[1] .. ": in errors", status == 2 and not trouble(err), trouble(err) or err)
    end
    -- So does what a script prints.
    kit.put("prints.rx", kit.plan .. "print(\"\\27[31mred\\7 \\xff fine\")\n")
    local _, err = kit.run("spinney run prints.rx")
    kit.check("print", not trouble(err) and err:find("fine", 1, true), ("%q"):format(err))
end

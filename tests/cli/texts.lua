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
    { "HTML", [["<b>&amp;</b><script>alert(1)</script>"]], "<b>&amp;</b><script>alert(1)</script>" },
    { "a formula", [["=1+1"]], "=1+1" },
    { "a format", [["%s %d %n %99999d"]], "%s %d %n %99999d" },
    { "a dollar", [["$(reboot) `reboot`"]], "$(reboot) `reboot`" },
    { "one long word", ("\"%s\""):format(("Nebelwald"):rep(40)), ("Nebelwald"):rep(40) },
    { "a long wide word", ("\"%s\""):format(("林"):rep(300)), ("林"):rep(300) },
    { "many marks on one letter", ("\"a%s\""):format(("\u{301}"):rep(500)) },
    { "a dot and nothing", [["."]], "." },
    { "a blank in front", [["  indented"]] },
}

--- The plan with a name in every place that a paper shows.
local function plan_with(name)
    local called = function(word) return (word:gsub("%%", "%%%%")) end
    return (kit.plan:gsub("\"Hazel Hill\"", called(name)):gsub("\"Bench aspen\"", called(name))
        :gsub("\"Test County\"", called(name)):gsub("\"nobody\"", called(name)):gsub("\"deer cover\"", called(name))
        :gsub("\"owner\"", called(name)):gsub("cut \"fell\"", "cut " .. called(name))
        :gsub("slash = \"lop and leave\"", "%0, says = " .. called(name)))
        .. ("rule %s { level = \"caution\", applies_to = { \"cut\" }, when = function () return true end, says = %s, "
            .. "ask = %s, source = %s }\n"):format(name, name, name, name)
end

--- Columns that a terminal gives a line: enough of Unicode for the names above.
local function columns(line)
    local count = 0
    for _, code in utf8.codes(line) do
        local wide = code >= 0x1100 and code <= 0x115F or code >= 0x2E80 and code <= 0xA4CF
            or code >= 0xAC00 and code <= 0xD7A3 or code >= 0xFF00 and code <= 0xFF60 or code >= 0x1F300 and code <= 0x1FAFF
        local none = code >= 0x300 and code <= 0x36F or code == 0x200D or code >= 0xFE00 and code <= 0xFE0F
        count = count + (wide and 2 or none and 0 or 1)
    end
    return count
end

local STEERS = { [0xAD] = true, [0x61C] = true, [0x200B] = true, [0x200E] = true, [0x200F] = true, [0xFEFF] = true }

--- What is wrong with a text for a terminal, or nil.
local function trouble(text)
    if not utf8.len(text) then return "not UTF-8" end
    for line in text:gmatch("[^\n]*") do
        for _, code in utf8.codes(line) do
            if code < 0x20 or code >= 0x7F and code < 0xA0 or STEERS[code] or code >= 0x202A and code <= 0x202E
                or code >= 0x2066 and code <= 0x2069 then
                return ("a character that steers: U+%04X"):format(code)
            end
        end
        if columns(line) > 80 then return "a line of more than 80 columns: " .. line end
    end
end

local function one(name, literal, exact)
    kit.put("named.rx", plan_with(literal))
    local paper, err, status = kit.run("spinney run named.rx")
    if not kit.check(name .. ": a plan", status == 0 and err == "", err) then return end
    kit.check(name .. ": the paper", not trouble(paper), trouble(paper))
    if exact and #exact < 60 then
        kit.check(name .. ": is in the paper", paper:find(exact, 1, true), paper:sub(1, 300))
    end
    local out = kit.run("spinney run named.rx --json")
    local fine, plan = pcall(json.read, out)
    if kit.check(name .. ": JSON", fine, tostring(plan)) then
        kit.check(name .. ": JSON holds nothing that steers", not out:find("[\0-\9\11-\31\127]"))
        kit.same(name .. ": property and stand are called the same", plan.property, plan.stands[1].name)
        if exact then kit.same(name .. ": as data", exact, plan.property) end
        local acts = {}
        for _, act in ipairs(plan.acts) do acts[act.id] = act end
        kit.check(name .. ": acts have ids of their own", plan.acts[1].id ~= plan.acts[2].id)
        local id = plan.acts[1].id
        local why, why_err, why_status = kit.run("spinney why named.rx " .. kit.quote(id .. ".hours"))
        kit.check(name .. ": why of its act", why_status == 0 and not trouble(why), id .. "\n" .. why_err .. why)
    end
    local _, found, check_status = kit.run("spinney check named.rx")
    local lines = found:gsub("[^\n]*", function(line) return #line > 70 and "" or line end)
    kit.check(name .. ": check", check_status == 0 and not trouble(lines), trouble(lines) or found)
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
        kit.put("named.rx", ("property %s { walked = Oct 14 2026, crew = %s, region = %s }\n"):format(row[2], row[2], row[2]))
        local _, err, status = kit.run("spinney run named.rx")
        local short = err:gsub("[^\n]*", function(line) return #line > 100 and "" or line end)
        kit.check(row[1] .. ": in errors", status == 2 and utf8.len(err) and not trouble(short), trouble(short) or err)
    end
    -- So does what a script prints, and what is typed behind --set.
    kit.put("prints.rx", kit.plan .. "print(\"\\27[31mred\\7\", \"\\xff\", \"fine\")\n")
    local _, err = kit.run("spinney run prints.rx")
    kit.check("print", not trouble(err) and err:find("fine", 1, true), ("%q"):format(err))
end

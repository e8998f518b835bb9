--- `help`: every word has some, and it fits the terminal.
local kit = require "cli.kit"

--- Help on a word: printed, on 80 columns, whole. Returns the text.
local function helps(word)
    local out, err, status = kit.run("spinney help " .. (word and kit.quote(word) or ""))
    local name = "help " .. (word or "")
    kit.check(name, status == 0 and err == "" and #out > 20 and out:sub(-1) == "\n", err .. out)
    for line in out:gmatch("([^\n]*)\n") do
        if not utf8.len(line) or utf8.len(line) > 80 or line:find("%s$") or line:find("[%c]") then
            kit.fail(name .. ": a line that is too long, or odd", line)
        end
    end
    if word then
        local first = out:match("^[^\n]+")
        kit.check(name .. " begins with the word", first:lower():find(word:lower(), 1, true), first)
    end
    return out
end

return function()
    local overview = helps(nil)
    local words = {}
    for word in overview:gmatch("\n  (%l[%l_]*)  +%S") do
        words[#words + 1] = word
    end
    kit.check("the overview lists the primitives", #words >= 30, table.concat(words, ", "))
    for _, word in ipairs { "cut", "stand", "rule", "use", "pack" } do
        kit.check("the overview has " .. word, (" " .. table.concat(words, " ") .. " "):find(" "
            .. word .. " ", 1, true))
    end
    local more = overview:match("\nMore:.*$")
    kit.check("the overview names the topics", more, overview)
    local topics = 0
    for word in more:gsub("^.- or\n", ""):gmatch("[%w_-]+") do
        topics = topics + 1
        words[#words + 1] = word
    end
    kit.check("there are topics", topics >= 5, more)
    for _, word in ipairs(words) do
        helps(word)
    end
    local book = kit.run("ls " .. kit.quote(io.popen("pwd"):read("l") .. "/prescriptions"))
    for name in book:gmatch("([%w-]+)%.rx\n") do
        kit.check("prescriptions list " .. name, kit.run("spinney help prescriptions"):find(name, 1,
            true))
        helps(name)
    end
    for word, near in pairs { ctu = "cut", prescriptoin = "prescription",
        ["sprout-covr"] = "sprout-cover",
        CUT = "cut", mesures = "measures" } do
        local out, err, status = kit.run("spinney help " .. word)
        kit.check("help " .. word, status == 2 and out == ""
            and err:find(("did you mean `spinney help %s`?"):format(near), 1, true), err .. out)
    end
    kit.expect("spinney help zzzzzzzzz", { status = 2, out = false,
        err = "there is no help on \"zzzzzzzzz\"" })
    kit.expect("spinney help ''", { status = 2, out = false, err = "there is no help on" })
    kit.expect("spinney help ../stdlib/help", { status = 2, out = false,
        err = "there is no help on" })
    local _, err = kit.run("spinney help \"$(printf 'a\\033[31m\\377')\"")
    kit.check("an odd word is shown without odd bytes", utf8.len(err) and not err:find("\27", 1,
        true), err)
end

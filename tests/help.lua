--- Does `spinney help` say what is so? Every page of it fits 80 columns and says all there is
--- to say; every example in it runs; every key of the plan as JSON is told on its page.
---     lua5.4 tests/help.lua FOLDER_OF_SPINNEY
package.path = (arg[0]:match("^(.*/)") or "") .. "?.lua"

local shell = require "runner.shell"

if not arg[1] then
    io.stderr:write("usage: lua5.4 tests/help.lua FOLDER_OF_SPINNEY\n")
    os.exit(64)
end
shell.begin(arg[1])

local COLUMNS = 80
local passed, failed = 0, 0

--- Counts one case; `trouble` is nil when it passed, else what to show.
local function report(name, trouble)
    if not trouble then
        passed = passed + 1
        return
    end
    failed = failed + 1
    io.write("FAILED ", name, "\n", (trouble:gsub("[^\n]+", "    %0")), "\n")
end

local function help(word)
    local command = "spinney help" .. (word and " " .. shell.quote(word) or "")
    local page, complaints, status = shell.run(".", command)
    if status ~= 0 or complaints ~= "" then
        return page, ("exit status %d\n%s"):format(status, complaints)
    end
    return page
end

--- What is wrong with how a page looks, or nil.
local function look(page)
    local troubles = {}
    for line in page:gmatch("[^\n]+") do
        if utf8.len(line) > COLUMNS then
            troubles[#troubles + 1] = "too wide: " .. line
        elseif line:find("%s$") then
            troubles[#troubles + 1] = "ends in blanks: " .. line
        end
        for _, sign in ipairs { "(not said)", "userdata:", "table: 0x", "function: " } do
            if line:find(sign, 1, true) then
                troubles[#troubles + 1] = "unfinished: " .. line
            end
        end
    end
    if #page < 40 then
        troubles[#troubles + 1] = "hardly a word"
    end
    return #troubles > 0 and table.concat(troubles, "\n") or nil
end

--- The ground that the examples stand on. All of it is made up.
local GROUND = [[
property "Made up" { walked = Oct 14 2026 }
stand "Bench aspen" { area = 6 ac, tree_length = 60 ft,
  tally = "baf 10\nplot 1: bigtooth aspen 7 8 9 9; red oak 14\nplot 2: bigtooth aspen 8 9 10 11" }
stand "Alder run" { area = 4 ac, ground = "wet", species = { ["speckled alder"] = 100 percent } }
stand "Old pasture" { area = 5 ac, access = "truck" }
stand "Oak ridge" { area = 8 ac, tree_length = 70 ft, diameter = 8 to 16 in, crowding = "crowded",
  species = { ["red oak"] = 60 percent, ["red maple"] = 30 percent,
    ["quaking aspen"] = 10 percent } }
crew "helpers" { people = 2, hours_each = 20 h/wk,
  skills = { "saw", "applicator", "machine", "planting", "fire" } }
]]

--- Examples that bring their own ground, or none.
local ALONE = {
    property = "", stand = 'property "Made up" { walked = Oct 14 2026 }\n',
    use = 'property "Made up" { walked = Oct 14 2026 }\n',
    crew = 'property "Made up" { walked = Oct 14 2026 }\n',
    tally = [[property "Made up" { walked = Oct 14 2026 }
stand "Bench aspen" { area = 6 ac }
]],
}

--- What an example needs besides.
local BEFORE = {
    done = 'cut "fell" { stand = "Bench aspen", species = "aspen" }\n',
    buffer = 'feature "line" { kind = "property line", beside = "Bench aspen" }\n',
}

local function run_example(word, example)
    local folder = shell.scratch("example")
    os.execute("mkdir -p " .. shell.quote(folder .. "/pack"))
    shell.write(folder .. "/property.rx", "")
    local plan, options = (ALONE[word] or GROUND) .. (BEFORE[word] or "") .. example, ""
    if word == "pack" then
        for name in example:gmatch('"(%w+%.rx)"') do
            shell.write(folder .. "/pack/" .. name, "")
        end
        shell.write(folder .. "/pack/pack.rx", example)
        plan, options = GROUND, " --pack pack"
    end
    shell.write(folder .. "/plan.rx", plan)
    local _, complaints, status = shell.run(folder, "spinney run plan.rx" .. options)
    if status > 1 or complaints ~= "" then
        return ("exit status %d\n%s\n%s"):format(status, complaints, example)
    end
end

--- The examples of a page: the lines set in by four blanks before its first heading.
local function example_of(page)
    local lines = {}
    for line in page:gmatch("([^\n]*)\n") do
        if line:find("^%l[%l ]*:$") then break end
        lines[#lines + 1] = line:match("^    (.*)$")
    end
    return table.concat(lines, "\n") .. "\n"
end

--- Scripts further down a page, each below a heading, set in by two blanks: what begins with
--- a word of the language or with `local`.
local function examples_below(page, is_word)
    local list, lines = {}, nil
    for line in (page .. "end\n"):gmatch("([^\n]*)\n") do
        local inner = line:match("^  (.*)$")
        if lines and inner then
            lines[#lines + 1] = inner
        elseif lines then
            local first = (lines[1] or ""):match("^(%l+) [\"{%l]")
            if first == "local" or is_word[first] then
                list[#list + 1] = table.concat(lines, "\n") .. "\n"
            end
            lines = nil
        end
        if line:find("^%l.*:$") then lines = {} end
    end
    return list
end

local overview, wrong = help()
report("help", wrong or look(overview))
local words, is_word = {}, {}
for word in overview:gmatch("\n  (%l+)  ") do is_word[word] = true end
local function try_examples_below(word, page)
    local list = examples_below(page, is_word)
    for i, example in ipairs(list) do
        report(("example %d below on help %s"):format(i, word), run_example("", example))
    end
    return #list
end
local below = 0
for word in overview:gmatch("\n  (%l+)  ") do
    words[#words + 1] = word
    local page, trouble = help(word)
    trouble = trouble or look(page)
    local example = example_of(page)
    if not trouble and #example < 10 then trouble = "there is no example" end
    report("help " .. word, trouble)
    report("the example of help " .. word, run_example(word, example))
    below = below + try_examples_below(word, page)
end
report("examples below the first", below < 3 and ("only %d"):format(below) or nil)
local primitives = #words
for word in (overview:match("prescription, or\n(.*)$") or ""):gmatch("%l+") do
    words[#words + 1] = word
end
--- Every function of the handbook and every answer of a stand has a page with an example
--- that runs: an expression. Some answers are known only when the script has ended.
local WHEN_ENDED = [[local s = stand "Bench aspen"
rule "shown" { level = "note", applies_to = { "plan" }, says = "shown", source = "a test",
  when = function ()
    return (%s) == "nothing"
  end }
]]
local function functions(listing, form, around)
    local count = 0
    for name in help(listing):gmatch("\n  ([%l_]+)  ") do
        local word = form .. name
        local page, _, status = shell.run(".", "spinney help " .. shell.quote(word))
        if status == 0 then
            count = count + 1
            report("help " .. word, look(page))
            local example = example_of(page):gsub("%%", "%%%%")
            report("the example of help " .. word, run_example(word, (around:gsub("%%s", example))))
        end
    end
    return count
end
local in_handbook = functions("handbook", "handbook.", "local shown = %s")
local of_stands = functions("stand", "stand:", WHEN_ENDED)
report("the handbook and the answers of stands", (in_handbook < 20 or of_stands < 15) and
    ("only %d and %d pages"):format(in_handbook, of_stands) or nil)

for _, listing in ipairs { "regions", "prescriptions" } do
    for word in help(listing):gmatch("\n  (%l[%l%-/]*)") do words[#words + 1] = word end
end
--- Pages on matters that are said in scripts: each has an example.
local SAID = { costs = true, dates = true, entries = true, labor = true, schedule = true }
for i = primitives + 1, #words do
    local page, trouble = help(words[i])
    report("help " .. words[i], trouble or look(page))
    if not trouble and try_examples_below(words[i], page) == 0 and SAID[words[i]] then
        report("help " .. words[i], "there is no example")
    end
end

--- Keys of the plan as JSON, those of quantities left out.
local function data_keys()
    local json = shell.run(".", "spinney run examples/quill-creek/plan.rx --json")
    local keys, seen, skipped = {}, {}, nil
    for line in json:gmatch("[^\n]+") do
        local indent, key, value = line:match('^(%s*)"([%w_ :]+)": (.*)$')
        if skipped and #line:match("^%s*") <= skipped then skipped = nil end
        if key and not skipped then
            if not seen[key] then keys[#keys + 1] = key end
            seen[key] = true
            if key == "quantities" or key == "totals" then skipped = #indent end
            if value == "{" and key ~= "source" then skipped = #indent end
        end
    end
    return keys
end
local data, missing = help("data"), {}
local keys = data_keys()
for _, key in ipairs(keys) do
    if not data:find("%f[%w_]" .. key .. "%f[^%w_]") then missing[#missing + 1] = key end
end
report("help data", (#keys < 30 and "the plan as JSON has hardly a key") or
    (#missing > 0 and "not told: " .. table.concat(missing, ", ")) or nil)

--- Quantities of the demo's acts that the help of their kind does not tell.
local function untold_figures()
    local json = shell.run(".", "spinney run examples/quill-creek/plan.rx --json")
    local every, pages, untold, kind = help("acts"), {}, {}, nil
    for line in json:gmatch("[^\n]+") do
        kind = line:match('^      "kind": "(%l+)"') or kind
        local key = kind and line:match('^        "([%w_]+)": {$')
        if key then
            pages[kind] = pages[kind] or help(kind) .. every
            if not pages[kind]:find("%f[%w_]" .. key .. "%f[^%w_]") then
                untold[#untold + 1] = kind .. "." .. key
            end
        end
    end
    return next(pages) == nil and "no act has a quantity" or table.concat(untold, ", ")
end
local untold = untold_figures()
report("what is figured", untold ~= "" and "not told: " .. untold or nil)

report("a key of several words", (function()
    local page, trouble = help("ways_out")
    return trouble or look(page) or not page:find("\n  trail ", 1, true) and page or nil
end)())
report("a region's rule without a plan", (function()
    local page, complaints, status = shell.run(".", "spinney why rule 'oak wilt'")
    local mend = complaints:find('spinney why rule "oak wilt" PLAN.rx', 1, true)
    return (page ~= "" or status ~= 2 or not mend) and page .. complaints or nil
end)())
report("a word that another page explains", (function()
    local page, trouble = help("float")
    return trouble or page ~= help("schedule") and page or nil
end)())
report("a word that is none", (function()
    local page, complaints, status = shell.run(".", "spinney help opning")
    local mend = complaints:find("did you mean `spinney help opening`?", 1, true)
    return (page ~= "" or status ~= 2 or not mend) and page .. complaints or nil
end)())

shell.finish()
io.write(("help: %d passed, %d failed\n"):format(passed, failed))
os.exit(failed == 0 and 0 or 1)

--- `why`: quantities of the plan, of acts, of stands, inputs and names; and rules.
local kit = require "cli.kit"

--- The numbers of a first line such as "total hours = 60.3 h (45.6 to 83, typically 62.2)".
local function figure(text)
    return text:match("^[^\n]- = ([%d.,]+ [^\n(]+)")
end

local function quantities()
    local paper = kit.run("spinney run plan.rx")
    local cases = {
        { "total.hours", "total hours", "work     " }, { "total.cost", nil },
        { "bench-aspen/fell.hours", "hours, bench-aspen/fell", "Hours                   " },
        { "bench-aspen/fell.trees_cut", nil, "Trees felled            " },
        { "bench-aspen/rest.area", nil, "Area of the openings       " },
        { "Bench aspen.area", "area of Bench aspen" },
        { "Bench aspen.trees", nil }, { "Bench aspen.basal_area", nil },
        { "Bench aspen.diameter", nil }, { "Bench aspen.trees.red oak", nil },
        { "width", "width" },
    }
    for _, case in ipairs(cases) do
        local name, first, in_paper = table.unpack(case)
        local out, err, status = kit.run("spinney why plan.rx " .. kit.quote(name))
        if name == "total.cost" then
            -- Nobody is paid: there is no such total, and that is said.
            kit.check(name, status == 2 and err:find("no quantity \"total.cost\"", 1, true), err)
        else
            kit.check(name, status == 0 and err == "" and figure(out), out .. err)
            kit.check(name .. " is called so", not first or out:sub(1, #first + 3) == first
                .. " = ", out)
            if in_paper and figure(out) then
                local said = figure(out):gsub("%s+$", "")
                kit.check(name .. " is that of the paper", paper:find(in_paper .. said, 1, true),
                    said .. " is not behind " .. in_paper)
            end
            for line in out:gmatch("[^\n]+") do
                if utf8.len(line) > 80 then
                    kit.fail(name .. ": a line of more than 80 columns", line)
                end
            end
        end
    end
    -- Every leaf has its source: a line of the script, the tally, a rate with its layer.
    local out = kit.run("spinney why plan.rx total.hours")
    for _, words in ipairs { "from plan.rx:7:", "tally of Bench aspen", "stdlib/base/rates.rx:",
        "felling rate, built-in" } do
        kit.check("why total.hours: " .. words, out:find(words, 1, true), out)
    end
end

local function wrong_names()
    local _, err = kit.expect("spinney why plan.rx total.hurs", { status = 2, out = false })
    kit.check("a name nearly right", err:find("did you mean \"total.hours\"?", 1, true), err)
    for wrong, right in pairs {
        ["fell.hours"] = "bench-aspen/fell.hours",
        ["bench-aspen/fel.hours"] = "bench-aspen/fell.hours",
        ["bench-aspen/res.area"] = "bench-aspen/rest.area",
        ["Bench apsen.area"] = "Bench aspen.area",
        ["Bench aspen.aces_of.cut"] = "Bench aspen.acres_of.cut",
        ["bench aspen.stocking"] = "Bench aspen.stocking",
        ["bench-aspen/fe"] = "bench-aspen/fell", ["finsh"] = "finish",
    } do
        kit.expect(("spinney why plan.rx '%s'"):format(wrong), { status = 2, out = false,
            err = ("did you mean \"%s\"?"):format(right) })
    end
    kit.expect("spinney why plan.rx 'Bench aspen.colour'", { status = 2, out = false,
        err = "Bench aspen has area, " })
    kit.expect("spinney why plan.rx 'Bench aspen'", { status = 2, err = ".trees" })
    kit.expect("spinney why plan.rx bench-aspen/fell", { status = 2, err = ".trees_cut" })
    kit.expect("spinney why plan.rx ''", { status = 2, out = false, err = "error: " })
    kit.expect("spinney why wrong.rx total.hours", { status = 2, out = false, err = "no `walkd`" })
    kit.expect("spinney why nosuch.rx total.hours", { status = 2, out = false, err = "no file" })
    _, err = kit.run("spinney why plan.rx \"$(printf 'a\\033[31m\\377')\"")
    kit.check("an odd name is shown without odd bytes", utf8.len(err) and not err:find("\27", 1,
        true), err)
end

--- Answers of stands by name, tables of them by their keys, slips of their names.
local function answers()
    kit.expect("spinney why plan.rx 'Bench aspen.stocking'", { status = 0, out = "guide" })
    local out = kit.expect("spinney why plan.rx 'Bench aspen.expected.5'", { status = 0 })
    for _, key in ipairs { "basal_area", "browse", "height", "hides_standing", "mast", "trees" } do
        local line = "\n" .. key .. " = "
        kit.check("expected.5 tells " .. key, ("\n" .. out):find(line, 1, true), out)
    end
    local one = kit.expect("spinney why plan.rx 'Bench aspen.expected.5.height'", { status = 0,
        out = "season 5 after the first cut" })
    local high = out:match("\nheight = ([%d.]+ ft)")
    kit.check("one figure of a year is that of the year", high and one:find(high, 1, true), one)
    out = kit.expect("spinney why plan.rx 'Bench aspen.sale'", { status = 0 })
    kit.check("a list is told line by line", out:find("\nwhy:\n  1: ", 1, true), out)
    kit.check("no list is told by its type", not out:find(": table", 1, true), out)
    out = kit.expect("spinney why plan.rx 'Bench aspen.outlook'", { status = 0 })
    kit.check("rows are told by their keys", out:find("1:\n  basal_area: ", 1, true), out)
    kit.check("with their ranges", out:find("\n  stems: [%d,]+ stems/ac %("), out)
    kit.expect("spinney why plan.rx 'Bench aspen.stokcing'", { status = 2,
        err = "did you mean \"Bench aspen.stocking\"?" })
    kit.expect("spinney why plan.rx 'Bench aspen.expected.5.hight'", { status = 2,
        err = "did you mean \"height\"?" })
end

local function rules()
    kit.put("layered.rx", kit.plan .. [[
rule "wet ground" { level = "note", applies_to = { "cut" }, ground = "dry or frozen",
                    says = "our swamp is shallow", source = "the test" }
rule "ash" { level = "note", applies_to = { "keep" }, off = true, says = "no ash here",
             source = "the test" }
]])
    local out = kit.expect("spinney why rule 'wet ground' layered.rx", { status = 0, err = false })
    local holds, replaced = out:find("plan, layered.rx:18", 1, true),
        out:find("built-in, stdlib/base/rules.rx:", 1, true)
    kit.check("the plan's version first, then what it replaced", holds and replaced
        and holds < replaced, out)
    kit.check("both say their source", out:find("source: the test.*source: Stone 2002"), out)
    out = kit.run("spinney why rule ash layered.rx")
    kit.check("switched off", out:find("(switched off)", 1, true), out)
    -- A region's rule is known only with a plan there.
    kit.expect("spinney why rule 'riparian zone'", { status = 2, out = false,
        err = "there is no rule" })
    out = kit.expect("spinney why rule 'riparian zone' plan.rx", { status = 0 })
    kit.check("of the state", out:find("michigan", 1, true), out)
    -- Whatever has layers answers likewise.
    kit.put("words.rx", kit.plan .. [[
season "dormant" { window = Nov 20 to Mar 15, source = "this farm" }
condition "frozen" { chance = { 60 percent, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 25 percent },
  source = "this farm" }
rate "felling" { value = 10 trees/h, source = "this farm" }
price "plant, bare-root" { value = 0.6 USD/plant, source = "this farm" }
notice "letter" { to = "the neighbor", lead = 5 d, expires = 60 d, applies_to = { "cut" },
  source = "this farm" }
]])
    for of, says in pairs { ["season dormant"] = "Nov 20 to Mar 15",
        ["condition frozen"] = "60 0 0 0 0 0 0 0 0 0 0 25", ["rate felling"] = "10 trees/h",
        ["price 'plant, bare-root'"] = "0.6 USD/plant" } do
        out = kit.expect(("spinney why %s words.rx"):format(of),
            { status = 0, out = says, err = false })
        kit.check(of .. " and what it replaced", out:find("plan, words.rx:", 1, true)
            and out:find("this farm\nin place of: built-in", 1, true), out)
    end
    kit.expect("spinney why notice letter words.rx",
        { status = 0, out = "to the neighbor, 5 d ahead" })
    kit.expect("spinney why season dormnt",
        { status = 2, out = false, err = "did you mean \"dormant\"?" })
    kit.expect("spinney why rule 'wet grond'", { status = 2, err = "did you mean \"wet ground\"?" })
    kit.expect("spinney why rule 'wet ground' wrong.rx", { status = 2, out = false })
end

return function()
    quantities()
    wrong_names()
    answers()
    rules()
end

--- Packs over what is built in, property and plan over packs; several of them; wrong ones.
local kit = require "cli.kit"

--- A rule that always speaks, with its own words.
local function rule(words, name, level)
    return ([[
rule %q { level = %q, applies_to = { "cut" }, says = %q, source = "the test",
  when = function () return true end }
]]):format(name or "house rule", level or "note", words)
end

local function make()
    kit.put("ours/pack.rx", [[
pack { says = "ours", reads = { "rates.rx", "rules.rx" }, units = {
  { "bundle", plural = "bundles" }, { "rope", plural = "ropes", like = "ft", factor = 20 } } }
]])
    kit.put("ours/rates.rx", [[
rate "cleanup, lop and leave" { value = 9 to 11, source = "our records" }
]])
    kit.put("ours/rules.rx", rule("words of ours") .. [[
rule "wet ground" { level = "note", applies_to = { "cut" }, ground = "dry or frozen",
  says = "our swamp is shallow", source = "our records" }
]])
    kit.put("ours/prescriptions/house-cut.rx", [[
prescription "house-cut" { title = "House cut", asks = { to = { kind = "stand" } },
  steps = function (o)
    return cut "house" { stand = o.to, species = "aspen", slash = "lop and leave" }
  end }
]])
    kit.put("ours/prescriptions/mast-release.rx", [[
prescription "mast-release" { title = "Mast release, our way", asks = { to = { kind = "stand" } },
  steps = function (o) return cut "ours" { stand = o.to, species = "red maple" } end }
]])
    kit.put("ours/regions/home.rx", rule("as at home", "home rule", "caution"))
    kit.put("ours/regions/home/hill.rx", rule("as on the hill", "home rule"))
    kit.put("ours/regions/lake-states.rx", rule("as at the lake", "lake rule"))
    kit.put("theirs/pack.rx", rule("words of theirs"))
end

--- A pack's rate of a name nearly right would be passed over in silence.
local function misspelled()
    kit.put("slips/pack.rx", [[
rate "brush cuting" { value = 8 h/ac, source = "our records" }
rate "stacking" { value = 2 h, source = "our records" }
]])
    kit.expect("spinney check plan.rx --pack slips", { status = 0,
        err = "pack.rx:1:1: warning: nothing in this plan asks for the rate \"brush cuting\"" })
end

local function one_pack()
    local out = kit.expect("spinney run plan.rx --pack ours", { status = 0, out = "Words of ours.",
        err = false })
    kit.check("a rate of the pack is used", out ~= kit.run("spinney run plan.rx"))
    kit.expect("spinney why plan.rx bench-aspen/fell.cleanup_hours --pack ours",
        { status = 0, out = "pack ours: our records" })
    kit.expect("spinney why plan.rx bench-aspen/fell.cleanup_hours", { status = 0,
        out = "built-in" })
    kit.put("units.rx", kit.plan:gsub("width = width", "width = 2 ropes")
        .. "posts = 3 bundles + 4 bundles\nlocal b = 1 bundle\n")
    kit.expect("spinney run units.rx --pack ours", { status = 0, out = "40 ft", err = false })
    kit.expect("spinney why units.rx posts --pack ours", { status = 0, out = "= 7 bundles" })
    kit.expect("spinney run units.rx", { status = 2, out = false, err = "`ropes` is not a unit" })
    kit.expect("spinney help units --pack ours", { status = 0, out = "rope" })
    kit.put("house.rx", kit.plan .. "apply \"house-cut\" { to = \"Bench aspen\" }\n")
    kit.expect("spinney run house.rx --pack ours", { status = 0, out = "House cut" })
    kit.expect("spinney run house.rx", { status = 2,
        err = "there is no prescription \"house-cut\"" })
    kit.expect("spinney help house-cut --pack ours", { status = 0, out = "House cut" })
    kit.expect("spinney help mast-release --pack ours", { status = 0,
        out = "Mast release, our way" })
    kit.expect("spinney help prescriptions --pack ours", { status = 0, out = "house-cut" })
    kit.put("mast.rx", kit.plan .. "apply \"mast-release\" { to = \"Bench aspen\" }\n")
    kit.expect("spinney run mast.rx --pack ours", { status = 0, out = "Mast release, our way" })
end

local function regions()
    local function plan_of(region) return (kit.plan:gsub("lake%-states/michigan", region)) end
    kit.put("home.rx", plan_of("home"))
    kit.put("hill.rx", plan_of("home/hill"))
    kit.expect("spinney run home.rx --pack ours", { status = 0, out = "As at home." })
    kit.expect("spinney run hill.rx --pack ours", { status = 0, out = "As on the hill." })
    kit.expect("spinney run home.rx", { status = 2, out = false,
        err = "there is no region \"home\"" })
    kit.expect("spinney run plan.rx --pack ours", { status = 0, out = "As at the lake." })
    kit.expect("spinney help regions --pack ours", { status = 0, out = "home/hill" })
    local out = kit.run("spinney why rule 'home rule' hill.rx --pack ours")
    kit.check("the state's version over the region's",
        out:find("as on the hill.*in place of.*as at home"), out)
end

--- The layers of one rule, from the last word down.
local function order()
    local function top(command)
        return (kit.run(command):match("^[^\n]*\n  (%l+: [^\n]*)") or "")
    end
    kit.put("layers/property.rx", rule("words of the property"))
    kit.put("layers/plan.rx", "use \"property.rx\"\n" .. kit.plan)
    kit.put("layers/last.rx", "use \"property.rx\"\n" .. kit.plan .. rule("words of the plan"))
    local why = "spinney why rule 'house rule' "
    kit.same("pack", "note: words of ours", top(why .. "plan.rx --pack ours"))
    kit.same("later packs over earlier ones", "note: words of theirs", top(why
        .. "plan.rx --pack ours --pack theirs"))
    kit.same("and the other way round", "note: words of ours", top(why
        .. "plan.rx --pack theirs --pack ours"))
    kit.same("SPINNEY_PATH", "note: words of ours", top("SPINNEY_PATH=ours " .. why .. "plan.rx"))
    kit.same("later folders of it", "note: words of theirs", top("SPINNEY_PATH=ours:theirs " .. why
        .. "plan.rx"))
    kit.same("--pack over SPINNEY_PATH", "note: words of ours",
        top("SPINNEY_PATH=theirs " .. why .. "plan.rx --pack ours"))
    kit.same("empty parts of it", "note: words of ours", top("SPINNEY_PATH=::ours: " .. why
        .. "plan.rx"))
    kit.same("property over pack", "note: words of the property", top(why
        .. "layers/plan.rx --pack ours"))
    kit.same("plan over property", "note: words of the plan", top(why
        .. "layers/last.rx --pack ours"))
    local out = kit.run(why .. "layers/last.rx --pack theirs --pack ours")
    kit.check("all of them, in order", out:find("of the plan.*of the property.*of ours.*of theirs"),
        out)
    out = kit.run(why .. "--pack ours")
    kit.check("without a plan", out:find("pack ours, ours/rules.rx:1", 1, true), out)
    out = kit.run("spinney run layers/last.rx --pack ours")
    kit.check("only the last word is in the paper", out:find("Words of the plan.", 1, true)
        and not out:find("Words of ours", 1, true) and not out:find("Words of the property", 1,
            true), out)
end

local function names()
    -- Two packs of one name are two packs; one pack twice is one.
    kit.put("a/county/pack.rx", rule("words of a"))
    kit.put("b/county/pack.rx", rule("words of b")
        .. "rate \"felling\" { value = 5 trees/h, source = \"b\" }\n")
    local out,
        err = kit.run("spinney why rule 'house rule' plan.rx --pack a/county --pack b/county")
    kit.check("two packs of one name", out:find("words of b.*words of a"), out .. err)
    for _, way in ipairs { "ours", "ours/", "./ours", kit.path("ours"), "a/../ours" } do
        out, err = kit.run("spinney why rule 'house rule' plan.rx --pack " .. kit.quote(way))
        kit.check("--pack " .. way, out:find("pack ours, ours/rules.rx:1", 1, true) and err == "",
            out .. err)
    end
    out, err = kit.run("spinney run plan.rx --pack ours --pack ours")
    kit.check("one pack twice", out:find("Words of ours.", 1, true) and err == "", err)
    kit.put("of blanks/our \195\182/pack.rx", rule("words of blanks"))
    kit.expect("spinney run plan.rx --pack 'of blanks/our \195\182'", { status = 0,
        out = "Words of blanks.", err = false })
    kit.put("empty/readme.txt", "nothing\n")
    kit.expect("spinney run plan.rx --pack empty", { status = 0, out = "Hazel Hill", err = false })
end

local function wrong_packs()
    kit.expect("spinney run plan.rx --pack nosuch", { status = 2, out = false,
        err = "there is no folder `nosuch`" })
    kit.expect("spinney run plan.rx --pack plan.rx", { status = 2, out = false,
        err = "is not a folder" })
    kit.expect("spinney run plan.rx --pack ''", { status = 2, out = false, err = "error: " })
    kit.expect("SPINNEY_PATH=nosuch spinney run plan.rx", { status = 2, out = false,
        err = "`nosuch`" })
    kit.expect("SPINNEY_PATH=nosuch spinney help cut", { status = 2, out = false,
        err = "`nosuch`" })
    kit.expect("SPINNEY_PATH=" .. ("ours:"):rep(17) .. " spinney help cut", { status = 64,
        err = "too many folders" })
    local function wrong(name, text, words, more)
        kit.put("bad/pack.rx", text)
        kit.put("bad/rules.rx", more or "")
        for _, command in ipairs { "run plan.rx", "check plan.rx", "help cut",
            "why rule 'wet ground'" } do
            local out, err, status = kit.run("spinney " .. command .. " --pack bad")
            kit.check(("a pack with %s: %s"):format(name, command), status == 2 and out == ""
                and err:find(words, 1, true), err .. out)
        end
    end
    wrong("a slip", "rule = = 3\n", "bad/pack.rx:1:8: error: ")
    wrong("an unknown key", "pack { reeds = {} }\n", "bad/pack.rx:1:8: error: pack has no `reeds`")
    wrong("a file that is not there", "pack { reads = { \"nosuch.rx\" } }\n",
        "no file \"nosuch.rx\"")
    wrong("a file outside", "pack { reads = { \"../plan.rx\" } }\n", "bad/pack.rx:1:")
    wrong("a slip in a file it reads", "pack { reads = { \"rules.rx\" } }\n",
        "bad/rules.rx:1:1: error: ", "rul \"x\" {}\n")
    wrong("a unit that is taken", "pack { units = { { \"ft\" } } }\n", "error: ")
    wrong("a crash", "local x = nil + 1\n", "bad/pack.rx:1:")
    wrong("two slips",
        "rate \"a\" { vaule = 3 trees/h }\nrate \"b\" { value = 3 trees/h, sorce = \"x\" }\n",
        "`sorce`")
    -- Functions of a pack run later, and are watched as scripts are.
    kit.put("endless/pack.rx",
        "rule \"r\" { level = \"note\", applies_to = { \"cut\" }, says = \"x\", source = \"y\", "
        .. "when = function ()\n while true do end\nend }\n")
    kit.expect("spinney run plan.rx --pack endless --steps 1", { status = 2, out = false,
        err = "endless/pack.rx:2:2: error: the script was stopped after 1 million steps" })
end

return function()
    make()
    misspelled()
    one_pack()
    regions()
    order()
    names()
    wrong_packs()
end

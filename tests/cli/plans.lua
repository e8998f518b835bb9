--- Odd files as plans: missing, of another kind, empty, huge, from other systems, and paths
--- of every form.
local kit = require "cli.kit"

local function no_plans()
    kit.expect("spinney run nosuch.rx", { status = 2, out = false,
        err = "there is no file `nosuch.rx`" })
    kit.expect("spinney run nosuch/plan.rx", { status = 2, out = false, err = "there is no file" })
    kit.expect("spinney run ''", { status = 2, out = false, err = "there is no file" })
    kit.expect("spinney run .", { status = 2, out = false, err = "`.` is a folder, not a file" })
    kit.expect("spinney run plan.rx/", { status = 2, out = false, err = "error: " })
    kit.expect("mkfifo pipe; spinney run pipe", { status = 2, out = false, err = "not a file" })
    kit.expect("spinney run /dev/null", { status = 2, out = false, err = "not a file" })
    kit.expect("ln -sf round1 round2; ln -sf round2 round1; spinney run round1",
        { status = 2, out = false, err = "error: " })
    kit.expect("spinney run " .. ("x"):rep(300), { status = 2, out = false, err = "error: " })
    kit.expect("spinney run " .. ("d/"):rep(3000) .. "plan.rx", { status = 2, out = false,
        err = "error: " })
    if kit.run("id -u"):match("%d+") ~= "0" then
        kit.expect("cp plan.rx secret.rx; chmod 0 secret.rx; spinney run secret.rx",
            { status = 2, out = false, err = "permission is refused" })
    end
end

local function without_property()
    local cases = { ["empty"] = "", ["a blank"] = " ", ["a newline"] = "\n",
        ["a comment"] = "-- nothing\n",
        ["a comment without a newline"] = "-- nothing", ["only Lua"] = "local x = 1\n",
        ["a first line for the system"] = "#!/usr/bin/env spinney\n",
            ["a mark alone"] = "\239\187\191" }
    for name, text in pairs(cases) do
        kit.put("odd.rx", text)
        local _, err, status = kit.run("spinney run odd.rx")
        kit.check("a plan that is " .. name, status == 2 and err:find("the plan has no property", 1,
            true), err)
        kit.check("with a mend: " .. name, err:find("try: property", 1, true), err)
        _, err, status = kit.run("spinney check odd.rx")
        kit.check("checking is content with " .. name, status == 0 and err == "", err)
    end
    kit.put("odd.rx", "stand \"x\" { area = 3 ac, species = { [\"red oak\"] = 100 percent } }\n")
    kit.expect("spinney run odd.rx", { status = 2, err = "no property" })
end

--- The same plan, as other editors write it, gives the same paper.
local function other_editors()
    local paper = kit.run("spinney run plan.rx")
    local forms = {
        ["a mark in front"] = "\239\187\191" .. kit.plan,
        ["\\r\\n"] = kit.plan:gsub("\n", "\r\n"),
        ["\\r\\n and a mark"] = "\239\187\191" .. kit.plan:gsub("\n", "\r\n"),
        ["\\r"] = kit.plan:gsub("\n", "\r"),
        ["a first line for the system"] = "#!/usr/bin/env spinney\n" .. kit.plan,
        ["no last newline"] = kit.plan:gsub("\n+$", ""),
        ["tabs"] = kit.plan:gsub("\n  ", "\n\t"),
        ["blanks at the ends of lines"] = kit.plan:gsub("\n", "  \n"),
    }
    for name, text in pairs(forms) do
        kit.put("plan_of_others.rx", text)
        local out, err = kit.run(
            "mkdir -p others; mv plan_of_others.rx others/plan.rx; spinney run others/plan.rx")
        -- The draws of a range go with its line and column: what only moves them is no
        -- difference, and is compared without the figures in brackets.
        local function likely(text_of) return (text_of:gsub("%([^()]*%)", ""):gsub("%s+", " ")) end
        kit.same("a plan with " .. name, likely(paper), likely(out))
        kit.same("a plan with " .. name .. ": complaints", "", err)
    end
    kit.put("windows.rx", ("property \"x\" {\n  walked = Oct 14 2026,\n  walkd = 3\n}\n"):gsub("\n",
        "\r\n"))
    kit.expect("spinney run windows.rx", { status = 2,
        err = "windows.rx:3:3: error: property has no `walkd`" })
    kit.put("marked.rx", "\239\187\191x = = 3\n")
    kit.expect("spinney run marked.rx", { status = 2, err = "marked.rx:1:5: error: " })
end

local function strange_bytes()
    kit.put("odd.rx", kit.plan .. "x = 1 \0 y = 2\n")
    kit.expect("spinney run odd.rx", { status = 2, out = false,
        err = "odd.rx:18:7: error: a byte stands here that is no text (number 0)" })
    kit.put("odd.rx", "\0")
    kit.expect("spinney run odd.rx", { status = 2, out = false, err = "odd.rx:1:1: error: " })
    kit.put("odd.rx", kit.plan .. "-- in a comment \0 all is well\n")
    kit.expect("spinney run odd.rx", { status = 0, err = false })
    kit.put("odd.rx", kit.plan:gsub("nobody", "no\\0body"))
    local out = kit.expect("spinney run odd.rx", { status = 0 })
    kit.check("no NUL comes out", not out:find("\0", 1, true), "there is one")
    kit.put("odd.rx", "\27LuaT\0\25\147\r\n\26\n")
    local _, err = kit.expect("spinney run odd.rx", { status = 2, out = false, err = "error: " })
    kit.check("no byte that steers is shown", not err:find("[\0-\8\11-\31]"), err)
    kit.put("odd.rx", "x = \"caf\233\"\ny = = 1\n")
    kit.expect("spinney run odd.rx", { status = 2, out = false,
        err = "odd.rx:2:5: error: " })
    kit.put("odd.rx", "x = \255\254 = 3\n")
    _, err = kit.expect("spinney run odd.rx", { status = 2, out = false,
        err = "odd.rx:1:5: error: " })
    kit.check("bad bytes are not shown", utf8.len(err), err)
end

local function large_plans()
    local most = 1 << 20
    local function filled(size)
        local line = "-- " .. ("x"):rep(76) .. "\n"
        local text = kit.plan .. line:rep((size - #kit.plan) // #line)
        return text .. ("-"):rep(size - #text)
    end
    kit.put("big.rx", filled(most))
    kit.expect("spinney run big.rx", { status = 0, out = "Hazel Hill", err = false })
    kit.put("big.rx", filled(most + 1))
    kit.expect("spinney run big.rx", { status = 2, out = false, err = "larger than" })
    kit.put("big.rx", kit.plan .. "--" .. ("x"):rep(800000) .. "\n")
    kit.expect("spinney run big.rx", { status = 0, err = false })
    kit.put("big.rx", kit.plan .. "x = \"" .. ("y"):rep(800000) .. "\" = 3\n")
    local _, err = kit.expect("spinney run big.rx", { status = 2, out = false, err = "big.rx:18:" })
    kit.check("a long line is shown short", #err < 2000, ("%d bytes"):format(#err))
    for line in err:gmatch("[^\n]+") do
        kit.check("a line of the message", utf8.len(line) and utf8.len(line) <= 200, line)
    end
    kit.put("big.rx", ("("):rep(900000))
    kit.expect("spinney run big.rx", { status = 2, out = false, err = "error: " })
    kit.put("big.rx", "x = " .. ("{"):rep(900000))
    kit.expect("spinney run big.rx", { status = 2, out = false, err = "error: " })
    -- A hundred wrong lines: so many are told, and how many more there are.
    local lines = {}
    for i = 1, 100 do lines[i] = ("crew \"c%d\" { peple = 2 }\n"):format(i) end
    kit.put("big.rx", table.concat(lines))
    _, err = kit.expect("spinney run big.rx", { status = 2, out = false,
        err = "did you mean `people`?" })
    kit.check("many faults", err:find("and %d+ more errors"), err:sub(-200))
end

--- One plan by many paths: the same paper, and the path as it was typed in messages.
local function paths()
    local paper = kit.run("spinney run plan.rx")
    kit.put("a farm/the plan.rx", kit.plan)
    kit.put("\195\182stlich/\229\156\159\229\156\176.rx", kit.plan)
    kit.put("a'b\"c/$(x) `y`;.rx", kit.plan)
    kit.put("farm/plan.rx", kit.plan)
    for _, path in ipairs { "./plan.rx", kit.path("plan.rx"), "farm/plan.rx", "./farm/plan.rx",
        "farm//plan.rx",
        "farm/../farm/plan.rx", "a farm/the plan.rx", "\195\182stlich/\229\156\159\229\156\176.rx",
        "a'b\"c/$(x) `y`;.rx" } do
        local out, err, status = kit.run("spinney run " .. kit.quote(path))
        -- Draws go with the name of the file, not with the way to it.
        if path:match("[^/]*$") == "plan.rx" then
            kit.same("the paper of " .. path, paper, out)
        end
        kit.check("a plan at " .. path, status == 0 and err == "" and out:find("Hazel Hill", 1,
            true), err)
    end
    kit.same("from within its folder", paper, (kit.run("cd farm && spinney run plan.rx")))
    kit.same("from below its folder", paper,
        (kit.run("mkdir -p farm/x/y && cd farm/x/y && spinney run ../../plan.rx")))
    kit.same("by a link", paper,
        (kit.run("ln -s farm/plan.rx plan2.rx; mkdir -p l; ln -s ../farm/plan.rx l/plan.rx;"
        .. " spinney run l/plan.rx")))
    kit.put("a farm/wrong.rx", "x = = 3\n")
    kit.expect("spinney run 'a farm/wrong.rx'", { status = 2,
        err = "a farm/wrong.rx:1:5: error: " })
    kit.expect("spinney run './a farm//wrong.rx'", { status = 2,
        err = "./a farm//wrong.rx:1:5: error: " })
end

--- Files that a plan uses: beside it, wherever it is called from.
local function used_files()
    kit.put("split/property.rx", (kit.plan:match("^(property.-\n}\n)")))
    kit.put("split/plan.rx", "use \"property.rx\"\n" .. kit.plan:gsub("^property.-\n}\n", ""))
    local paper = kit.expect("spinney run split/plan.rx", { status = 0, err = false })
    kit.same("from within", paper, (kit.run("cd split && spinney run plan.rx")))
    kit.same("by the whole path", paper, (kit.run("spinney run "
        .. kit.quote(kit.path("split/plan.rx")))))
    kit.put("split/property.rx", "property \"x\" { walkd = Oct 14 2026 }\n")
    kit.expect("spinney run split/plan.rx", { status = 2, out = false,
        err = "split/property.rx:1:16: error: " })
    kit.expect("cd split && spinney run plan.rx", { status = 2, err = "property.rx:1:16: error: " })
    kit.put("split/round.rx", "use \"round.rx\"\n")
    kit.expect("spinney run split/round.rx", { status = 2, err = "circle" })
    kit.expect("spinney run split//round.rx", { status = 2, err = "circle" })
    kit.expect("cd split && spinney run ./round.rx", { status = 2, err = "circle" })
    for name, words in pairs { ["../plan.rx"] = "leads out of", ["/etc/passwd"] = "leads out of",
        ["split"] = "error: ", [""] = "error: ", ["nosuch.rx"] = "no script `nosuch.rx`" } do
        kit.put("out.rx", ("use %q\n"):format(name))
        kit.expect("spinney run out.rx # " .. name, { status = 2, out = false, err = words })
    end
    kit.run("ln -s /etc/hostname linked.rx; ln -s /etc folder")
    for _, name in ipairs { "linked.rx", "folder/hostname" } do
        kit.put("out.rx", ("use %q\n"):format(name))
        kit.expect("spinney run out.rx # " .. name, { status = 2, out = false, err = "link" })
    end
end

return function()
    no_plans()
    without_property()
    other_editors()
    strange_bytes()
    large_plans()
    paths()
    used_files()
end

--- Does every rule and every notice of the built-in layers speak when it should, and only
--- then? And do the published dates and widths come out as printed?
---     lua5.4 tests/rules.lua FOLDER_OF_SPINNEY [PART_OF_A_NAME]
--- Rows are in tests/rules/*.lua: the layer and the name, a plan that makes it speak, one
--- that does not, and where the words matter, a part of what it says. A rule or notice of
--- stdlib without a row fails, and so does a rate, price, season or condition without a source.
--- tests/published/seasons.lua and water.lua hold plans with what a publication says of them;
--- the figures beside them are tests/published.lua's.
package.path = (arg[0]:match("^(.*/)") or "") .. "?.lua"

local shell = require "runner.shell"

if not arg[1] then
    io.stderr:write("usage: lua5.4 tests/rules.lua FOLDER_OF_SPINNEY [NAME]\n")
    os.exit(64)
end
local only = arg[2] or ""
shell.begin(arg[1])

--- The ground that the plans of the rows stand on. All of it is made up.
local GROUND = [[
stand "Aspen" { area = 6 ac, ground = "dry", tree_length = 60 ft, brush = "light", browse = "none",
  tally = "size 1/10 ac\nplot 1: bigtooth aspen 8x20\nplot 2: bigtooth aspen 8x22" }
stand "Mixed" { area = 6 ac, ground = "dry", tree_length = 60 ft, browse = "none",
  tally = "size 1/10 ac\nplot 1: BTA 8x12; RO 14\nplot 2: BTA 8x10; RO 12" }
stand "Oak" { area = 6 ac, ground = "dry", tree_length = 60 ft,
  tally = "size 1/10 ac\nplot 1: red oak 12x9\nplot 2: red oak 14x8" }
stand "Pine" { area = 6 ac, ground = "dry", tree_length = 60 ft,
  tally = "size 1/10 ac\nplot 1: red pine 10x12\nplot 2: red pine 10x14" }
stand "Ash" { area = 6 ac, ground = "dry", tree_length = 60 ft,
  tally = "size 1/10 ac\nplot 1: white ash 10x8\nplot 2: white ash 12x8" }
stand "Small maple" { area = 1 ac, ground = "dry", tree_length = 30 ft,
  tally = "size 1/100 ac\nplot 1: red maple 2x9\nplot 2: red maple 2x8" }
stand "Field" { area = 4 ac, ground = "dry", tree_length = 60 ft }
]]

--- The whole script of a row: a property in the region, a crew that can do all, the ground.
local function script(row, layer, body, is_quiet)
    local region = layer ~= "base" and ("region = %q, "):format(layer) or ""
    local walked = row.walked or "Oct 14 2026"
    local rest = is_quiet and row.property_quiet or row.property or ""
    return ("property \"Test ground\" { %swalked = %s, %s }\n"):format(region, walked, rest)
        .. ("crew \"all hands\" { people = %d, hours_each = 40 h/wk, skills = { %s } }\n"):format(
            is_quiet and 4 or row.people or 4,
            '"saw", "applicator", "fire", "machine", "planting"')
        .. GROUND .. body .. "\n"
end

--- Runs a script; returns what was found, by name a list of { level, words }, the notices
--- with the day to file them, or nil and the complaints when the script is wrong.
local function ask(text)
    local path = shell.scratch("plan.rx")
    shell.write(path, text)
    local quoted = shell.quote(path)
    local _, told, status = shell.run(".", "spinney check --ids " .. quoted)
    if status > 1 then return nil, shell.crash(status) or told end
    local found = {}
    for line in told:gmatch("[^\n]+") do
        local level, name, words = line:match("(%l+)%[([^%]]+)%]: (.*)$")
        if not level then return nil, "not understood: " .. line end
        found[name] = found[name] or {}
        table.insert(found[name], { level = level, words = words })
    end
    local json, complaints, ended = shell.run(".", "spinney run --json " .. quoted)
    if ended > 1 then return nil, complaints end
    local notices = {}
    local filing = '"name":%s*"([^"]*)",%s*"to":%s*"[^"]*",%s*"file_by":%s*"?([%d%-nul]+)'
    for name, day in json:gmatch(filing) do
        notices[name] = notices[name] or {}
        table.insert(notices[name], day)
    end
    return found, nil, notices
end

--- The files of the built-in layers.
local function layer_files()
    local files = shell.files("stdlib/base", "*.rx")
    for _, path in ipairs(shell.files("stdlib/regions", "*.rx")) do files[#files + 1] = path end
    return files
end

--- Every rule and notice of the built-in layers: { layer, kind, name, level }.
local function declared()
    local list = {}
    local files = layer_files()
    for _, path in ipairs(files) do
        local layer = path:match("^stdlib/regions/(.*)%.rx$") or "base"
        for kind, name, body in shell.read(path):gmatch("%f[^\n\0](%l+) (%b\"\") (%b{})") do
            if kind == "rule" or kind == "notice" then
                list[#list + 1] = { layer = layer, kind = kind, name = name:sub(2, -2),
                    level = body:match("level = \"(%l+)\""), path = path }
            end
        end
    end
    return list
end

local passed, failed = 0, 0
local function report(name, trouble)
    if trouble then
        failed = failed + 1
        io.write("FAILED ", name, "\n", (trouble:gsub("[^\n]+", "    %0")), "\n")
    else
        passed = passed + 1
    end
end

local function is_wanted(name) return name:find(only, 1, true) ~= nil end

--- What is wrong with a level and words among the findings of a name, or nil.
local function compare(list, level, says)
    if not list then return "it does not speak" end
    local seen = {}
    for _, finding in ipairs(list) do
        if (not level or finding.level == level) and (not says or finding.words:find(says, 1,
            true)) then
            return nil
        end
        seen[#seen + 1] = finding.level .. ": " .. finding.words
    end
    return ("wanted %s%s, got\n%s"):format(level or "", says and " with \"" .. says .. "\"" or "",
        table.concat(seen, "\n"))
end

local function run_rule(row, entry)
    for _, case in ipairs { "fires", "quiet" } do
        local name = ("%s: %s (%s)"):format(row.layer, row.name, case)
        if is_wanted(name) then
            local text = script(row, row.layer, row[case], case == "quiet")
            local found, complaints, notices = ask(text)
            local list = found and (entry.kind == "notice" and notices[row.name] or found[row.name])
            local trouble = complaints
            if found and case == "quiet" then
                trouble = list and "it speaks" or nil
            elseif found and entry.kind == "notice" then
                trouble = not list and "it is not filed" or row.by and list[1] ~= row.by
                    and ("to be filed by %s, wanted %s"):format(list[1], row.by) or nil
            elseif found then
                trouble = compare(list, entry.level, row.says)
            end
            report(name, trouble)
        end
    end
end

local function run_rows()
    local rows = {}
    for _, path in ipairs(shell.files("tests/rules", "*.lua")) do
        for _, row in ipairs(dofile(path)) do
            local key = row.layer .. "/" .. row.name
            if rows[key] then report(key, "two rows are for it") end
            rows[key] = row
        end
    end
    local entries = declared()
    for _, entry in ipairs(entries) do
        local key = entry.layer .. "/" .. entry.name
        local row = rows[key]
        rows[key] = nil
        if not row then
            report(key, ("%s \"%s\" of %s has no row in tests/rules"):format(entry.kind, entry.name,
                entry.path))
        else
            run_rule(row, entry)
        end
    end
    local left = {}
    for key in pairs(rows) do left[#left + 1] = key end
    table.sort(left)
    for _, key in ipairs(left) do report(key, "there is no such rule or notice") end
    if #entries == 0 then report("stdlib", "no rules were found") end
end

--- Each rate, price, season, condition, rule and notice that is built in says where it is from.
local function run_sources()
    local layered = { rate = true, price = true, season = true, condition = true, rule = true,
        notice = true }
    local count = 0
    for _, path in ipairs(layer_files()) do
        for kind, name, body in shell.read(path):gmatch("%f[^\n\0](%l+) (%b\"\") (%b{})") do
            if layered[kind] then
                count = count + 1
                if not body:find("source = ", 1, true) then
                    report(kind .. " " .. name, "it has no source in " .. path)
                end
            end
        end
    end
    report("sources", count < 150 and ("only %d were found"):format(count) or nil)
end

--- A published check: `speaks` and `silent` are lists of names, the former with a level and
--- words where they matter: { "oak wilt", "stop", "84 ft" }; `file` names a notice and a day.
local function run_published(row)
    if not is_wanted(row.what) then return end
    local found, trouble, notices = ask(script(row, row.region, row.plan))
    for _, wanted in ipairs(found and row.speaks or {}) do
        local wrong = compare(found[wanted[1]], wanted[2], wanted[3])
        trouble = trouble or wrong and wanted[1] .. ": " .. wrong
    end
    for _, name in ipairs(found and row.silent or {}) do
        trouble = trouble or found[name] and name .. " speaks, and should not"
    end
    if found and row.file then
        local day = (notices[row.file[1]] or {})[1]
        trouble = trouble or day ~= row.file[2]
            and ("%s: to be filed by %s, published %s"):format(row.file[1], tostring(day),
                row.file[2]) or nil
    end
    report(row.what, trouble and trouble .. "\nsource: " .. row.source)
end

run_rows()
if is_wanted("sources") then run_sources() end
for _, name in ipairs { "seasons", "water" } do
    for _, row in ipairs(dofile("tests/published/" .. name .. ".lua")) do run_published(row) end
end
shell.finish()
io.write(("rules: %d passed, %d failed\n"):format(passed, failed))
os.exit(failed == 0 and passed > 0 and 0 or 1)

--- The flags that `spinney run -o` writes: right in every form, read back by other readers
--- and by our own.
local kit = require "cli.kit"
local farm = require "cli.farm"
local json = require "cli.json"
local table_of = require("cli.csv").table_of

local top = io.popen("pwd"):read("l")
--- What was fetched when the tests were built: readers of others, the schema of GPX 1.1.
local data = (kit.built:find("^/") and "" or top .. "/") .. kit.built .. "/../data"
local SCHEMA = kit.quote(data .. "/gpx-1.1.xsd")

local function file(name) return kit.read(kit.path("walk/out/" .. name)) end

--- Feet east and north between two rows: plain arithmetic on a sphere, good to a foot here.
local function between(a, b)
    local per_degree = 6371000 / 0.3048 * math.pi / 180
    return (b.longitude - a.longitude) * per_degree * math.cos(math.rad(47.6)),
        (b.latitude - a.latitude) * per_degree
end

--- Feet from a row to the line through these places.
local function to_line(row, line)
    local nearest = math.huge
    for i = 2, #line do
        local ax, ay = between(line[i - 1], row)
        local dx, dy = between(line[i - 1], line[i])
        local share = math.max(0, math.min(1, (ax * dx + ay * dy) / (dx * dx + dy * dy)))
        local x, y = ax - share * dx, ay - share * dy
        nearest = math.min(nearest, math.sqrt(x * x + y * y))
    end
    return nearest
end

--- Openings are flagged in their middle, trails on their line, buffers at their edge: 40 ft
--- from the bank of a creek that is 8 ft wide.
local function the_places(rows)
    local centers = {}
    for _, row in ipairs(rows) do
        if row.kind == "opening" then
            centers[#centers + 1] = row.longitude .. " " .. row.latitude
        elseif row.kind == "trail" then
            local off = math.min(to_line(row, farm.path[1]), to_line(row, farm.path[2]))
            kit.check(row.flag .. " is on the trail", off < 0.5, tostring(off))
        elseif row.kind == "buffer" then
            local off = to_line(row, farm.creek)
            kit.check(row.flag .. " is at the edge", math.abs(off - 44) < 0.5, tostring(off))
        end
    end
    table.sort(centers)
    kit.same("centers of openings", "-87.4985500 47.6015000; -87.4994500 47.6004000",
        table.concat(centers, "; "))
end

local function the_table()
    local rows = table_of(file "flags.csv")
    local kinds, ft = {}, 0
    local before = { longitude = -87.5001, latitude = 47.5999 }
    for i, row in ipairs(rows) do
        kinds[row.kind] = (kinds[row.kind] or 0) + 1
        local east, north = between(before, row)
        local far, azimuth = math.sqrt(east * east + north * north), math.deg(math.atan(east,
            north)) % 360
        ft = ft + row.feet
        local off = math.abs((azimuth - row.true_degrees + 180) % 360 - 180)
        -- The sphere is round, and the earth is not quite: three in a thousand.
        if row.number ~= tostring(i) or math.abs(far - row.feet) > 1 + far * 0.005 or off > 0.5
            or math.abs((row.compass_degrees - row.true_degrees) % 360 - 3.5) > 0.11
            or math.abs(row.paces - row.feet / 2.6) > 0.1 then
            kit.fail("row " .. i .. " of flags.csv", ("%.1f ft, %.2f degrees"):format(far, azimuth))
        end
        before = row
    end
    the_places(rows)
    kit.same("from the nearer gate", "North gate", rows[1].from)
    kit.same("centers of openings", 2, kinds.opening)
    kit.same("corners of the clump", 4, kinds.corner)
    kit.check("ends of the buffer's two edges", kinds.buffer >= 4)
    -- Both ends of the first line lie at openings; left are the fork, a bend of each line and
    -- the way out.
    kit.same("flags of the trail", 4, kinds.trail)
    local paper = file "flags.txt"
    kit.check("the paper says the length of the walk",
        paper:find(("walk%%s+%d ft"):format(math.floor(ft + 0.5)))
        or paper:find(("walk%%s+%.0f ft"):format(ft)), paper:sub(1, 600))
    for _, words in ipairs { "points 3.5° west of true north", "2.60 ft", "always to the nearest",
        "blaze orange",
        "go round water", "WGS 84" } do
        kit.check("the paper says: " .. words, paper:gsub("%s+", " "):find(words, 1, true), paper)
    end
    kit.check("the plan counts them", (file "plan.txt"):gsub("%s+",
        " "):find(("flags %d mark what"):format(#rows), 1, true))
    return rows
end

--- Features of our GeoJSON by kind and name.
local function features()
    local list = {}
    for i, feature in ipairs(json.read(file "flags.geojson").features) do
        local p = feature.properties
        list[i] = { kind = p.kind, name = p.name, number = p.number, geometry = feature.geometry }
        list[p.kind .. " " .. p.name] = list[i]
    end
    return list
end

local function other_readers(rows)
    if kit.check("xmllint is there", kit.has("xmllint"), "run `make deps`") then
        kit.expect("xmllint --noout --nonet --schema " .. SCHEMA .. " walk/out/flags.gpx",
            { status = 0 })
        kit.expect("xmllint --noout --nonet walk/out/flags.kml", { status = 0, err = false })
    end
    local at = {}
    local waypoint = '<wpt lat="([^"]+)" lon="([^"]+)"><name>(%d+) '
    for lat, lon, number in (file "flags.gpx"):gmatch(waypoint) do
        at[tonumber(number)] = lon .. " " .. lat
    end
    for i, row in ipairs(rows) do
        kit.same("waypoint " .. i, row.longitude .. " " .. row.latitude, at[i])
    end
    local readers = data .. "/readers"
    local out, err, status = kit.run(("node %s %s walk/out/flags.geojson"):format(kit.quote(top
        .. "/tests/data/geojson.js"),
        kit.quote(readers)))
    if not kit.check("another reader reads flags.geojson (it wants node and npm: run `make deps`)",
        status == 0, err) then
        return
    end
    kit.same("it finds nothing wrong", "fine", out:match("[^\n]*"))
    local list, count = features(), 0
    for kind, name, form, meters2,
        rest in out:gmatch("\n([^\t\n]*)\t([^\t\n]*)\t([^\t\n]*)\t([^\t\n]*)\t([^\t\n]*)") do
        count = count + 1
        kit.same(name .. " is read in its place", kind .. " " .. name .. " " .. form,
            list[count].kind .. " " .. list[count].name .. " " .. list[count].geometry.type)
        kit.check(name .. " has something in it", rest ~= "0" and (form:find("Polygon") == nil
            or tonumber(meters2) > 1))
    end
    kit.same("as many features", #list, count)
    -- 3 by 2 ten-thousandths of a degree; on a sphere, where the frame's is an ellipsoid.
    local wanted = 3e-4 * 2e-4 * (6371008.8 * math.pi / 180) ^ 2 * math.cos(math.rad(47.6004))
    local got = tonumber(out:match("Bench opening %d\tPolygon\t([%d.]+)"))
    kit.check("an opening's area", math.abs(got / wanted - 1) < 0.005,
        ("%s, wanted %.2f"):format(got, wanted))
end

--- By the map reader of the program itself, which is OGR's: all three kinds of file.
local function read_back()
    local areas = {}
    for _, kind in ipairs { "geojson", "kml" } do
        kit.put("walk/again." .. kind, file("flags." .. kind))
        kit.put("walk/again.rx", ([=[
property "Again" { region = "lake-states/michigan", walked = Oct 14 2026, map = "again.%s" }
stand "Bench" { map = "Bench", species = { ["bigtooth aspen"] = 100 percent },
  diameter = 6 to 8 in, crowding = "crowded" }
opening { stand = "Bench", use = "rest", map = { "Bench opening 1", "Bench opening 2" } }
keep { stand = "Bench", map = "Bench kept clump 1" }
trail { stand = "Bench", map = "Bench trail 1", width = 6 ft }
]=]):format(kind))
        local out = kit.expect("spinney run walk/again.rx --json", { status = 0, err = false })
        local read = json.read(out)
        areas[kind] = read
    end
    local first = json.read(file "plan.json")
    local function figure(plan, title, key)
        for _, act in ipairs(plan.acts) do
            if act.title == title then return act.quantities[key].value end
        end
        return nil
    end
    -- The frame lies round another middle, which may make 1 in 10,000; degrees are rounded.
    local function as_large(plan)
        local was, is = first.stands[1].area.value, plan.stands[1].area.value
        return math.abs(is / was - 1) < 1e-4, ("%.9f, then %.9f"):format(was, is)
    end
    for _, kind in ipairs { "geojson", "kml" } do
        local plan = areas[kind]
        kit.check(kind .. ": the stand is as large", as_large(plan))
        for _, row in ipairs { { "Rest openings", "area" }, { "Keep a clump", "area" },
            { "Foot trail", "length" } } do
            local was, is = figure(first, row[1], row[2]), figure(plan, row[1], row[2])
            kit.check(("%s: %s of %s"):format(kind, row[2], row[1]), was and is
                and math.abs(is / was - 1) < 1e-4,
                ("%s, then %s"):format(was, is))
        end
    end
    kit.put("walk/again.gpx", file "flags.gpx")
    kit.put("walk/again.rx", [=[
property "Again" { region = "lake-states/michigan", walked = Oct 14 2026, map = "again.gpx" }
stand "Bench" { map = "Bench", species = { ["bigtooth aspen"] = 100 percent },
  diameter = 6 to 8 in, crowding = "crowded" }
]=])
    local read = json.read((kit.expect("spinney run walk/again.rx --json", { status = 0 })))
    kit.check("gpx: the stand is as large", as_large(read))
end

--- Nothing is told that is not known.
local function without()
    kit.put("bare/farm.geojson", (farm.map:gsub('"far gate"', '"x"'):gsub('"gate"', '"y"')))
    kit.put("bare/plan.rx", (farm.plan("Bench", ""):gsub("feature \"[%w ]*gate\"[^\n]*\n", "")))
    kit.expect("spinney run bare/plan.rx -o bare/out", { status = 0, err = false })
    local paper = kit.read(kit.path("bare/out/flags.txt"))
    for _, words in ipairs { "the map has no gate", "no declination is told", "none is told",
        "From the best of all flags" } do
        kit.check("without: " .. words, paper:gsub("%s+", " "):find(words, 1, true), paper)
    end
    local rows = table_of(kit.read(kit.path("bare/out/flags.csv")))
    kit.same("nothing leads to the first", "", rows[1].from .. rows[1].feet .. rows[1].true_degrees)
    kit.same("no compass, no paces", "", rows[2].compass_degrees .. rows[2].paces)
    kit.check("but a bearing", tonumber(rows[2].true_degrees))
end

--- What a stand is called comes out right in every file.
local NAMES = { [["Say \"when\" & 'then' <b>"]], "=1+1", "-2", "@x", "+a,b", "C:\\woods\\n",
    "Öffnung 白楊 👩‍🌾", "%s %d",
    "]]>", "  blanks  ", "a, b\"", "\27[31mred", "caf\xe9" }

local function plain(text)
    return (text:gsub("\27", "?"):gsub("caf\xe9", "caf?"))
end

local function names()
    for i, name in ipairs(NAMES) do
        local folder = "name" .. i
        kit.put(folder .. "/farm.geojson", farm.map)
        kit.put(folder .. "/plan.rx", farm.plan(name))
        kit.expect(("spinney run %s/plan.rx -o %s/out"):format(folder, folder), { status = 0,
            err = false })
        local function text(file_name) return kit.read(kit.path(folder .. "/out/" .. file_name)) end
        local shown = plain(name)
        local label = ("%q"):format(shown)
        local row = table_of(text "flags.csv")
        local opening
        for _, one in ipairs(row) do
            if one.kind == "opening" then opening = one.flag end
        end
        local guard = shown:find("^%s*[=+@-]") and "'" or ""
        kit.check(label .. " in the table", opening and opening:find(guard .. shown .. " opening",
            1, true) == 1, opening)
        local found = false
        for _, feature in ipairs(json.read(text "flags.geojson").features) do
            found = found or feature.properties.name == shown .. " opening 1"
        end
        kit.check(label .. " in GeoJSON", found)
        for _, kind in ipairs { "gpx", "kml" } do
            kit.expect(("xmllint --noout --nonet %s/out/flags.%s"):format(folder, kind),
                { status = 0, err = false })
            local back = text("flags." .. kind):gsub("&lt;", "<"):gsub("&gt;", ">"):gsub("&quot;",
                "\""):gsub("&apos;", "'")
                :gsub("&amp;", "&")
            kit.check(label .. " in " .. kind, back:find(shown .. " opening 1", 1, true))
        end
        kit.check(label .. " steers no terminal", not text "flags.txt":find("[\0-\9\11-\31\127]"))
    end
end

return function()
    kit.put("walk/farm.geojson", farm.map)
    kit.put("walk/plan.rx", farm.plan("Bench"))
    kit.expect("spinney run walk/plan.rx -o walk/out", { status = 0, err = false })
    kit.expect("spinney run walk/plan.rx -o walk/twice && diff -r walk/out walk/twice",
        { status = 0 })
    kit.expect("LC_ALL=de_DE.UTF-8 TZ=Asia/Tokyo spinney run walk/plan.rx -o walk/thrice"
        .. " && diff -r walk/out walk/thrice", { status = 0 })
    local rows = the_table()
    other_readers(rows)
    read_back()
    without()
    names()
end

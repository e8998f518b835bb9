--- spinney run -o: the files it writes, all of them or none.
local kit = require "cli.kit"
local farm = require "cli.farm"

local ALL = { "flags.csv", "flags.geojson", "flags.gpx", "flags.kml", "flags.txt", "plan.json",
    "plan.txt", "schedule.csv" }
--- Those of a plan without flags whose acts have dates: that on the map has no crew.
local PLAIN = { "plan.json", "plan.txt", "schedule.csv", "schedule.ics", "weeks.csv", "weeks.txt" }

local function listed(folder) return (kit.run("LC_ALL=C ls -A " .. folder)) end
local function lines(...) return table.concat({ ... }, "\n") .. "\n" end

local function what_is_written()
    kit.expect("spinney run plan.rx -o plain", { status = 0, err = false })
    kit.same("a plan without a map has no flags", lines(table.unpack(PLAIN)), listed("plain"))
    kit.same("plan.txt is the paper", (kit.run("spinney run plan.rx")),
        kit.read(kit.path("plain/plan.txt")))
    kit.same("plan.json is the data", (kit.run("spinney run plan.rx --json")),
        kit.read(kit.path("plain/plan.json")))
    kit.same("a line a file of dates", lines("plain/plan.txt: the plan",
        "plain/plan.json: the plan as data", "plain/weeks.txt: the work week by week",
        "plain/weeks.csv: the hours of each week as a table",
        "plain/schedule.csv: the acts and their dates as a table",
        "plain/schedule.ics: the dates for calendar programs"),
        (kit.run("spinney run plan.rx -o plain")))
    local out = kit.expect("spinney run hill/plan.rx -o hill/out/", { status = 0, err = false })
    kit.same("a plan on a map has flags", lines(table.unpack(ALL)), listed("hill/out"))
    kit.same("a line a file", lines("hill/out/plan.txt: the plan",
        "hill/out/plan.json: the plan as data",
        "hill/out/schedule.csv: the acts and their dates as a table",
        "hill/out/flags.txt: the flags to walk to", "hill/out/flags.csv: the flags as a table",
        "hill/out/flags.gpx: the flags for receivers and phones",
        "hill/out/flags.kml: the flags and shapes for map programs",
        "hill/out/flags.geojson: the flags and shapes as GeoJSON"), out)
    kit.same("the paper of a plan on a map", (kit.run("spinney run hill/plan.rx")),
        kit.read(kit.path("hill/out/plan.txt")))
    kit.expect("spinney run stopped.rx -o stopped", { status = 1,
        out = "stopped/plan.txt: the plan" })
    kit.same("a plan with a stop is written", lines(table.unpack(PLAIN)), listed("stopped"))
    kit.expect("spinney run plan.rx -o plain --set 'width=60 ft'", { status = 0 })
    kit.check("it is written anew", kit.read(kit.path("plain/plan.txt")):find("60 ft", 1, true))
end

local function the_command_line()
    kit.expect("spinney run plan.rx -o new --json", { status = 64, out = false,
        err = "plan.json is among its files" })
    kit.expect("spinney run plan.rx -o", { status = 64, out = false,
        err = "-o wants a value: -o DIR" })
    kit.expect("spinney run plan.rx -o new -o newer", { status = 64, out = false,
        err = "-o is given twice" })
    kit.expect("spinney run plan.rx -o --ids", { status = 64, out = false,
        err = "-o wants a folder" })
    kit.expect("spinney run plan.rx -o ''", { status = 64, out = false, err = "-o wants a folder" })
    kit.expect("spinney check plan.rx -o new", { status = 64, out = false,
        err = "`spinney check` takes no -o" })
    kit.expect("spinney why plan.rx total.cost -o new", { status = 64, out = false,
        err = "takes no -o" })
    kit.same("no folder was made", "", (kit.run("ls -d new* 2>/dev/null")))
end

--- What may fail, and leaves the files there as they were.
local function what_is_kept()
    kit.run("mkdir kept && cp hill/out/* kept/")
    local before = kit.run("cat kept/*") .. listed("kept")
    local function unchanged(name)
        kit.same(name .. " changes nothing", before, kit.run("cat kept/*") .. listed("kept"))
    end
    kit.expect("spinney run wrong.rx -o kept", { status = 2, out = false, err = "walkd" })
    unchanged("a wrong script")
    kit.put("late.rx", kit.plan
        .. "rule \"r\" { level = \"note\", applies_to = { \"cut\" }, says = \"x\",\n"
        .. "  source = \"x\",\n"
        .. "  when = function () error(\"late\") end }\n")
    kit.expect("spinney run late.rx -o kept", { status = 2, out = false, err = "late" })
    unchanged("a rule that fails")
    -- The plan fits, and its data do not: a file may have 512 bytes for each of these.
    local size = #kit.read(kit.path("plain/plan.txt")) // 512 + 1
    kit.check("the data are longer than the paper",
        #kit.read(kit.path("plain/plan.json")) > size * 512)
    for _, folder in ipairs { "kept", "full" } do
        kit.expect(("sh -c 'ulimit -f %d; spinney run plan.rx -o %s'"):format(size, folder),
            { status = 2, out = false, err = folder
                .. "/plan.json` cannot be written: the file would be larger than allowed" })
    end
    unchanged("a full disk")
    kit.same("a full disk leaves no new folder", "", (kit.run("ls -d full 2>/dev/null")))
    kit.expect("spinney run plan.rx -o wrong.rx", { status = 2, out = false,
        err = "`wrong.rx` is there, and is no folder" })
    kit.expect("spinney run plan.rx -o /dev/full", { status = 2, out = false,
        err = "is no folder" })
    kit.expect("spinney run plan.rx -o no/such", { status = 2, out = false,
        err = "make that one first" })
    kit.run("mkdir -p taken/plan.json && echo old >taken/plan.txt")
    kit.expect("spinney run plan.rx -o taken", { status = 2, out = false,
        err = "`taken/plan.json` is a folder" })
    kit.same("a folder in the place of a file keeps the others", "old\n",
        kit.read(kit.path("taken/plan.txt")))
    kit.run("ln -s nowhere dangling && mkdir linked && echo old >real.txt"
        .. " && ln -s ../real.txt linked/plan.txt")
    kit.expect("spinney run plan.rx -o dangling", { status = 2, out = false, err = "is no folder" })
    kit.expect("spinney run plan.rx -o linked", { status = 0, err = false })
    kit.same("a link is not written through", "old\n", kit.read(kit.path("real.txt")))
    kit.same("a link is replaced", kit.run("spinney run plan.rx"),
        kit.read(kit.path("linked/plan.txt")))
    -- The link by which the plan was read is an input as its file is.
    kit.run("mkdir called && ln -s ../plan.rx called/plan.txt")
    kit.expect("spinney run called/plan.txt -o called", { status = 2, out = false,
        err = "the plan is read from `called/plan.txt`" })
    kit.same("and stays a link", "../plan.rx\n", (kit.run("readlink called/plan.txt")))
end

--- A small disk that is full, and a folder that may only be read: where the tests may try.
local function disks()
    local user = select(3, kit.run("setpriv --reuid 65534 --clear-groups true")) == 0
    if user or select(3, kit.run("test $(id -u) -ne 0")) == 0 then
        kit.run("mkdir locked && echo old >locked/plan.txt && chmod 555 locked"
            .. " && chmod -R a+rX . && chmod 755 .")
        local words = user and "setpriv --reuid 65534 --clear-groups " or ""
        kit.expect(words .. "spinney run plan.rx -o locked", { status = 2, out = false,
            err = "permission is refused" })
        kit.expect(words .. "spinney run plan.rx -o locked/deep", { status = 2, out = false,
            err = "permission is refused" })
        kit.same("a locked folder is as it was", "old\n", kit.read(kit.path("locked/plan.txt")))
        kit.same("and has nothing new", "plan.txt\n", listed("locked"))
        kit.run("chmod 755 locked")
    end
    -- In a name space of its own a tmpfs of some pages may be mounted.
    local mount = "unshare -rm sh -c 'mkdir -p disk && mount -t tmpfs -o size=%dk none disk && %s'"
    if select(3, kit.run(mount:format(16, "true"))) == 0 then
        local out = kit.expect(mount:format(16, "mkdir disk/d && echo old >disk/d/plan.txt && "
            .. "spinney run plan.rx -o disk/d; echo $?; cat disk/d/*; ls -A disk/d"), { status = 0,
                err = "the disk is full" })
        kit.same("a disk that is full keeps the old file", "2\nold\nplan.txt\n", out)
        kit.expect(mount:format(64, "mount -o remount,ro disk && spinney run plan.rx -o disk"),
            { status = 2, out = false, err = "the disk can only be read" })
    end
end

--- Never over what the plan is read from; what is from an earlier run is told.
local function inputs()
    kit.put("own/plan.txt", kit.plan)
    kit.expect("spinney run own/plan.txt -o own", { status = 2, out = false,
        err = "the plan is read from `own/plan.txt`" })
    kit.same("the plan is still there", kit.plan, kit.read(kit.path("own/plan.txt")))
    kit.put("own/flags.geojson", farm.map)
    kit.put("own/a.rx", (farm.plan("Bench"):gsub("farm%.geojson", "flags.geojson")))
    kit.expect("cd own && spinney run a.rx -o ../own", { status = 2, out = false,
        err = "the plan is read from `flags.geojson`" })
    kit.same("the map is still there", farm.map, kit.read(kit.path("own/flags.geojson")))
    kit.run("cp -r hill/out older")
    kit.expect("spinney run plan.rx -o older", { status = 0,
        out = "older/plan.txt: the plan\nolder/plan.json: the plan as data\n",
        err = "older/flags.gpx: from an earlier run: this plan has none" })
    kit.same("what is from an earlier run stays", kit.read(kit.path("hill/out/flags.gpx")),
        kit.read(kit.path("older/flags.gpx")))
end

return function()
    kit.put("hill/farm.geojson", farm.map)
    kit.put("hill/plan.rx", farm.plan("Bench"))
    what_is_written()
    the_command_line()
    what_is_kept()
    disks()
    inputs()
end

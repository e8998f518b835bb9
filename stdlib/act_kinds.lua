--- Kinds of values that the keys of acts take: stands, crews and acts by what they are or by
--- their name, when something may be done, which part of a stand.
local calendar = need "calendar"
local host = need "host"
local kinds = need "kinds"
local objects = need "objects"
local quantity = need "quantity"
local run = need "run"

kinds.stand = kinds.object("stand", nil, run.find_stand)
kinds.crew = kinds.object("crew", nil, run.find_crew)
kinds.feature = kinds.object("feature", nil, run.find_feature)
kinds.act = kinds.object("act")
kinds.act.says = "an act, such as the result of cut { ... }"

--- Days of one year: a date, or two dates; kept as { from, to }.
kinds.dates = {
    says = "a date, or two: { from = Jan 4 2027, to = Jan 24 2027 }",
    take = function(value, _, place, key)
        if calendar.kind(value) == "date" then return { from = value, to = value } end
        if type(value) ~= "table" or objects.record(value) or value.from == nil and value.to == nil then return nil end
        local from, to = value.from, value.to
        for name in pairs(value) do
            if name ~= "from" and name ~= "to" then from = nil end
        end
        if calendar.kind(from) ~= "date" or calendar.kind(to) ~= "date" then
            return nil, nil, ("%s = { from = Jan 4 2027, to = Jan 24 2027 }"):format(key)
        end
        if to < from then
            host.fault(place, key, "key-order", ("`to` (%s) in `%s` lies before `from` (%s)"):format(tostring(to), key,
                tostring(from)))
            return nil, kinds.REPORTED
        end
        return { from = from, to = to }
    end,
}

--- When an act may be done: a season, a window, dates, or a list of them (any of these).
kinds.when = {
    says = "a season, a window or dates, such as season \"dormant\", Nov 15 to Mar 31 or "
        .. "{ from = Jan 4 2027, to = Jan 24 2027 }",
    take = function(value, spec, place, key)
        local season = objects.record(value, "season")
        if season then return season end
        if type(value) == "string" then
            if not run.seasons:find(value, place, key) then return nil, kinds.REPORTED end
            -- By its name, as `season "dormant"` is: a later layer may say it again.
            return objects.record(need("vocabulary/season").reference({ name = value, place = place }))
        end
        local window = kinds.window.take(value, spec)
        if not window then
            local dates, words, mend = kinds.dates.take(value, spec, place, key)
            if dates then objects.show(dates, value) end
            return dates, words, mend
        end
        local entry = { window = window, name = tostring(value) }
        objects.show(entry, window)
        return entry
    end,
}

--- Ground or weather, by the name of a condition or the condition itself.
kinds.condition = {
    says = "a condition by its name, such as \"frozen\" (spinney help condition)",
    take = function(value, _, place, key)
        local record = objects.record(value, "condition")
        local name = record and record.name or value
        if type(name) ~= "string" then return nil end
        if not run.conditions:find(name, place, key) then return nil, kinds.REPORTED end
        return name
    end,
}

--- How soon after another act: time that passes, or hours of the same crew's day.
kinds.soon = {
    says = "a time, such as 2 wk, or hours of the same crew's day, such as 2 h",
    take = function(value)
        local fits = quantity.is(value) and (quantity.fits(value, "d") or quantity.fits(value, "h"))
        return fits and value or nil
    end,
}

--- What a script sees of a part: one that is handed on has these.
local SEEN = { words = true, share = true }

--- Whether a part is said in the words of a map.
local function is_mapped(value)
    if type(value) ~= "table" or objects.record(value) then return false end
    for key in pairs(value) do
        if type(key) == "string" and not SEEN[key] then return true end
    end
    return false
end

--- A part of a stand: a share, alone or with words that say which part; or what the map
--- tells of it (parts.lua).
kinds.part = {
    says = "a share, such as 25 percent, words with a share: { \"north of the two-track\", 40 percent }, or what the "
        .. "map tells: { north_of = \"two-track\" }",
    take = function(value, _, place, key)
        if is_mapped(value) then
            local part = need("parts").take(value, place, key)
            return part, part == nil and kinds.REPORTED or nil
        end
        if type(value) == "table" and not objects.record(value) and value[1] == nil and value.share then
            value = value.words and { value.words, value.share } or value.share -- handed on by a prescription
        end
        local share = kinds.share.take(type(value) == "table" and not objects.record(value) and value[2] or value)
        if share and quantity.number(share, "percent") > 100 then
            host.fault(place, key, "key-bounds", ("`%s` is %s, which is more than all of it"):format(key,
                tostring(share)))
            return nil, kinds.REPORTED
        end
        if type(value) == "table" and not objects.record(value) then
            if type(value[1]) == "string" and share then return { words = value[1], share = share } end
            return nil, nil, "part = { \"north of the two-track\", 40 percent }", "the share in it is "
                .. kinds.describe(value[2])
        end
        if share then return { share = share } end
        if type(value) == "string" then
            return nil, "the share beside the words, for words alone measure nothing; or what the map tells",
                ("part = { \"%s\", 40 percent }, or part = { north_of = \"two-track\" }"):format(value)
        end
        return nil
    end,
}

--- An edge of the cover: where animals may leave to, or what is shunned. On the map it is
--- found when the script has ended (layout/named.lua); words are as good where there is none.
kinds.edge = {
    says = "a feature, a kind of feature, a stand, an access trail, or words",
    take = function(value)
        if type(value) == "string" then return value end
        local act = objects.record(value, "act")
        return objects.record(value, "feature") or objects.record(value, "stand") or act and act.kind == "trail" and act or nil
    end,
}

return kinds

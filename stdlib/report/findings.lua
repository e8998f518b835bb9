--- Stops, cautions and notes, in the owner's plan.
local M = {}
local phrases = need "phrases"
local run = need "run"

local capital = phrases.capital

local LEVEL_TITLES = { stop = "Stop: do not do this as planned", caution = "Cautions", note = "Notes" }

--- "Bench aspen: cut trees flush, rest openings (here about 128 ft)"
local function where(finding)
    local words = finding.stand and finding.stand.name or ""
    local titles, seen = {}, {}
    local acts = { finding.act }
    for _, act in ipairs(finding.more or {}) do acts[#acts + 1] = act end
    for _, act in ipairs(acts) do
        local title = phrases.lower(act.title)
        if not seen[title] then
            seen[title] = true
            titles[#titles + 1] = title
        end
    end
    if #titles > 3 then titles = { titles[1], titles[2], ("%d more"):format(#titles - 2) } end
    if #titles > 0 then
        words = (words == "" and "" or words .. ": ") .. table.concat(titles, ", ")
    end
    if finding.detail then
        words = words == "" and finding.detail or ("%s (%s)"):format(words, finding.detail)
    end
    return words
end

--- The findings of a level: one note for each rule, with all the places it speaks of.
-- @param level "stop", "caution" or "note"
function M.write(d, level)
    local groups, order = {}, {}
    for _, finding in ipairs(run.findings) do
        if finding.level == level then
            local key = finding.rule .. "\0" .. finding.message
            if not groups[key] then
                groups[key] = { finding = finding, places = {} }
                order[#order + 1] = groups[key]
            end
            local at = where(finding)
            -- What names its stand itself needs no place behind it.
            local named = not finding.act and finding.message:find(at, 1, true)
            local places = groups[key].places
            -- Years of one act are told once.
            if at ~= "" and not named and places[#places] ~= at then places[#places + 1] = at end
        end
    end
    if #order > 0 then d:heading(2, LEVEL_TITLES[level]) end
    for _, group in ipairs(order) do
        local finding = group.finding
        local note = { level = level, capital(finding.message), ". ", ask = finding.ask,
            source = finding.source }
        if #group.places > 0 then
            note[3] = { strong = " " .. capital(table.concat(group.places, "; ")) .. "." }
            note[2] = "."
        end
        d:note(note)
    end
end

return M

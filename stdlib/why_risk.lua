--- `spinney why PLAN.rx ACT.chance` and `ACT.float`: how sure an act's days are, and how much
--- later it may be, in words; what they count is told by the help on the schedule.
local M = {}
local dates = need "dates"
local run = need "run"

local function planned(act)
    return ("%s (%s) is planned for %s"):format(dates.job_words(act), act.id,
        dates.days_words(dates.first_day(act), act.finish))
end

--- What the caution says that helps, where there is one.
local function help_of(act)
    for _, finding in ipairs(run.findings) do
        local ours = finding.rule == "season at risk" and finding.act == act
        for _, other in ipairs(finding.rule == "season at risk" and finding.more or {}) do ours = ours or other == act end
        if ours then return finding.detail end
    end
    return nil
end

local function chance(act)
    local words = dates.chance_words(act)
    if words == "" then return { planned(act) .. "; no chance is told for it" } end
    local lines = { ("%s. The chance that it keeps its season: %s"):format(planned(act), words) }
    local hours = act.figures.hours
    if hours then
        lines[2] = ("its hours: %s; `spinney why` of %s.hours tells what they hang on"):format(
            need("quantity").figure(hours.value), act.id)
    end
    lines[#lines + 1] = help_of(act)
    return lines
end

local function float(act)
    local weeks = act.risk and act.risk.float_weeks or -1
    if weeks < 0 then return { planned(act) .. ". There is no end to how much later it may be" } end
    if weeks == 0 then return { planned(act) .. ". It may not start a week later" } end
    return { ("%s. It may start up to %s later"):format(planned(act), dates.float_words(act)) }
end

local TOLD = { chance = chance, float = float }

--- The answer for an act's "chance" or "float", or nil where the name means something else.
function M.text(name)
    local id, word = name:match("^(.*)%.(%a+)$")
    local act = TOLD[word] and run.act(id)
    if not act then return nil end
    local wrap = need("help_text").wrap
    if act.state ~= "placed" then
        return wrap(("%s has no %s: it is %s"):format(id, word, act.state == "unplaced" and "not placed" or act.state), "", "  ") .. "\n"
    end
    local lines = TOLD[word](act)
    lines[#lines + 1] = ("what the %s counts: spinney help schedule"):format(word)
    for i, line in ipairs(lines) do lines[i] = wrap(line, i == 1 and "" or "  ", i == 1 and "  " or "    ") end
    return table.concat(lines, "\n") .. "\n"
end

return M

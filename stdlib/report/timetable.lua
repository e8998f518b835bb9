--- What papers with dates share: the acts that have days, their stretches, what is to be filed first.
local M = {}
local dates = need "dates"
local run = need "run"

--- Acts that are to be done or done, earliest first; ground that is only kept has no day.
function M.placed()
    local list, place = {}, {}
    for i, act in ipairs(run.acts) do
        place[act] = i
        if act.start and not act.declared.before_others and (act.state == "placed" or act.state == "done") then
            list[#list + 1] = act
        end
    end
    table.sort(list, function(a, b)
        local from, other = dates.first_day(a), dates.first_day(b)
        if from ~= other then return from < other end
        return place[a] < place[b]
    end)
    return list
end

--- Its days without long pauses, { from, to, share of the work } each.
function M.stretches(act)
    local list, hours, count = {}, 0, #(act.stretches or {})
    for _, stretch in ipairs(act.stretches or {}) do hours = hours + stretch.hours end
    for i, stretch in ipairs(act.stretches or {}) do
        list[i] = { from = stretch.from, to = stretch.to, share = hours > 0 and stretch.hours / hours or 1 / count }
    end
    if count == 0 then list[1] = { from = act.start, to = act.finish, share = 1 } end
    return list
end

--- Its days as a line of dates and words: "Dec 7 2026 to Dec 14 2026, then Aug 1 2027". A long pause is told.
function M.days(act)
    local line = {}
    for i, stretch in ipairs(M.stretches(act)) do
        if i > 1 then line[#line + 1] = ", then " end
        line[#line + 1] = stretch.from
        if stretch.to ~= stretch.from then
            line[#line + 1] = " to "
            line[#line + 1] = stretch.to
        end
    end
    return line
end

--- What is to be filed, earliest first: { notice = { name, to, by, from, again }, more = the notice as it was
--- declared, acts = { ... } }. The same notice by the same day is filed once for all its acts.
function M.filings()
    local groups, order = {}, {}
    for _, act in ipairs(run.acts) do
        for _, notice in ipairs(act.file_by or {}) do
            local key = ("%s\0%s\0%s"):format(notice.name, notice.to, tostring(notice.by))
            if not groups[key] then
                groups[key] = { notice = notice, more = run.notices:get(notice.name) or {}, acts = {} }
                order[#order + 1] = groups[key]
            end
            table.insert(groups[key].acts, act)
        end
    end
    return need("sorted").least_first(order, function(group) return group.notice.by end)
end

--- "cutting notice to county clerk"
function M.filing_words(notice) return ("%s to %s"):format(notice.name, notice.to) end

--- "Bench aspen: rest openings; Bench aspen: deer trails"
function M.acts_words(acts)
    local words = {}
    for i, act in ipairs(acts) do words[i] = dates.job_words(act) end
    return table.concat(words, "; ")
end

--- Have any acts days? And are there any that want some?
function M.has_days() return #M.placed() > 0 end
function M.has_acts()
    for _, act in ipairs(run.acts) do
        if not act.declared.before_others then return true end
    end
    return false
end

return M

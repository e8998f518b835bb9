--- Titles that tell acts apart: where two acts of a stand would be called the same ("Mow",
--- "Mow"), each is told with the name its author gave it.
local M = {}
local run = need "run"

--- The acts of the run in groups of one stand and one title, in order.
local function groups()
    local by_key, list = {}, {}
    for _, act in ipairs(run.acts) do
        local key = (act.stand and act.stand.name or "") .. "\0" .. act.title
        if not by_key[key] then
            by_key[key] = {}
            list[#list + 1] = by_key[key]
        end
        table.insert(by_key[key], act)
    end
    return list
end

--- Are there acts in it that their authors named otherwise? Entries and years share a name.
local function differ(group)
    for _, act in ipairs(group) do
        if act.name ~= group[1].name then return true end
    end
    return false
end

--- Adds names where titles alone would not tell, and what is done.
function M.tell_apart()
    for _, group in ipairs(groups()) do
        if differ(group) then
            for _, act in ipairs(group) do
                if act.name then act.title = ("%s: %s"):format(act.title, act.name) end
            end
        end
    end
    for _, act in ipairs(run.acts) do
        if act.was then act.title = act.title .. ", done" end
    end
end

return M

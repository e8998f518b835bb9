--- The days of what `during` was given: a season (the last layer's word holds) or a window.
local M = {}
local host = need "host"
local run = need "run"

--- @param entry a record with `window`, or the record of a season said by name
function M.days(entry)
    if entry.window then return entry.window end
    local season = run.seasons:get(entry.name)
    if season then return season.window end
    host.fault(entry.place, nil, "season-unknown", ("there is no season \"%s\""):format(entry.name))
    return nil
end

return M

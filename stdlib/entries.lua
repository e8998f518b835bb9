--- Acts done in several entries, and what follows them entry by entry: the stumps that are
--- treated are those of the same entry's cut.
local M = {}
local acts = need "acts"
local run = need "run"

--- The entry of another act that goes with this record, when both have as many; else the
--- act itself.
function M.match(record, act)
    if (record.entries or 1) == 1 or record.entries ~= act.entries then return act end
    for _, one in ipairs(run.acts) do
        if (one == act or one.copy_of == act) and one.entry == record.entry then return one end
    end
    return act
end

--- As much of another act's figure as goes with this record: its own entry's, all of it when
--- this record is not divided, and of what is done in part the same part.
-- @param figure that of `act`, or nil
function M.share(record, act, figure)
    local part, own = acts.fraction(act), acts.fraction(record)
    if not figure or part == own then return figure end
    if part < 1 then figure = figure / part end
    return own < 1 and figure * own or figure
end

--- A figure of another act by its key, likewise; nil when it has none.
function M.figure(record, act, key) return M.share(record, act, acts.get(act, key)) end

return M

--- Trails that the check of openings does not look at, such as a way in: what of them runs through
--- ground that the plan leaves alone.
local M = {}
local findings = need "layout/findings"
local run = need "run"

--- A phone's receiver puts a track off by about as much, in feet: common practice, no source.
local LEAST = 15

--- Trails that were looked at with the openings of a stand.
local function looked_at()
    local seen = {}
    for _, stand in ipairs(run.stands) do
        for _, trail in ipairs(stand.ways and stand.ways.trails or {}) do seen[trail.act] = true end
    end
    return seen
end

local function look(act, stand)
    for _, out in ipairs(need("layout/check").keep_outs(stand)) do
        local inside = act.line:intersection(out.shape)
        local feet = inside:length()
        if feet >= LEAST then
            local x, y = table.unpack(inside:parts()[1], 1, 2)
            findings.crossed(act, stand, feet, out.name, x, y)
        end
    end
end

--- All of them.
function M.all()
    local seen = looked_at()
    for _, act in ipairs(run.acts) do
        if act.kind == "trail" and act.line and not act.copy_of and not act.fallback_of and not seen[act] then
            for _, stand in ipairs(run.stands) do
                if stand.shape then look(act, stand) end
            end
        end
    end
end

return M

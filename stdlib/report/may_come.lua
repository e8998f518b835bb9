--- Acts that a visit may ask for, with what they would take.
local M = {}
local dates = need "dates"
local triggers = need "triggers"

--- Puts them into the plan, where there are any.
function M.write(d)
    local rows = triggers.waiting()
    if #rows == 0 then return end
    d:heading(2, "What may come")
    for _, row in ipairs(rows) do
        local act, line = row.act, {}
        line[1] = { strong = dates.job_words(act) }
        line[2] = row.when and (": if %s finds %s"):format(triggers.visit_words(row.visit), row.when) or ": comes with it"
        if row.visit.start and row.when then line[3] = (" (planned for %s)"):format(tostring(row.visit.start)) end
        for _, key in ipairs({ "hours", "cost" }) do
            if act.figures[key] then
                line[#line + 1] = "; "
                line[#line + 1] = act.figures[key].value
            end
        end
        line[#line + 1] = "."
        d:item(line)
    end
    d:paragraph { "None of this is in the weeks, the hours and the cost above." }
end

return M

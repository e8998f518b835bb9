--- The owner's plan: what is there, what to do and when, what it takes, what to heed.
local M = {}
local page = need "page"
local phrases = need "phrases"
local quantity = need "quantity"
local run = need "run"

local function materials(d)
    local rows = {}
    for _, row in ipairs(need("materials").rows()) do
        if run.totals[row.key] and not row.inner then rows[#rows + 1] = { phrases.capital(row.words), run.totals[row.key] } end
    end
    if #rows == 0 then return end
    d:heading(2, "What it takes")
    for _, row in ipairs(rows) do d:definition(row[1], { row[2] }) end
end

local HINGES_ASKED, HINGES_TOLD = 8, 3

local function hinges(d)
    if not run.totals.hours then return end
    local rows, of_name = {}, {}
    for _, row in ipairs(quantity.hangs_on(run.totals.hours, HINGES_ASKED)) do
        local first = of_name[row.name] -- what reads alike on paper is one
        if first then
            first.share = first.share + row.share
        else
            rows[#rows + 1], of_name[row.name] = row, row
        end
    end
    if #rows == 0 then return end
    need("sorted").most_first(rows, function(row) return row.share end)
    local parts = {}
    for i = 1, math.min(#rows, HINGES_TOLD) do
        parts[i] = ("%s (%d in 100)"):format(rows[i].name, math.floor(rows[i].share * 100 + 0.5))
    end
    d:paragraph { "The hours hang most on ", table.concat(parts, ", "), "." }
end

--- The document.
function M.document()
    local d = page.doc()
    need("report/head").write(d)
    local findings = need "report/findings"
    findings.write(d, "stop")
    need("report/stands").write(d, run.stands)
    need("report/jobs").write(d)
    if run.property.values.map then need("report/ground").write(d) end
    if run.looked_at then need("report/ways_out").write(d) end
    need("report/when").write(d)
    if #run.waiting > 0 then need("report/may_come").write(d) end
    need("report/when").filings(d)
    materials(d)
    if run.totals.cost or run.totals.stumpage or run.totals.cost_share then need("report/costs").write(d) end
    hinges(d)
    findings.write(d, "caution")
    findings.write(d, "note")
    d:rule()
    d:paragraph { "Likely values, and in brackets the range: nine chances in ten above the low, nine in ten below the high. "
        .. "Ask `spinney why` where any of them comes from. Rules are told as published, not as law: "
        .. "check them locally before work starts. Volumes are estimates, not offers." }
    return d
end

return M

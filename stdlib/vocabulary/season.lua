--- season: a named stretch of the year, layered by region.
local calendar = need "calendar"
local reference = need "reference"
local run = need "run"

--- What a window answers, a season answers: season "dormant":has(Jan 3 2027).
local ASKED = { days = true, has = true, next = true, weeks = true }

local M = reference.declare({
    kind = "season",
    says = "a named stretch of the year; season \"dormant\" alone means the one that holds",
    keys = {
        { "window", kind = "list", of = "window", needed = true, says = "when it is, every year",
          example = "Nov 15 to Mar 31" },
        { "says", kind = "text", says = "why these weeks" },
        { "source", kind = "text", says = "publication, or \"common practice, no source\"" },
    },
    example = [[season "dormant" { window = Nov 15 to Mar 31,
  source = "common practice, no source" }]],
    entry = function(_, _, values)
        if not values.window then return nil end
        local window = values.window[1]
        for i = 2, #values.window do window = calendar.union(window, values.window[i]) end
        return { window = window, says = values.says, source = values.source or "no source given" }
    end,
    answers = {
        { "s:has(date), s:next(date), s:days(date, date), s:weeks(date, date)",
          "as a window answers them: spinney help dates" },
    },
    answer = function(entry, key)
        local window = entry.window
        return ASKED[key] and function(_, ...) return window[key](window, ...) end or nil
    end,
}, run.seasons)

return M

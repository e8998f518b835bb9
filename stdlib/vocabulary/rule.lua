--- rule: what the law, the trade or good sense asks of an act, a stand or a plan.
local host = need "host"
local kinds = need "kinds"
local reference = need "reference"
local run = need "run"

kinds.open_window = {
    says = "a window, a list of windows, or a function(act, year) that gives dates",
    take = function(value, _, place, key)
        if type(value) == "function" then return value end
        return kinds.list.take(value, { of = "window" }, place, key)
    end,
}

local M
M = reference.declare({
    kind = "rule",
    says = "what the law, the trade or good sense asks; a closed window, a ground condition or a test, with words, whom to ask and its source. A rule of the same name in a later layer takes its place",
    keys = {
        { "level", kind = "choice", of = { "stop", "caution", "note" }, needed = true,
          says = "how grave: stop (do not do this as planned), caution, note", example = "\"caution\"" },
        { "applies_to", kind = "list", of = "text", needed = true,
          says = "kinds of act, or \"stand\", or \"plan\"", example = "{ \"cut\" }" },
        { "when", kind = "function", says = "function(it, plan): does the rule speak? `it` is the act, the stand or the plan. May give words to add to the message. Runs when all quantities are settled and the dates are known" },
        { "only_for", kind = "function", says = "function(act): does the closed window or ground condition concern this act? Runs before the schedule" },
        { "closed", kind = "open_window", says = "days on which these acts may not be done (stop) or better not (caution, note)" },
        { "ground", kind = "condition", says = "ground condition the acts need" },
        { "of_done", kind = "flag", says = "true: it speaks of acts that are done already too, for what it asks can still be mended" },
        { "says", kind = "text", needed = true, says = "the message, in plain words", example = "\"...\"" },
        { "ask", kind = "text", says = "whom to ask" },
        { "source", kind = "text", needed = true, says = "publication and status, or \"common practice, no source\"",
          example = "\"common practice, no source\"" },
        { "off", kind = "flag", says = "true takes the rule out (a later layer says so, with its reason in `says`)" },
    },
    example = [[rule "steep ground" { level = "caution", applies_to = { "mulch" },
  when = function (act)
    local slope = act.stand and act.stand.slope
    return slope and slope > 35 percent
  end,
  says = "too steep for tracked machines",
  source = "common practice, no source" }]],
    entry = function(place, name, values, given)
        M.check_kinds("rule", place, name, values.applies_to)
        if values.level and not values.when and not values.closed and not given.ground and not values.off then
            host.fault(place, nil, "key-missing", "rule needs `when`, `closed` or `ground`",
                "when = function (act) return ... end")
        end
        return values
    end,
}, run.rules)

--- Are the words of `applies_to` kinds of act? A rule may speak of a stand or the plan too.
function M.check_kinds(kind, place, name, words)
    local prelude = need "prelude"
    for _, word in ipairs(words or {}) do
        local wider = kind == "rule" and (word == "stand" or word == "plan")
        if not wider and word ~= "act" and not prelude.is_act(word) then
            local fitting = { "act" }
            for _, known in ipairs(prelude.names()) do
                if prelude.is_act(known) then fitting[#fitting + 1] = known end
            end
            if kind == "rule" then table.move({ "stand", "plan" }, 1, 2, #fitting + 1, fitting) end
            local near = host.suggest(word, fitting)
            host.fault(place, "applies_to", "rule-applies",
                ("%s \"%s\" applies to \"%s\", which is no kind of act"):format(kind, name, word),
                near and ("did you mean \"%s\"?"):format(near) or "`spinney help` lists what is done")
        end
    end
end

return M

--- done: what really happened: the past is fixed, and the plan goes on from there.
local host = need "host"
local run = need "run"

return {
    kind = "done", named = "never",
    says = "records what was really done of an act: how much, when, in how many hours; the rest is planned again",
    keys = {
        { "act", kind = "any", says = "the act or its id, such as \"bench-aspen/fell\"" },
        { "notice", kind = "text", says = "a notice that was filed, in place of work: for all acts that ask for it, or for `act` alone" },
        { "share", kind = "share", says = "how much of it; without it, all" },
        { "on", kind = "date", needed = true, says = "the day it was finished", example = "Dec 5 2026" },
        { "hours", kind = "work", says = "the hours it really took" },
        { "days", kind = "count", least = 1, most = 366, says = "on how many days they came, for the way there; without it, as few as the hours fill" },
        { "cost", kind = "money", says = "what it really cost, a bill: in place of hours by the rate, machines, materials and the way there" },
        { "by", kind = "crew", says = "who did it" },
        { "found", kind = "quantity", says = "of a visit: what was found, which decides its triggers",
          example = "3200 stems/ac" },
        { "says", kind = "text", says = "a remark" },
    },
    also = { date = "on", day = "on", when = "on", finished = "on", amount = "share", part = "share", time = "hours",
        crew = "by", who = "by", note = "says", remark = "says" },
    example = [[done { act = "bench-aspen/fell", share = 50 percent, on = Dec 5 2026,
  hours = 11 h }]],
    more = [[
of a visit, what it found: the act of its trigger is planned, or is not
  done { act = "bench-aspen/sprouts", on = Aug 20 2027, found = 3200 stems/ac }

a notice that was filed: it is not filed again while it holds
  done { notice = "cutting notice", on = Nov 3 2026 }

The plan starts anew the day after the last thing done. Where a part was done
and its hours are told, the rest goes at that pace.]],
    make = function(place, _, values)
        local objects = need "objects"
        local act = values.act
        if act == nil and not values.notice then
            host.fault(place, nil, "key-missing", "done needs `act`: the act or its id, such as \"bench-aspen/fell\"",
                "act = \"bench-aspen/fell\"; of a notice that was filed: notice = \"cutting notice\"")
        end
        if values.notice and not run.notices:find(values.notice, place, "notice") then return nil end
        local record = objects.record(act, "act")
        if act ~= nil and not record and type(act) ~= "string" then
            host.fault(place, "act", "key-kind", ("`act` wants an act or its id; this is %s"):format(
                need("kinds").describe(act)))
            return nil
        end
        run.done[#run.done + 1] = { place = place, act = record, id = not record and act or nil,
            values = values }
        return nil
    end,
}

--- Words that people try in place of the keys that every act takes, too far from these to be slips of the finger.
return {
    deadline = "by", before = "by", due = "by", latest = "by", finish = "by", finish_by = "by", last_day = "by",
    start = "date", on_date = "date", day = "date", fixed = "date",
    earliest = "not_before", start_after = "not_before", first_day = "not_before",
    season = "during", window = "during", when = "during", weeks = "during", months = "during",
    lag = "wait", delay = "wait", wait_at_least = "wait", least_wait = "wait",
    at_most = "within", most_wait = "within", no_later_than = "within",
    follows = "after", waits_for = "after", depends_on = "after",
    priority = "first", urgent = "first",
    only_if = "only_when", condition = "only_when", conditions = "only_when", weather = "only_when",
    fallback = "otherwise", instead = "otherwise", or_else = "otherwise",
    who = "crew", by_whom = "crew", crews = "crew", worker = "crew",
    entry = "entries", times = "entries", passes = "entries", interval = "every",
    years = "in_year", each_year = "in_year",
    duration = "hours", person_hours = "hours",
    grant = "cost_share", subsidy = "cost_share", paid_by = "program",
    cautions = "hazards", dangers = "hazards", note = "says", notes = "says", remark = "says",
}

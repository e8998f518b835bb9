--- Chance that a week of a month has ground or weather fit for the work, January to
--- December, in the northern Lake States. Common practice, no source: judged from the usual
--- run of frost and rain; a consultant decides on the day.
return {
    ["frozen"] = { 0.85, 0.85, 0.4, 0, 0, 0, 0, 0, 0, 0, 0, 0.5 },
    ["dry"] = { 0, 0, 0.05, 0.15, 0.35, 0.5, 0.6, 0.65, 0.5, 0.35, 0.2, 0.05 },
    ["dry or frozen"] = { 0.85, 0.85, 0.4, 0.15, 0.35, 0.5, 0.6, 0.65, 0.5, 0.35, 0.2, 0.5 },
    ["snow"] = { 0.85, 0.85, 0.5, 0.05, 0, 0, 0, 0, 0, 0, 0.15, 0.6 },
    ["no snow"] = { 0.1, 0.1, 0.35, 0.9, 1, 1, 1, 1, 1, 0.95, 0.7, 0.3 },
    ["calm"] = { 0.6, 0.6, 0.5, 0.45, 0.55, 0.65, 0.7, 0.7, 0.65, 0.55, 0.55, 0.6 },
}

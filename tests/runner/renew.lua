--- Shows anew what a command prints, cut as it was cut before. Lines `...` stand for what is
--- left out; between them stand stretches. A stretch begins and ends with the lines that are
--- most like those it began and ended with: the same, or the same but for their numbers, or
--- with the same first words.
local M = {}

--- How alike two lines are: 0 not at all; more the more words they begin with alike; most
--- when they differ in their numbers only, or not at all.
local function likeness(a, b)
    if a == b then
        return math.huge
    end
    a, b = a:gsub("%d[%d.,]*", "0"), b:gsub("%d[%d.,]*", "0")
    local next_a, next_b = a:gmatch("%S+"), b:gmatch("%S+")
    local words, from_a, from_b = 0, next_a(), next_b()
    while from_a and from_a == from_b do
        words = words + 1
        from_a, from_b = next_a(), next_b()
    end
    if not from_a and not from_b and words > 0 then
        return 1000
    end
    return words >= 2 and words or 0
end

--- The line from `from` on that is most like this one, and of those the nearest to `near`;
--- nil when none is like it.
local function find(got, line, from, near)
    local best, most = nil, 0
    for i = from, #got do
        local alike = likeness(got[i], line)
        local nearer = not best or math.abs(i - near) < math.abs(best - near)
        if alike > most or (alike == most and alike > 0 and nearer) then
            best, most = i, alike
        end
    end
    return best
end

--- The stretches between the lines `...`, without blank lines at the very end.
local function stretches(wanted)
    local list, current = {}, {}
    for _, line in ipairs(wanted) do
        if line == "..." then
            list[#list + 1] = current
            current = {}
        else
            current[#current + 1] = line
        end
    end
    list[#list + 1] = current
    return list
end

--- Where a stretch that begins at line `first` of what is printed now ends.
local function finish(got, stretch, first)
    if #stretch == 1 then
        return first
    end
    local near = first + #stretch - 1
    return find(got, stretch[#stretch], first + 1, near) or math.min(near, #got)
end

--- The lines to show, or nil and the line that nothing is like.
function M.lines(wanted, got)
    local list = stretches(wanted)
    if #list == 1 then
        return got
    end
    local out, at = {}, 1
    for n, stretch in ipairs(list) do
        if n > 1 then
            out[#out + 1] = "..."
        end
        if #stretch > 0 then
            local first = n == 1 and 1 or find(got, stretch[1], at, at)
            if not first then
                return nil, stretch[1]
            end
            local last = n == #list and #got or finish(got, stretch, first)
            for i = first, last do
                out[#out + 1] = got[i]
            end
            at = last + 1
        end
    end
    return out
end

return M

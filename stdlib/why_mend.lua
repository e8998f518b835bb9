--- What to type instead of a name that `spinney why` does not know: a figure's name is that of
--- its owner (a stand, an act, "total"), a point, and what it is.
local M = {}
local host = need "host"
local run = need "run"

--- How many names a message lists.
local SOME = 8

local function listed(names)
    return table.concat(names, ", ", 1, math.min(#names, SOME)) .. (#names > SOME and ", ..." or "")
end

local function owners()
    local list = { "total" }
    for _, stand in ipairs(run.stands) do list[#list + 1] = stand.name end
    for _, act in ipairs(run.acts) do list[#list + 1] = act.id end
    return list
end

--- What of a name follows its owner, in any letters; nil when it is not the owner's.
local function after(owner, name)
    return name:sub(1, #owner + 1):lower() == owner:lower() .. "." and name:sub(#owner + 2) or nil
end

--- The figures of an owner: "area", "trees.red oak".
local function figures_of(owner, names)
    local list = {}
    for _, one in ipairs(names) do list[#list + 1] = after(owner, one) end
    return list
end

local function add_one(owner, names)
    local list, dates = {}, ""
    for _, figure in ipairs(figures_of(owner, names)) do
        if figure == "start" then
            dates = "; or .start, for what holds it back"
        else
            list[#list + 1] = "." .. figure
        end
    end
    return #list > 0 and ("add one of its figures to the name: %s%s"):format(listed(list), dates) or nil
end

--- The figure nearest to what was typed; of an answer with something behind it ("acres_of.cut")
--- its first word alone may be wrong.
local function near_figure(figure, figures)
    local near = host.suggest(figure, figures)
    local word, tail = figure:match("^([%a_]+)(%..+)$")
    local first = word and host.suggest(word, figures)
    return first and first .. tail or near
end

--- The only owner that begins with what was typed, or has it behind its stroke.
local function only_owner(typed, list)
    local found
    typed = typed:lower()
    for _, owner in ipairs(list) do
        local low = owner:lower()
        if low:sub(1, #typed) == typed or low:match("/(.*)$") == typed then
            if found and found ~= owner then return nil end
            found = owner
        end
    end
    return found
end

local function near_owner(typed, list) return only_owner(typed, list) or host.suggest(typed, list) end

--- The owner is another: its own figure of that name, else which figures it has.
local function of_near_owner(name, list, names)
    local typed, figure = name:match("^([^.]+)%.(.+)$")
    local owner = near_owner(typed or name, list)
    if not owner then return nil end
    local figures = figures_of(owner, names)
    if not figure then
        return #figures > 0 and ("did you mean \"%s\"? Its figures are %s"):format(owner, listed(figures)) or nil
    end
    for _, one in ipairs(figures) do
        if one == figure then return ("did you mean \"%s.%s\"?"):format(owner, figure) end
    end
    local near = near_figure(figure, figures)
    if near then return ("did you mean \"%s.%s\"?"):format(owner, near) end
    return #figures > 0 and ("did you mean \"%s\"? Its figures are %s"):format(owner, listed(figures)) or nil
end

--- What to type instead.
-- @param names all that there are
function M.words(name, names)
    local list = owners()
    for _, owner in ipairs(list) do
        if owner:lower() == name:lower() then
            local add = add_one(owner, names)
            if add then return add end
        end
        local figure = after(owner, name)
        if figure then
            local figures = figures_of(owner, names)
            local near = near_figure(figure, figures)
            if near then return ("did you mean \"%s.%s\"?"):format(owner, near) end
            if #figures > 0 then return ("%s has %s"):format(owner, listed(figures)) end
        end
    end
    local alone = not name:find(".", 1, true) and not only_owner(name, list)
    local near = alone and host.suggest(name, names) or nil
    if near then return ("did you mean \"%s\"?"):format(near) end
    near = of_near_owner(name, list, names)
    if near then return near end
    near = host.suggest(name, names)
    if near then return ("did you mean \"%s\"?"):format(near) end
    return #names > 0 and "it has " .. listed(names) or "it has none yet"
end

return M

--- Skills: what an act asks of a crew, and what stands against the crews as described: one
--- named for work it is not said to be able to do, a skill that nothing asks for.
local M = {}
local host = need "host"
local kinds = need "kinds"
local rules = need "rules"
local run = need "run"

--- The skill an act asks for, or nil.
function M.asked(record)
    local skill = record.declared.skill
    if type(skill) == "function" then return skill(record) end
    return skill
end

--- The crews that can do work asking for a skill; nil: any.
function M.able(skill)
    local list = {}
    for _, crew in ipairs(run.crews) do
        local has = skill == nil
        for _, word in ipairs(crew.values.skills or {}) do has = has or word == skill end
        if has then list[#list + 1] = crew end
    end
    return list
end

local function has(crew, skill)
    for _, word in ipairs(crew.values.skills or {}) do
        if word == skill then return true end
    end
    return false
end

--- The words that mean something here: those of the vocabulary, then those that jobs name.
local function known()
    local words, seen = {}, {}
    local function add(word)
        if word and not seen[word] then
            seen[word] = true
            words[#words + 1] = word
        end
    end
    for _, word in ipairs(need("vocabulary/crew").skills) do add(word) end
    for _, record in ipairs(run.acts) do add(M.asked(record)) end
    return words, seen
end

--- A skill is a word that has to be the same at both ends: a misspelled one does nothing.
local function warn_of_words()
    local words, seen = known()
    for _, crew in ipairs(run.crews) do
        for _, word in ipairs(crew.values.skills or {}) do
            if not seen[word] then
                local near = host.suggest(word, words)
                host.warning(crew.place, "skills", "skill-unknown", ("nothing in this plan asks for the skill \"%s\"")
                    :format(word), near and ("did you mean \"%s\"?"):format(near)
                        or ("skills that work asks for: %s"):format(table.concat(words, ", ")))
            end
        end
    end
end

local function judge_crew(record, crew, skill)
    local able = crew.values.skills or {}
    rules.find({ level = "caution", rule = "crew lacks skill", act = record, stand = record.stand,
        message = ("the work asks for the skill \"%s\", and crew %s is not said to have it (%s)"):format(skill, crew.name,
            #able == 0 and "no skills are told" or "it has " .. kinds.quoted(able):gsub("\" or \"", "\" and \"")),
        ask = "the crew", source = "the plan itself" })
end

--- Compares the crews that acts name with what the acts ask for.
function M.judge()
    if #run.crews == 0 then return end
    warn_of_words()
    for _, record in ipairs(run.acts) do
        local skill = not record.was and record.values.crew and M.asked(record)
        if skill and not need("order").days_of_nobody(record) then
            for _, crew in ipairs(record.values.crew) do
                if not has(crew, skill) then judge_crew(record, crew, skill) end
            end
        end
    end
end

return M

--- Phrases of papers and messages: how texts begin and end, lists, and how many.
local M = {}

--- "Oak wilt" of "oak wilt".
function M.capital(text) return (text:gsub("^%l", string.upper)) end

--- "cut trees flush" of "Cut trees flush", for the middle of a sentence.
function M.lower(text) return (text:gsub("^%u", string.lower)) end

--- With a full stop where there is no end yet.
function M.ended(text) return (text:gsub("([^.:?!])$", "%1.")) end

--- As a sentence begins and ends.
function M.sentence(text) return M.capital(M.ended(text)) end

--- "a", "a and b", "a, b and c"; "" of none.
-- @param word before the last, in place of "and"
function M.listed(words, word)
    if #words < 2 then return words[1] or "" end
    return ("%s %s %s"):format(table.concat(words, ", ", 1, #words - 1), word or "and", words[#words])
end

--- "1 job", "2 jobs".
-- @param many where it is not one with an s
function M.count(number, one, many)
    return ("%d %s"):format(number, number == 1 and one or many or one .. "s")
end

return M

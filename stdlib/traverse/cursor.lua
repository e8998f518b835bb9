--- Goes over the tokens of a traverse, and keeps what is wrong with it.
---     local c = cursor(text)
---     if c:is_word(words) then c:take() end
---     return c:fail(token, token, "traverse-unit", "130 has no unit", "130 ft")   -- nil
local host = need "host"
local tokens = need "traverse/tokens"

local M = {}
M.__index = M
local FAULTS_MOST = 10

--- The token at hand; one of kind "end" where a statement ends.
function M:peek(ahead)
    return self.tokens[self.at + (ahead or 0)] or self.tokens[#self.tokens]
end

--- Goes past the token at hand, but never past the end of a statement.
function M:take()
    local t = self:peek()
    if t.kind ~= "end" then self.at = self.at + 1 end
    return t
end

--- What the token at hand means in a table of words; nil for any other.
function M:meaning(words, ahead)
    local t = self:peek(ahead)
    if t.kind == "word" then return words[t.text] end
    return nil
end

--- Takes the word when it comes next.
function M:take_word(word)
    local t = self:peek()
    if t.kind == "word" and t.text == word then return self:take() end
    return nil
end

function M:take_kind(kind)
    if self:peek().kind == kind then return self:take() end
    return nil
end

--- What was typed, from one token to the other; fit to stand in a message.
function M:typed(first, last)
    local words = self.text:sub(first.from, (last or first).to - 1):gsub("%s+", " ")
    if #words > 40 then words = words:sub(1, 37):gsub("[\128-\255]+$", "") .. "..." end
    return words
end

--- Keeps a fault at the bytes of two tokens and between; always nil.
function M:fail(first, last, id, words, hint)
    if #self.faults < FAULTS_MOST then
        local from, to = first.from, last.to
        -- The end of a statement shows nothing: the place behind what was said last.
        if first.kind == "end" and self.at > 1 then from, to = self.tokens[self.at - 1].to, first.from end
        if to < from then to = from end
        self.faults[#self.faults + 1] = { id = id, from = from, to = to, words = words, hint = hint }
    end
    return nil
end

--- "did you mean", or what is said otherwise.
function M.near(word, list, otherwise)
    local near = word and host.suggest(word, list)
    return near and ("did you mean `%s`?"):format(near) or otherwise
end

--- Goes to the next statement, over empty ones; false at the end of the text.
function M:next_statement()
    while self:peek().kind ~= "end" do self.at = self.at + 1 end
    while self:peek().kind == "end" and self.at < #self.tokens do self.at = self.at + 1 end
    return self.at < #self.tokens
end

return function(text)
    -- It starts as if a statement had just ended.
    local c = setmetatable({ text = text, tokens = tokens(text), at = 1, faults = {} }, M)
    table.insert(c.tokens, 1, { kind = "end", from = 1, to = 1 })
    return c
end

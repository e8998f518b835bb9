--- The words of a traverse, one after another, as an LPeg pattern finds them. It is flat and
--- takes each byte once, so its time grows with the text alone.
---
--- A token is { kind, from, to, text, mark }: bytes [from, to) of the text. Kinds: "number"
--- (with the mark that clings to it: "deg", "min", "sec"), "grouped" (1,200), "word" (in lower
--- case, without the point of an abbreviation), "name" (what was in quotes), "mark" (one that
--- stands alone), "-", ",", "end" (of a statement: a semicolon or a line break), "odd".
local lpeg = need "lpeg"
local P, R, S = lpeg.P, lpeg.R, lpeg.S
local C, Cc, Cg, Cp, Ct = lpeg.C, lpeg.Cc, lpeg.Cg, lpeg.Cp, lpeg.Ct

-- No more than a few choices are ever open.
lpeg.setmaxstack(100)

local digit = R("09")
local newline = S("\r\n")
local blank = S(" \t\f\v") + "\194\160" -- and one that does not break
local comment = (P("--") + "#") * (1 - newline)^0

-- Degrees, minutes and seconds as they are typed on a keyboard, and as they are printed.
local mark = (P("°") + "º") * Cc("deg")
    + (P("''") + "\"" + "″" + "”") * Cc("sec")
    + (P("'") + "′" + "’") * Cc("min")

local function token(kind, pattern)
    return Ct(Cg(Cc(kind), "kind") * Cg(Cp(), "from") * pattern * Cg(Cp(), "to"))
end

local number = digit^1 * (P(".") * digit^0)^-1 + P(".") * digit^1
local grouped = R("19") * digit^-2 * (P(",") * digit * digit * digit)^1 * -digit
local high = R("\128\255")
local letter = R("az", "AZ") + (high - (mark + "“" + "–" + blank))
local word = C(letter^1) / string.lower * P(".")^-1
local name = P("\"") * C((1 - (newline + "\""))^0) * "\"" + P("“") * C((1 - (newline + "”"))^0) * "”"

local all = token("grouped", C(grouped))
    + token("number", Cg(C(number), "text") * Cg(mark, "mark")^-1)
    + token("name", Cg(name, "text"))
    + token("word", Cg(word, "text"))
    + token("mark", Cg(mark, "mark"))
    + token("end", newline + ";")
    + token(",", P(","))
    + token("-", P("-") + "–")
    + token("odd", C(high^1 + 1))

local pattern = Ct((blank + comment + all)^0) * -1

--- The tokens of a text.
-- @return a list of tokens, the last of kind "end"
return function(text)
    local list = lpeg.match(pattern, text)
    list[#list + 1] = { kind = "end", from = #text + 1, to = #text + 1 }
    return list
end

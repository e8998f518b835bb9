--- Where the reader of literals has to look: a pattern that runs over plain Lua and stops
--- before the next thing that could be a measure, a range, a date, or a slip in writing one.
---     local at = lpeg.match(pattern, text, start) -- #text + 1 when there is nothing more
--- It is flat: one token after another, nothing is captured but the place, and it never
--- goes back further than the token at hand, so its time grows with the text alone. It need
--- not judge: wherever it stops, lang/literals.c reads on with the rules of lang/tokens.h.
local lpeg = ...
local P, R, S, Cp = lpeg.P, lpeg.R, lpeg.S, lpeg.Cp

-- The loop below never holds more than a few choices open.
lpeg.setmaxstack(100)

local digit = R("09")
local letter = R("az", "AZ") + "_"
local part = letter + digit
local blank = S(" \t\v\f")
local newline = S("\r\n")

-- Whatever is of no interest: but for quotes, points, brackets, hyphens and signs of
-- equality, which may begin something, and letters and digits.
local plain = (1 - (part + S("\"'.[-=~")))^1

-- A name before a number is no Lua, but for `return 3` and its like: most likely a month.
-- The word `to` before a name or number, and names that begin with two low lines, may
-- matter too.
local name = (letter - (P("to") * -part * blank^1 * part) - "__") * part^0 * -(blank^1 * digit)

-- The usual numerals, when no name, no sign of equality and no group of three digits
-- follows, nor a comma with a number and a name. Any other is left for the rules of tokens.h.
local number = digit^1 * (P(".") * digit^0)^-1 * -(part + ".")
    * -(blank^0 * (letter + "==" + "~="))
    * -(P(",") * digit * digit * digit) * -(P(",") * digit^1 * blank^1 * letter)

local escape = P("\\") * (P("\r\n") + "\n\r" + P("z") * S(" \f\n\r\t\v")^0 + 1)
local function quoted(mark)
    local inside = (1 - (newline + "\\" + mark))^0
    return mark * inside * (escape * inside)^0 * mark
end

local long_bracket = P("[") * P("=")^0 * "["
local comment = P("--") * -long_bracket * (1 - newline)^0

local symbol = P("...") + ".." + "." * -digit
    + "[" * -S("[=")
    + "-" * -P("-")
    + (P("==") + "~=") * -(blank^0 * digit)
    + "=" * -P("=") + "~" * -P("=")

return (plain + name + number + quoted("\"") + quoted("'") + symbol + comment)^0 * Cp()

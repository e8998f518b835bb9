--- Help on matters that are no primitive: a list of word, page and
--- what other words lead to it, in the order they are told.
local M = {}

for _, pages in ipairs({ "language", "ground", "work", "running" }) do
    for _, row in ipairs(need("help_pages/" .. pages)) do M[#M + 1] = row end
end

return M

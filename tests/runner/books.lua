--- Every script of the book and of the examples, checked by itself: none may be wrong. A
--- plan that has a stop is a good script all the same.
local M = { name = "book and examples", must_run = true }

local shell = require "runner.shell"

--- Checks one script. Returns what is wrong, or nil.
function M.check(path)
    local printed, _, status = shell.run(".", "spinney check " .. shell.quote(path), true)
    if status > 1 then
        return (shell.crash(status) or "exit status " .. status) .. "\n" .. printed
    end
end

function M.run(options, report)
    for _, folder in ipairs { "prescriptions", "examples" } do
        for _, path in ipairs(shell.files(folder, "*.rx")) do
            if path:find(options.only, 1, true) then
                report(path, M.check(path))
            end
        end
    end
end

return M

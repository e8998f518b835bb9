--- Every script of the book and of the examples, checked by itself: none may be wrong. A
--- plan that has a stop is a good script all the same. Those in a folder named `slips` are
--- mistakes to learn from: each must be refused. A pack.rx is tried as a pack.
local M = { name = "book and examples", must_run = true }

local shell = require "runner.shell"

--- Checks one script. Returns what is wrong, or nil.
function M.check(path)
    local printed, _, status = shell.run(".", "spinney check " .. shell.quote(path), true)
    if status > 1 then
        return (shell.crash(status) or "exit status " .. status) .. "\n" .. printed
    end
end

local function check_slip(path)
    local printed, _, status = shell.run(".", "spinney check " .. shell.quote(path), true)
    if status ~= 2 then
        return (shell.crash(status) or "it is taken, though it is a mistake") .. "\n" .. printed
    end
end

local function check_pack(folder)
    local printed, _, status = shell.run(".", "spinney help --pack " .. shell.quote(folder), true)
    if status ~= 0 then
        return (shell.crash(status) or "exit status " .. status) .. "\n" .. printed
    end
end

function M.run(options, report)
    for _, folder in ipairs { "prescriptions", "examples" } do
        for _, path in ipairs(shell.files(folder, "*.rx")) do
            if path:find(options.only, 1, true) then
                local pack = path:match("^(.*)/pack%.rx$")
                if pack then
                    report(path, check_pack(pack))
                elseif path:find("/slips/", 1, true) then
                    report(path, check_slip(path))
                else
                    report(path, M.check(path))
                end
            end
        end
    end
end

return M

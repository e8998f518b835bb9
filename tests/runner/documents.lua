--- The code blocks of the documents. In a block marked `console`, lines that start with `$ `
--- are commands, run from the top of the source tree, and the lines below are what they
--- print; a line `...` stands for any lines. `make` is not run from within its own tests. A
--- block marked `lua`, `rx` or `spinney` is a script that `spinney check` must take.
local M = { name = "documents", must_run = false }

local books = require "runner.books"
local shell = require "runner.shell"

local function documents()
    local list = {}
    for _, name in ipairs { "README.md", "DEVELOPERS.md" } do
        if shell.read(name) then
            list[#list + 1] = name
        end
    end
    for _, path in ipairs(shell.files("examples", "*.md")) do
        list[#list + 1] = path
    end
    return list
end

--- The fenced blocks of a document: kind, first line, lines. Fences may be set in.
local function blocks(text)
    local list, open, number = {}, nil, 0
    for line in text:gmatch("([^\n]*)\n?") do
        number = number + 1
        local indent, fence, kind = line:match("^(%s*)(```+)%s*(%S*)")
        if open and fence and kind == "" and #fence >= #open.fence then
            list[#list + 1] = open
            open = nil
        elseif open then
            open.lines[#open.lines + 1] = line:gsub("^" .. open.indent, "")
        elseif fence then
            open = { kind = kind, fence = fence, indent = indent, number = number, lines = {} }
        end
    end
    return list, open
end

--- The commands of a console block: line number, command, lines wanted.
local function commands(block)
    local list, current = {}, nil
    for i, line in ipairs(block.lines) do
        local command = line:match("^%$ (.*)$")
        if current and current.goes_on then
            current.command = current.command:gsub("\\$", "") .. line
            current.goes_on = line:find("\\$") ~= nil
        elseif command then
            current = { number = block.number + i, command = command, wanted = {} }
            current.goes_on = command:find("\\$") ~= nil
            list[#list + 1] = current
        elseif current then
            current.wanted[#current.wanted + 1] = line
        end
    end
    return list
end

local function split(text)
    local list = {}
    for line in text:gmatch("([^\n]*)\n") do
        list[#list + 1] = line
    end
    local rest = text:match("[^\n]+$")
    if rest then
        list[#list + 1] = rest
    end
    while list[#list] == "" do
        list[#list] = nil
    end
    return list
end

--- Whether the lines fit, where a wanted `...` takes any number of them. Blank lines at the
--- end do not count.
function M.fits(wanted, got)
    local w, g, star, star_g = 1, 1, nil, nil
    while g <= #got do
        if wanted[w] == "..." then
            star, star_g = w, g
            w = w + 1
        elseif w <= #wanted and wanted[w] == got[g] then
            w, g = w + 1, g + 1
        elseif star then
            -- Give the last `...` one line more, and go on from there.
            star_g = star_g + 1
            w, g = star + 1, star_g
        else
            return false
        end
    end
    while wanted[w] == "..." do
        w = w + 1
    end
    return w > #wanted
end

local function run_command(entry)
    local printed, _, status = shell.run(".", entry.command, true)
    local crash = shell.crash(status)
    if crash then
        return crash .. "\n" .. printed
    end
    local wanted = split(table.concat(entry.wanted, "\n") .. "\n")
    if not M.fits(wanted, split(printed)) then
        return shell.difference(table.concat(wanted, "\n") .. "\n", printed)
    end
end

local function check_script(block)
    local path = shell.scratch("block.rx")
    shell.write(path, table.concat(block.lines, "\n") .. "\n")
    return books.check(path)
end

local is_script = { lua = true, rx = true, spinney = true }

function M.run(options, report)
    for _, path in ipairs(documents()) do
        if path:find(options.only, 1, true) then
            local list, open = blocks(shell.read(path))
            if open then
                report(("%s:%d"):format(path, open.number), "this block is never closed")
            end
            for _, block in ipairs(list) do
                if is_script[block.kind] then
                    report(("%s:%d"):format(path, block.number), check_script(block))
                elseif block.kind == "console" then
                    for _, entry in ipairs(commands(block)) do
                        if not entry.command:find("^make%f[%W]") then
                            report(("%s:%d: %s"):format(path, entry.number, entry.command),
                                run_command(entry))
                        end
                    end
                end
            end
        end
    end
end

return M

--- The code blocks of the documents. In a block marked `console`, lines that start with `$ `
--- are commands, run from the top of the source tree, and the lines below are what they
--- print; a line `...` stands for any lines. `make` is not run from within its own tests. A
--- block marked `lua`, `rx` or `spinney` is a script that `spinney check` must take.
--- When outputs are accepted, the lines below the commands are written anew.
local M = { name = "documents", must_run = false }

local books = require "runner.books"
local renew = require "runner.renew"
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
        if current then
            current.last = block.number + i
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

--- Runs a command and compares. When outputs are accepted, one that does not fit leaves
--- `entry.renewed`, the lines to show from now on.
local function run_command(entry, accept)
    local printed, _, status = shell.run(".", entry.command, true)
    local crash = shell.crash(status)
    if crash then
        return crash .. "\n" .. printed
    end
    local wanted, got = split(table.concat(entry.wanted, "\n") .. "\n"), split(printed)
    if M.fits(wanted, got) then
        return nil
    end
    if not accept then
        return shell.difference(table.concat(wanted, "\n") .. "\n", printed)
    end
    local lines, lost = renew.lines(wanted, got)
    if not lines then
        return ("what it prints has no line like this one, so the block is left as it is:\n%s\n")
            :format(lost) .. printed
    end
    entry.renewed = lines
end

--- Writes a document with the outputs of these commands anew.
local function rewrite(path, entries)
    local lines, out, at = {}, {}, 1
    for line in shell.read(path):gmatch("([^\n]*)\n") do
        lines[#lines + 1] = line
    end
    for _, entry in ipairs(entries) do
        local first = entry.last - #entry.wanted + 1
        for i = at, first - 1 do
            out[#out + 1] = lines[i]
        end
        for _, line in ipairs(entry.renewed) do
            out[#out + 1] = line == "" and "" or entry.indent .. line
        end
        -- Blank lines at the end are for the eye, and stay.
        local trailing = entry.last
        while trailing >= first and lines[trailing]:match("^%s*$") do
            trailing = trailing - 1
        end
        at = trailing + 1
    end
    for i = at, #lines do
        out[#out + 1] = lines[i]
    end
    shell.write(path, table.concat(out, "\n") .. "\n")
end

local function check_script(block)
    local path = shell.scratch("block.rx")
    shell.write(path, table.concat(block.lines, "\n") .. "\n")
    return books.check(path)
end

local is_script = { lua = true, rx = true, spinney = true }

local function run_console(path, block, options, report, renewed)
    for _, entry in ipairs(commands(block)) do
        if not entry.command:find("^make%f[%W]") then
            entry.indent = block.indent
            report(("%s:%d: %s"):format(path, entry.number, entry.command),
                run_command(entry, options.accept))
            if entry.renewed then
                renewed[#renewed + 1] = entry
            end
        end
    end
end

function M.run(options, report)
    for _, path in ipairs(documents()) do
        if path:find(options.only, 1, true) then
            local list, open = blocks(shell.read(path))
            if open then
                report(("%s:%d"):format(path, open.number), "this block is never closed")
            end
            local renewed = {}
            for _, block in ipairs(list) do
                if is_script[block.kind] then
                    report(("%s:%d"):format(path, block.number), check_script(block))
                elseif block.kind == "console" then
                    run_console(path, block, options, report, renewed)
                end
            end
            if #renewed > 0 then
                rewrite(path, renewed)
            end
        end
    end
end

return M

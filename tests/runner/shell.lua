--- Runs commands in a clean surrounding, and reads what they leave.
local M = {}

--- Seconds that one command may take.
M.patience = 20

local spinney_folder, scratch

local function capture(command)
    local pipe = assert(io.popen(command, "r"))
    local text = pipe:read("a")
    pipe:close()
    return text
end

--- A word that the shell takes as it is.
function M.quote(word)
    return "'" .. word:gsub("'", "'\\''") .. "'"
end

--- Looks for spinney and makes a folder for what the commands print.
function M.begin(folder)
    spinney_folder = capture("cd " .. M.quote(folder) .. " && pwd"):gsub("\n$", "")
    if not M.read(spinney_folder .. "/spinney") then
        io.stderr:write("there is no ", folder, "/spinney: build it first\n")
        os.exit(1)
    end
    scratch = capture("mktemp -d"):gsub("\n$", "")
end

function M.finish()
    os.execute("rm -rf " .. M.quote(scratch))
end

--- A path in the folder that M.finish removes.
function M.scratch(name)
    return scratch .. "/" .. name
end

--- The whole of a file, or nil when there is none.
function M.read(path)
    local file = io.open(path, "rb")
    local text = file and file:read("a")
    if file then
        file:close()
    end
    return text
end

function M.write(path, text)
    local file = assert(io.open(path, "wb"))
    assert(file:write(text))
    assert(file:close())
end

--- Paths of the files below a folder whose names fit a pattern of find, sorted; none when
--- the folder is missing. `depth` is how far down to look.
function M.files(folder, pattern, depth)
    local list = {}
    local command = ("find %s -maxdepth %d -type f -name %s 2>/dev/null | LC_ALL=C sort")
        :format(M.quote(folder), depth or 99, M.quote(pattern))
    for path in capture(command):gmatch("[^\n]+") do
        list[#list + 1] = path
    end
    return list
end

--- Paths of the folders just below a folder, sorted.
function M.folders(folder)
    local list = {}
    local command = ("find %s -mindepth 1 -maxdepth 1 -type d 2>/dev/null | LC_ALL=C sort")
        :format(M.quote(folder))
    for path in capture(command):gmatch("[^\n]+") do
        list[#list + 1] = path
    end
    return list
end

-- A sanitizer's report must not be taken for one of our own exit statuses.
local surroundings = "env -u NO_COLOR -u SPINNEY_PATH -u COLUMNS LC_ALL=C.UTF-8 "
    .. "ASAN_OPTIONS=exitcode=99 UBSAN_OPTIONS=exitcode=99 "

--- Runs a shell command in a folder; spinney is on its path. Returns what it printed, what
--- it complained of (in with the first when `together`), and its exit status.
function M.run(folder, command, together)
    local out, err = M.scratch("stdout"), M.scratch("stderr")
    local line = ("cd %s && PATH=%s:\"$PATH\" %s timeout %d sh -c %s </dev/null >%s 2>%s")
        :format(M.quote(folder), M.quote(spinney_folder), surroundings, M.patience,
            M.quote(command), M.quote(out), together and "&1" or M.quote(err))
    local _, how, status = os.execute(line)
    if how == "signal" then
        status = 128 + status
    end
    return M.read(out), together and "" or M.read(err), status
end

--- Words for a status that no command of ours ends with, or nil.
function M.crash(status)
    if status == 124 then
        return ("it took more than %d seconds"):format(M.patience)
    elseif status == 99 then
        return "a sanitizer stopped it"
    elseif status == 126 or status == 127 then
        return "the command could not be started"
    elseif status >= 128 then
        return ("it was ended by signal %d"):format(status - 128)
    end
end

--- The difference between two texts, as `diff -u` shows it.
function M.difference(wanted, got)
    local a, b = M.scratch("wanted"), M.scratch("got")
    M.write(a, wanted)
    M.write(b, got)
    return capture(("diff -u --label wanted --label got %s %s"):format(M.quote(a), M.quote(b)))
end

return M

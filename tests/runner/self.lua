--- Does the runner of tests fail when it should? Runs it over small made-up trees with a
--- made-up spinney, which prints what the comments of a script tell it to:
---     lua5.4 tests/runner/self.lua
local runner = io.popen("pwd"):read("l") .. "/tests/run.lua"

local fake = [[#!/bin/sh
# "--1 TEXT" goes out, "--2 TEXT" to complaints, "--ids TEXT" to complaints with --ids only,
# "--exit N" is the status, "--sleep N" and "--die" are what they say.
file=
ids=no
for word; do
  case $word in *.rx) file=$word ;; --ids) ids=yes ;; esac
done
echo "$*" | sed 's/^check.*//; /^$/d; s/^\(why\|help\)/said &/; /^said/!d'
[ -n "$file" ] || exit 0
sed -n 's/^--1 //p' "$file"
if [ $ids = yes ]; then
  sed -n 's/^--2 //p; s/^--ids //p' "$file" >&2
else
  sed -n 's/^--2 //p; /^--ids /{ s/^--ids //; s/\[[a-z-]*\]//; p; }' "$file" >&2
fi
grep -q '^--die' "$file" && kill -SEGV $$
sleep "$(sed -n 's/^--sleep //p' "$file" | grep . || echo 0)"
exit "$(sed -n 's/^--exit //p' "$file" | grep . || echo 0)"
]]

local folder = io.popen("mktemp -d"):read("l")

local function put(path, text)
    os.execute(("mkdir -p %s/$(dirname %s)"):format(folder, path))
    local file = assert(io.open(folder .. "/" .. path, "wb"))
    file:write(text)
    file:close()
end

--- Runs the runner over the files; returns what it printed and whether it was content.
local function run(files, words)
    os.execute(("rm -rf %s/*"):format(folder))
    put("bin/spinney", fake)
    os.execute(("chmod +x %s/bin/spinney"):format(folder))
    -- The groups that must not be empty are not what most cases are about.
    put("examples/fine.rx", "")
    put("tests/scripts/base/fine.rx", "--1 fine\n")
    put("tests/scripts/base/fine.out", "fine\n")
    for path, text in pairs(files) do
        if text then
            put(path, (text:gsub("[^\n]$", "%0\n")))
        else
            os.remove(folder .. "/" .. path)
        end
    end
    local pipe = io.popen(("cd %s && lua5.4 %s bin %s 2>&1; echo $?")
        :format(folder, runner, words or ""))
    local printed = pipe:read("a")
    pipe:close()
    return printed, printed:match("(%d+)\n$") == "0"
end

local cases, failed = 0, 0

--- `wanted` is text that must be printed, besides the verdict.
local function expect(name, content, files, wanted, words)
    cases = cases + 1
    local printed, was_content = run(files, words)
    if was_content ~= content or not printed:find(wanted, 1, true) then
        failed = failed + 1
        print(("FAILED %s (wanted %s and %q)\n%s"):format(name,
            content and "content" or "failure", wanted, printed))
    end
end

local t = "tests/scripts/t/a"
local script, out, err = t .. ".rx", t .. ".out", t .. ".err"
local ids = "--ids a.rx:2:1: error[unit-unknown]: what\n"

expect("a good tree", true, {}, "2 passed, 0 failed")
expect("other output", false, { [script] = "--1 a", [out] = "b\n" }, "+a")
expect("no output", false, { [script] = "", [out] = "b\n" }, "-b")
expect("other complaints", false, { [script] = "--2 error: a\n--exit 2", [err] = "error: b\n" },
    "+error: a")
expect("complaints that nobody expects", false,
    { [script] = "--1 a\n--2 warning: b", [out] = "a\n" },
    "+warning: b")
expect("errors have status 2", true, { [script] = "--2 error: a\n--exit 2", [err] = "error: a\n" },
    "3 passed")
expect("an error with status 0", false, { [script] = "--2 error: a", [err] = "error: a\n" },
    "exit status 0, wanted 2")
expect("warnings have status 0", true, { [script] = "--2 warning: a", [err] = "warning: a\n" },
    "3 passed")
expect("a paper printed in spite of errors", false,
    { [script] = "--1 half\n--2 error: a\n--exit 2", [err] = "error: a\n" }, "+half")
expect("a wrong status", false, { [script] = "--1 a\n--exit 1", [out] = "a\n" },
    "exit status 1, wanted 0")
expect("a stated status", true, { [script] = "--$ exit 1\n--1 a\n--exit 1", [out] = "a\n" },
    "3 passed")
expect("a crash", false, { [script] = "--1 a\n--die", [out] = "a\n" }, "signal")
expect("nothing expected", false, { [script] = "--1 a" }, "expects nothing")
expect("an empty folder", false, { ["tests/scripts/u/notes.txt"] = "" },
    "no script in this folder")
expect("a lost expectation", false, { [out] = "a\n" }, "there is no script for it")
expect("no scripts at all", false,
    { ["tests/scripts/base/fine.rx"] = false, ["tests/scripts/base/fine.out"] = false },
    "no script")
expect("a name that fits nothing", false, {}, "nothing ran", "nowhere")
expect("only some", true, {}, "1 passed, 0 failed", "base/fine")

expect("the command is taken from the script", true,
    { [script] = "--$ why total.cost", [out] = "said why a.rx total.cost\n" }, "3 passed")
expect("the file stands where it is wanted", true,
    { [script] = "--$ why rule x FILE --trace", [out] = "said why rule x a.rx --trace\n" },
    "3 passed")

expect("a mark that is met", true, { [script] = ids .. "x --! unit-unknown\n--exit 2" }, "3 passed")
expect("a mark that is missed", false,
    { [script] = ids .. "x --! unit-unknown key-missing\n--exit 2" },
    "a.rx:2 key-missing: marked 1 times, reported 0 times")
expect("a message without its mark", false,
    { [script] = ids .. ids .. "--! unit-unknown\n--exit 2" }, "reported 2 times")
expect("a mark on another line", false, { [script] = ids .. "\nx --! unit-unknown\n--exit 2" },
    "a.rx:3 unit-unknown: marked 1 times, reported 0 times")
expect("a mark from below", true, { [script] = ids .. "\n\nx --! unit-unknown -2\n--exit 2" },
    "3 passed")
expect("a message of no place", false,
    { [script] = "--ids error[file-missing]: what\n" .. ids .. "--! unit-unknown\n--exit 2" },
    "nowhere file-missing")
expect("complaints are compared without ids", true,
    { [script] = ids .. "x --! unit-unknown\n--exit 2", [err] = "a.rx:2:1: error: what\n" },
    "3 passed")
expect("marks in a file that is used", true,
    { [script] = 'use "parts/p.rx"\n--ids parts/p.rx:1:1: error[key-missing]: what\n--exit 2',
        ["tests/scripts/t/parts/p.rx"] = "x --! key-missing" }, "3 passed")

expect("accepting writes what was printed", true, { [script] = "--1 a" }, "3 passed", "--accept")
expect("a bad example", false, { ["examples/a/b.rx"] = "--2 error: a\n--exit 2" }, "error: a")
expect("a mistake on purpose", true, { ["examples/a/slips/b.rx"] = "--2 error: a\n--exit 2" },
    "3 passed")
expect("a mistake that is none", false, { ["examples/a/slips/b.rx"] = "" }, "is taken")
expect("a pack", true, { ["examples/a/pack.rx"] = "--2 error: a\n--exit 2" }, "3 passed")
expect("an example with a stop", true, { ["examples/a/b.rx"] = "--exit 1" }, "3 passed")
expect("a bad prescription", false, { ["prescriptions/b.rx"] = "--exit 2" }, "exit status 2")

local function console(text)
    return { ["README.md"] = "# x\n```console\n" .. text .. "```\n" }
end
expect("a console block", true, console "$ echo a\na\n$ printf 'b\\nc\\n'\nb\nc\n", "4 passed")
expect("a console block that lies", false, console "$ echo a\nb\n", "README.md:3: echo a")
expect("output that the block leaves out", false, console "$ echo a\n", "+a")
expect("lines left out on purpose", true, console "$ seq 9\n1\n...\n5\n...\n", "3 passed")
expect("lines left out, but not these", false, console "$ seq 9\n1\n...\n5\n...\n8\n",
    "README.md:3: seq 9")
expect("make is not run", true, console "$ make demo\nthe plan\n", "2 passed")
expect("a command that does not exist", false, console "$ no-such-command\n...\n",
    "not be started")
local function accepted(name, text, now, wanted)
    expect(name, wanted == nil, console(text), wanted or "passed", "--accept")
    local file = io.open(folder .. "/README.md", "rb")
    local left = file:read("a")
    file:close()
    cases = cases + 1
    if left ~= console(now)["README.md"] then
        failed = failed + 1
        print(("FAILED %s: it left\n%s"):format(name, left))
    end
end
accepted("a console block is written anew", "$ echo a; echo b\na\n\n$ echo c\n",
    "$ echo a; echo b\na\nb\n\n$ echo c\nc\n")
accepted("a console block that fits is left alone", "$ seq 9\n...\n5\n...\n",
    "$ seq 9\n...\n5\n...\n")
accepted("a stretch of a console block is written anew",
    "$ printf 'x\\nhours 3 h\\n b\\nend\\ny\\n'\n...\nhours 12 h\nend\n...\n",
    "$ printf 'x\\nhours 3 h\\n b\\nend\\ny\\n'\n...\nhours 3 h\n b\nend\n...\n")
accepted("the end of a console block is written anew", "$ seq 9\n...\n8\n8\n",
    "$ seq 9\n...\n8\n9\n")
accepted("a stretch that has gone", "$ seq 9\n...\nhours\n...\n", "$ seq 9\n...\nhours\n...\n",
    "no line like this one")
expect("spinney is on the path", true, console "$ spinney help cut\nsaid help cut\n", "3 passed")
expect("a script block", true, { ["README.md"] = "```lua\nx = 3\n```\n" }, "3 passed")
expect("a bad script block", false, { ["DEVELOPERS.md"] = "```rx\n--exit 2\n```\n" },
    "DEVELOPERS.md:1")
expect("a lesson", false, { ["examples/1/lesson.md"] = "```lua\n--exit 2\n```\n" }, "lesson.md:1")
expect("a block without an end", false, { ["README.md"] = "```lua\nx = 3\n" }, "never closed")
expect("other blocks are left alone", true, { ["README.md"] = "```\n$ false\n```\n" }, "2 passed")

os.execute("rm -rf " .. folder)
print(("runner: %d passed, %d failed"):format(cases - failed, failed))
os.exit(failed == 0 and 0 or 1)

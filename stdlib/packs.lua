--- Packs: folders of the user's own, laid over the built-in book. The manifest pack.rx is
--- read before any script, so that units it declares are known to all.
local M = {}
local host = need "host"

M.reads = {}   -- by number of the pack: files its manifest wants read

--- Reads every pack's manifest, then the files it names.
function M.open()
    for i = 1, host.packs() do
        M.reads[i] = {}
        host.load_pack(i, "pack.rx")
    end
    for i = 1, host.packs() do
        for _, file in ipairs(M.reads[i]) do
            if not host.load_pack(i, file.name, file.place) then
                host.fault(file.place, "reads", "file-missing",
                    ("the pack has no file \"%s\""):format(file.name))
            end
        end
    end
end

return M

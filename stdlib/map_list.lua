--- `spinney map FILE`: what is in a map, and what to write of it into a script. For whoever
--- got the file from a phone or an office and does not know the names in it.
local M = {}
local host = need "host"
local map = need "map"
local page = need "page"
local phrases = need "phrases"

--- As a map's line is closed to an area (spinney help maps): feet, and a share of its length.
local GAP, GAP_SHARE = 50, 1 / 20
local EXAMPLES = 3     -- of an attribute
local WORDS_MOST = 24  -- characters of an example
local LINES_MOST = 12  -- of the script, a name each

--- Kinds by which maps say that an area is the whole property.
local OUTLINES = { outline = true, property = true, boundary = true }

--- A text as a script writes it: what could steer a terminal is written as its number.
local function quoted(text)
    return '"' .. text:gsub('[\\"]', "\\%0"):gsub("[%z\1-\31\127]", function (c)
        return ("\\%03d"):format(c:byte())
    end):gsub("\194([\128-\159])", function (c) return ("\\194\\%03d"):format(c:byte()) end) .. '"'
end

-- What is in it -------------------------------------------------------------------------------

--- Corners of all parts together.
local function corners(shape)
    local count = 0
    for _, part in ipairs(shape:parts()) do count = count + #part // 2 end
    return count
end

local function acres(shape) return page.fixed(shape:area() / map.FT2_PER_AC, 2) .. " ac" end
local function feet(shape) return page.fixed(shape:length(), 0) .. " ft" end

--- A line that was walked round an area serves as one, where its ends are near.
local function closes(shape)
    local parts, gap = shape:parts(), 0
    for _, part in ipairs(parts) do
        if #part < 8 then return false end
        gap = math.max(gap, math.sqrt((part[1] - part[#part - 1]) ^ 2 + (part[2] - part[#part]) ^ 2))
    end
    return gap <= math.max(GAP, shape:length() * GAP_SHARE)
end

--- One feature as a row. What is broken is told beside the list, and stands in it as broken.
local function row_of(file, i, frame)
    local feature = file:feature(i)
    local row = { name = feature.name, kind = feature.kind, layer = feature.layer, form = feature.form,
        attributes = feature.attributes }
    local words = feature.name or ("feature %d"):format(i)
    local shape, mended = host.placed(nil, nil, file.shape, file, i, frame, { name = words })
    if not shape then
        row.size, row.corners, row.is_broken = "broken", "", true
        return row
    end
    row.corners, row.mended = tostring(corners(shape)), mended and mended.words
    if row.form == "area" then
        row.size = acres(shape)
    elseif row.form == "line" then
        row.size = feet(shape)
        if closes(shape) then
            local area = host.placed(nil, nil, file.shape, file, i, frame, { as_area = true, name = words })
            if area then row.size, row.is_ring = ("%s, round %s"):format(row.size, acres(area)), true end
        end
    end
    return row
end

--- The rows of each layer, in the order of the file.
local function layers_of(rows)
    local list, known = {}, {}
    for _, row in ipairs(rows) do
        local name = row.layer or ""
        if not known[name] then
            known[name] = { name = name }
            list[#list + 1] = known[name]
        end
        table.insert(known[name], row)
    end
    return list
end

--- What each attribute says: { field =, filled =, distinct =, examples =, numbers = }.
local function fields_of(rows)
    local list, known = {}, {}
    for _, row in ipairs(rows) do
        for _, attribute in ipairs(row.attributes) do
            local field = known[attribute.field]
            if not field then
                field = { field = attribute.field, filled = 0, distinct = 0, examples = {}, seen = {}, numbers = true }
                known[attribute.field] = field
                list[#list + 1] = field
            end
            local text = attribute.text
            if text ~= "" then
                field.filled = field.filled + 1
                field.numbers = field.numbers and tonumber(text) ~= nil
                if not field.seen[text] then
                    field.seen[text], field.distinct = true, field.distinct + 1
                    if #field.examples < EXAMPLES then field.examples[#field.examples + 1] = text end
                end
            end
        end
    end
    return list
end

--- Those that are read as names and kinds by themselves.
local TAKEN = { name = true, kind = true, type = true }

--- The attribute that would tell most of the nameless apart; words before numbers. Nil: none would.
local function best_field(rows)
    local nameless, best = {}, nil
    for _, row in ipairs(rows) do
        if not row.name then nameless[#nameless + 1] = row end
    end
    for _, field in ipairs(fields_of(nameless)) do
        local better = not best or (best.numbers and not field.numbers)
            or (best.numbers == field.numbers and field.distinct > best.distinct)
        if field.distinct > 0 and not TAKEN[field.field:lower()] and better then best = field end
    end
    return best
end

-- The page ------------------------------------------------------------------------------------

local function coordinates(about)
    if about.datum then return about.datum .. ", turned to degrees" end
    return about.unsaid and "not told; taken as degrees of WGS84" or "degrees of " .. about.system
end

local function head(d, about, rows, layers)
    d:heading(1, about.file)
    d:definition("coordinates", { coordinates(about) })
    d:definition("features", { ("%s in %s"):format(phrases.count(#rows, "feature"), phrases.count(#layers, "layer")) })
    if about.without_shape > 0 then
        d:definition("left out", { phrases.count(about.without_shape, "feature that has no place", "features that have no place") })
    end
end

local function tables(d, layers)
    for _, layer in ipairs(layers) do
        local lines = {}
        for i, row in ipairs(layer) do
            lines[i] = { row.name or "(no name)", row.form, row.size or "", row.corners, row.kind or "" }
        end
        d:heading(2, #layers > 1 and "Layer " .. layer.name or "Features")
        d:table { columns = { { "name", wrap = true }, "form", { "size", align = "right" },
            { "corners", align = "right" }, "kind" }, rows = lines }
        for _, row in ipairs(layer) do
            if row.mended then d:item { ("%s is mended when it is read: %s"):format(row.name or "one of them", row.mended) } end
        end
    end
end

local function shortened(text)
    return utf8.len(text) and utf8.len(text) > WORDS_MOST and text:sub(1, utf8.offset(text, WORDS_MOST + 1) - 1) .. "..." or text
end

local function attributes(d, fields, count)
    if #fields == 0 then return end
    local rows = {}
    for i, field in ipairs(fields) do
        local examples = {}
        for k, text in ipairs(field.examples) do examples[k] = shortened(text) end
        rows[i] = { field.field, ("%d of %d"):format(field.filled, count), tostring(field.distinct),
            table.concat(examples, "; ") .. (field.distinct > #examples and "; ..." or "") }
    end
    d:heading(2, "Attributes")
    d:table { columns = { "attribute", { "filled in", align = "right" }, { "different", align = "right" },
        { "such as", wrap = true } }, rows = rows }
end

--- What a feature is, as a script says it.
local function script_line(row)
    local name = quoted(row.name)
    if row.kind and need("vocabulary/feature").is_kind(row.kind) then
        return ("feature %s { kind = %s, map = %s }"):format(name, quoted(row.kind), name)
    elseif row.form == "area" or row.is_ring then
        return ("stand %s { map = %s }"):format(name, name)
    end
    return ("feature %s { kind = \"...\", map = %s }"):format(name, name)
end

--- The lines that a plan wants: the file, and each name once.
local function script(about, rows)
    local base = about.file:match("[^/]+$")
    local out, seen, left, nameless = {}, {}, 0, 0
    local outline
    for _, row in ipairs(rows) do
        if not row.name then
            nameless = nameless + 1
        elseif row.form == "area" and OUTLINES[row.kind] and not outline then
            outline = row.name
        elseif not row.is_broken and not seen[row.name] then
            seen[row.name] = true
            if #out < LINES_MOST then out[#out + 1] = script_line(row) else left = left + 1 end
        end
    end
    local best = nameless > 0 and best_field(rows)
    local named = nameless < #rows
    if left > 0 then out[#out + 1] = ("-- and %d more"):format(left) end
    if named and nameless > 0 then
        table.insert(out, 1, ("-- %s no name%s"):format(phrases.count(nameless, "feature has", "features have"),
            best and (", but one by %s: { file = %s, field = %s }"):format(best.field, quoted(base),
                quoted(best.field)) or ""))
    elseif not named and best then
        out[1] = ("stand %s { map = %s }"):format(quoted(best.examples[1]), quoted(best.examples[1]))
        table.insert(out, 1, ("-- no feature has a name; %s would be one"):format(best.field))
    elseif not named then
        out[1] = "-- no feature has a name, nor an attribute to serve as one: give them names first"
    end
    local file = not named and best and ("{ file = %s, field = %s }"):format(quoted(base), quoted(best.field)) or quoted(base)
    table.insert(out, 1, ("property \"...\" { map = %s%s }"):format(file,
        outline and ", outline = " .. quoted(outline) or ""))
    return "In a script:\n\n    " .. table.concat(out, "\n    ") .. "\n"
end

--- What is in a map, for the terminal.
-- @param name the file, in the folder that the finder was told
function M.text(name)
    local maps = need "maps"
    local file = maps.read(name)
    local frame = maps.frame(file:middle())
    local about, rows = file:about(), {}
    for i = 1, file:count() do rows[i] = row_of(file, i, frame) end
    local layers, fields = layers_of(rows), fields_of(rows)
    local d = page.doc()
    head(d, about, rows, layers)
    tables(d, layers)
    attributes(d, fields, #rows)
    return page.terminal(d) .. "\n" .. script(about, rows)
end

return M

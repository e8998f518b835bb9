--- use: reads another file of the property, a pack or the built-in book, once.
local host = need "host"
local kinds = need "kinds"

return {
    kind = "use", named = "must",
    says = "reads another script, once: a file in the property's folder, of a pack, or built in",
    keys = {},
    example = [[use "property.rx"]],
    plain = function(place, name)
        if type(name) ~= "string" then
            host.fault(place, nil, "use-name", ("use wants a file's name; this is %s"):format(
                kinds.describe(name)), "use \"property.rx\"")
            return nil
        end
        host.use(name, place)
        return nil
    end,
}

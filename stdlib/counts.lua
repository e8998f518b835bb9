--- Counts that are units of their own from the start, so that guards are not added to
--- plants. Packs add theirs in the same way (pack { units = ... }).
return {
    { name = "guard", plural = "guards", source = "a count" },
    { name = "post", plural = "posts", source = "a count" },
    { name = "seed", plural = "seeds", source = "a count" },
}

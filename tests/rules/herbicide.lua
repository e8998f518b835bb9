--- Rules of herbicide (stdlib/base/rules-herbicide.rx).
local fell = 'local fell = cut { stand = "Mixed", species = "aspen" }\n'
local stumps = 'treat { %s, method = "stump", ingredient = "%s", stumps = 40 stems, '
    .. 'yearly_max = 8 lb/ac, product_strength = 3 lb/gal, mix = 15 percent, hours = 4 h%s }\n'
local leaves = 'treat { stand = "%s", method = "foliar", ingredient = "%s", area = 1 ac, '
    .. 'gallons = 25 gal/ac, product_strength = 3 lb/gal, mix = 2 percent, hours = 4 h%s }\n'
local spray = leaves:format("Field", "glyphosate", ", yearly_max = 8 lb/ac")

return {
    { layer = "base", name = "aspen herbicide in a sprout cut",
      fires = fell .. stumps:format('after = fell', "triclopyr amine", ', species = "aspen"'),
      quiet = fell .. stumps:format('stand = "Mixed"', "triclopyr amine", ', species = "red maple"')
          .. stumps:format('stand = "Aspen"', "triclopyr amine", ', species = "aspen"') },
    { layer = "base", name = "soil-active herbicide in a sprout cut",
      fires = fell .. leaves:format("Mixed", "imazapyr", ', species = "red maple"'),
      quiet = fell .. leaves:format("Mixed", "glyphosate", ', species = "red maple"')
          .. leaves:format("Field", "imazapyr", "") },
    { layer = "base", name = "soil-active herbicide near mast trees",
      fires = leaves:format("Oak", "imazapyr", ', species = "red maple"'),
      quiet = leaves:format("Field", "imazapyr", "") .. leaves:format("Oak", "glyphosate",
          ', species = "red maple"') },
    { layer = "base", name = "herbicide near water", says = "creek runs beside",
      fires = 'feature "creek" { kind = "stream", beside = "Field", length = 300 ft }\n' .. spray,
      quiet = 'feature "creek" { kind = "stream", beside = { "Field", "Oak" }, length = 300 ft }\n'
          .. 'buffer { of = "creek", inside = "Field", width = 30 ft }\n' .. spray
          .. leaves:format("Oak", "glyphosate", ', aquatic = true, species = "red maple"') },
    { layer = "base", name = "herbicide near a well",
      fires = 'feature "well" { kind = "well", beside = "Field", distance = 100 ft }\n' .. spray,
      quiet = 'feature "well" { kind = "well", beside = "Field", distance = 200 ft }\n' .. spray },
    { layer = "base", name = "foliar without leaves",
      fires = leaves:format("Field", "glyphosate", ", date = Nov 2 2026"),
      quiet = leaves:format("Field", "glyphosate", ", date = Jul 6 2027")
          .. stumps:format('stand = "Aspen"',
          "triclopyr amine", ", date = Nov 2 2026") },
    { layer = "base", name = "stump treatment at sap flow",
      fires = stumps:format('stand = "Aspen"', "triclopyr amine", ", date = May 4 2027"),
      quiet = stumps:format('stand = "Aspen"', "triclopyr amine", ", date = Aug 3 2027")
          .. stumps:format('stand = "Aspen"', "triclopyr ester", ", date = May 4 2027") },
    { layer = "base", name = "applicator license",
      fires = spray,
      quiet = 'mow { stand = "Field" }' },
    { layer = "base", name = "herbicide, yearly maximum", says = "against 2 lb/ac",
      fires = leaves:format("Field", "glyphosate", ", yearly_max = 2 lb/ac, date = Jun 22 2027")
          .. leaves:format("Field", "glyphosate", ", yearly_max = 2 lb/ac, date = Aug 24 2027"),
      quiet = leaves:format("Field", "glyphosate", ", yearly_max = 2 lb/ac, date = Jun 22 2027")
          .. leaves:format("Field", "glyphosate", ", yearly_max = 2 lb/ac, date = Jun 21 2028") },
    { layer = "base", name = "herbicide, near the yearly maximum",
      fires = 'treat { stand = "Field", method = "foliar", ingredient = "glyphosate", '
          .. 'area = 1 ac, hours = 4 h, gallons = 20 to 40 gal/ac around 25, '
          .. 'product_strength = 3 lb/gal, mix = 2 percent, yearly_max = 2 lb/ac }',
      quiet = spray },
    { layer = "base", name = "herbicide, maximum not checked",
      fires = 'treat { stand = "Field", method = "foliar", ingredient = "imazapyr", '
          .. 'area = 1 ac, gallons = 20 gal/ac, mix = 1 percent, yearly_max = 1.5 lb/ac, '
          .. 'hours = 4 h }',
      quiet = spray },
    { layer = "base", name = "herbicide, no maximum entered",
      fires = leaves:format("Field", "glyphosate", ""),
      quiet = leaves:format("Field", "glyphosate", ", yearly_max = 8 lb/ac, date = Jun 22 2027")
          .. leaves:format("Field", "glyphosate", ", date = Aug 24 2027") },
}

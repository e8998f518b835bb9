--- Active ingredients of herbicides for brush: facts that the arithmetic and the cautions
--- rest on. The label of the product at hand stands above all of it. Strengths are pounds of
--- acid equivalent in a gallon; `usual` is the share of the product in the finished mix,
--- lowest and highest, by method. "Found" was read in the text named, "from memory" was not.
return {
  ["glyphosate"] = {
    strength = 3, strength_source = "a product of 41 percent: 4 lb of salt, 3 lb of acid in a gallon; EPA label texts (found); an older one has 2.8",
    aquatic_strength = 4, aquatic_strength_source = "a product of 53.8 percent, the usual one for aquatic sites: 4 lb of acid in a gallon; EPA label 2018 (found)",
    usual = {
      foliar = { 1, 2, source = "labels, from memory" },
      stump = { 50, 50, source = "half product, half water: restoration records, southern Wisconsin, 2017 (found)" },
    },
    aquatic = "some", reentry = "4 to 12 hours", reentry_source = "from memory",
  },
  ["triclopyr ester"] = {
    strength = 4, strength_source = "a product of 61.6 percent: 4 lb of acid in a gallon; EPA label text (found)",
    usual = {
      foliar = { 1, 2, source = "labels, from memory" },
      stump = { 20, 20, source = "20 percent in oil, on the cut and the bark below it: restoration records, southern Wisconsin, 2017 (found)" },
      basal = { 10, 20, source = "low volume, in basal or plant oil: Pacific Northwest weed handbook (found)" },
    },
    ester = true, oil = { stump = true, basal = true },
    aquatic = "none", aquatic_words = "toxic to fish, and not for water or where water stands: EPA label text (found)",
    reentry = "12 hours", reentry_source = "from memory",
  },
  ["triclopyr amine"] = {
    strength = 3, strength_source = "a product of 44.4 percent: 3 lb of acid in a gallon; from memory",
    usual = {
      foliar = { 1, 2, source = "labels, from memory" },
      stump = { 15, 15, source = "15 percent in water: restoration records, southern Wisconsin, 2017 (found)" },
    },
    aquatic = "some", reentry = "48 hours", reentry_source = "from memory",
  },
  ["imazapyr"] = { soil_active = true, aquatic = "some", source = "from memory" },
  ["picloram"] = { soil_active = true, aquatic = "none", aquatic_words = "moves with water through the soil: from memory", source = "from memory" },
  ["hexazinone"] = { soil_active = true, aquatic = "none", aquatic_words = "moves with water through the soil: from memory", source = "from memory" },
  ["aminopyralid"] = { soil_active = true, source = "from memory" },
  ["clopyralid"] = { soil_active = true, source = "from memory" },
  ["metsulfuron"] = { soil_active = true, source = "from memory" },
  ["dicamba"] = { soil_active = true, source = "from memory" },
  ["tebuthiuron"] = { soil_active = true, source = "from memory" },
  ["bromacil"] = { soil_active = true, source = "from memory" },
}

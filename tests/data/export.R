# Writes open stands as CSV into a folder, in feet and inches, for the tests of the cruise:
#     Rscript tests/data/export.R FOLDER
# trees: 31 felled black cherries (Ryan, Joiner and Ryan 1976, shipped with R);
# longleaf: longleaf pines of 4 ha in Georgia (Platt, Evans and Rathbun 1988);
# lansing: trees of 19.6 ac in Michigan by species, without diameters (Gerrard 1969);
# spruces: 56 x 38 m in Saxony; waka: 1 ha in Gabon. All but the first are of the package
# spatstat.data. The data are not ours: nothing of them is kept in the source tree.
folder <- commandArgs(trailingOnly = TRUE)[1]
data(trees, package = "datasets")
data(longleaf, lansing, spruces, waka, package = "spatstat.data")
dir.create(folder, recursive = TRUE, showWarnings = FALSE)
foot <- 0.3048
inch <- 0.0254

# The first row is the size of the ground; then a tree a row.
stand <- function(name, pattern, to_foot, species, diameter) {
  across <- diff(pattern$window$xrange) * to_foot
  up <- diff(pattern$window$yrange) * to_foot
  rows <- sprintf("%.10g,%.10g,%.10g,%s", (pattern$x - pattern$window$xrange[1]) * to_foot,
                  (pattern$y - pattern$window$yrange[1]) * to_foot, diameter, species)
  writeLines(c(sprintf("%.10g,%.10g,0,ground", across, up), rows),
             file.path(folder, paste0(name, ".csv")))
}

stand("longleaf", longleaf, 1 / foot, "longleaf", longleaf$marks / 100 / inch)
stand("spruces", spruces, 1 / foot, "spruce", spruces$marks / inch)
stand("waka", waka, 1 / foot, "tree", waka$marks / 100 / inch)
# Its trees have no diameters: all are given 10 in, and only counted.
stand("lansing", lansing, lansing$window$units$multiplier, lansing$marks, 10)
writeLines(sprintf("%.10g,%.10g,%.10g,cherry", trees$Volume, trees$Height, trees$Girth),
           file.path(folder, "trees.csv"))

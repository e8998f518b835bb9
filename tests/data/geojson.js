// Reads a GeoJSON file as libraries that are not ours have it (geojson-validation, MIT, and
// turf, MIT):
//     node geojson.js FOLDER FILE
// FOLDER/node_modules holds them. Prints "fine" or what is wrong with it, then a line for each
// feature: kind, name, geometry, square meters on a sphere (areas), corners or points, parted
// by tabs.
const fs = require("fs");
const path = require("path");
const [folder, file] = process.argv.slice(2);
const library = (name) => require(path.resolve(folder, "node_modules", name));
const { isFeatureCollection } = library("geojson-validation");
const { area } = library("@turf/area");
const { booleanClockwise } = library("@turf/boolean-clockwise");

const read = JSON.parse(fs.readFileSync(file, "utf8"));
const troubles = isFeatureCollection(read, true);
const polygons = (g) =>
  g.type === "Polygon" ? [g.coordinates] : g.type === "MultiPolygon" ? g.coordinates : [];

// RFC 7946, 3.1.6: outer rings run counterclockwise, holes clockwise.
for (const feature of read.features) {
  for (const rings of polygons(feature.geometry)) {
    rings.forEach((ring, i) => {
      if (booleanClockwise(ring) !== i > 0) {
        troubles.push(`ring ${i} of ${feature.properties.name} runs the wrong way`);
      }
    });
  }
}
console.log(troubles.length === 0 ? "fine" : troubles.join("; "));
for (const feature of read.features) {
  const { type, coordinates } = feature.geometry;
  const shown = [feature.properties.kind, feature.properties.name, type];
  shown.push(polygons(feature.geometry).length ? area(feature).toFixed(2) : "");
  const depth = { Point: 0, MultiPoint: 1, LineString: 1, MultiLineString: 2, Polygon: 2,
    MultiPolygon: 3 }[type];
  shown.push(type === "Point" ? coordinates.join(" ") : coordinates.flat(depth - 1).length);
  console.log(shown.join("\t"));
}

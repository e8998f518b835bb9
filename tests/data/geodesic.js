// Writes outlines with their areas and perimeters on the WGS84 ellipsoid, as a library of
// geodesics in another language has them (geographiclib-geodesic, MIT, C. Karney):
//     node geodesic.js FOLDER
// FOLDER/node_modules holds it; FOLDER/geodesic.txt is written: for each outline a line
// "corners square_meters meters", then a line "longitude latitude" for each corner.
const fs = require("fs");
const folder = process.argv[2];
const { Geodesic } = require(
  require("path").resolve(folder, "node_modules/geographiclib-geodesic"));

let seed = 20261014;
function chance() {
  seed = (Math.imul(seed, 1103515245) + 12345) & 0x7fffffff;
  return seed / 0x80000000;
}

const lines = [];
for (let i = 0; i < 300; i++) {
  const lat = 42 + 7 * chance();
  const lon = -97 + 30 * chance();
  const corners = 3 + Math.floor(40 * chance());
  const walk = Geodesic.WGS84.Polygon(false);
  const rows = [];
  for (let k = 0; k < corners; k++) {
    const far = (0.2 + 0.8 * chance()) * 2.5 * 1609.344; // half of five miles
    const corner = Geodesic.WGS84.Direct(lat, lon, (360 * k) / corners, far);
    const at = [corner.lon2.toFixed(9), corner.lat2.toFixed(9)];
    walk.AddPoint(Number(at[1]), Number(at[0]));
    rows.push(at.join(" "));
  }
  const got = walk.Compute(true, true); // clockwise as walked
  lines.push(`${corners} ${got.area} ${got.perimeter}`, ...rows);
}
fs.writeFileSync(folder + "/geodesic.txt", lines.join("\n") + "\n");

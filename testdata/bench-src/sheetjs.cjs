// Reads the workbooks named with SheetJS (package xlsx of the npm registry) and
// prints how many cells hold a value or a formula. NODE_PATH says where the
// package is.
const fs = require("fs");
const XLSX = require("xlsx");

let values = 0;
for (const path of process.argv.slice(2)) {
  const book = XLSX.read(fs.readFileSync(path), { type: "buffer", dense: true, cellText: false, cellHTML: false });
  for (const name of book.SheetNames) {
    for (const row of book.Sheets[name]["!data"] ?? book.Sheets[name]) {
      for (const cell of row ?? []) {
        if (cell !== undefined && (cell.v !== undefined || cell.f !== undefined)) values++;
      }
    }
  }
}
console.log(values);

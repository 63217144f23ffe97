// Judges glTF files by the validator of the format's own publishers.
//
// Usage: gltf.js FOLDER, with files NAME.glb in it. Prints one JSON object, by NAME: how many errors and warnings the
// validator has, its first messages, and how many triangles it counts. Judges nothing itself.

const fs = require("fs");
const path = require("path");
const validator = require("gltf-validator");

async function main(folder) {
  const told = {};
  for (const name of fs.readdirSync(folder).filter(name => name.endsWith(".glb")).sort()) {
    const bytes = new Uint8Array(fs.readFileSync(path.join(folder, name)));
    const { issues, info } = await validator.validateBytes(bytes);
    const messages = issues.messages.slice(0, 3).map(({ code, pointer }) => `${code} ${pointer}`);
    told[path.basename(name, ".glb")] = { errors: issues.numErrors, warnings: issues.numWarnings, messages, triangles: info.totalTriangleCount };
  }
  console.log(JSON.stringify(told));
}

main(process.argv[2]);

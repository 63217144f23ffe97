// Folds traywright FOLD files with an origami library that knows no tray.
//
// Usage: fold.js FOLDER, with files NAME.fold in it. Prints one JSON object, by NAME: how far in mm the file's folded
// form is from where the library folds its key frame to (null without a folded form), and what the library's own
// judgement of the key frame is. Judges nothing itself.

const fs = require("fs");
const path = require("path");
const ear = require("rabbit-ear");

function look(file) {
  const { file_frames: frames = [], ...flat } = file;
  const { summary } = ear.graph.validate(structuredClone(flat));
  // The library folds about edges: with a hinge off the middle of the card only the key frame is judged.
  if (frames.length === 0 || !frames[0].frame_inherit) return { apart: null, summary };
  const faces_faces = ear.graph.makeFacesFaces(flat);
  const places = ear.graph.makeVerticesCoordsFolded({ ...flat, faces_faces }, 0);
  const said = frames[0].vertices_coords;
  const steps = places.flatMap((place, vertex) => place.map((length, axis) => Math.abs(length - said[vertex][axis])));
  return { apart: steps.reduce((most, step) => Math.max(most, step), 0), summary };
}

const folder = process.argv[2];
const seen = {};
for (const name of fs.readdirSync(folder).sort()) {
  const words = fs.readFileSync(path.join(folder, name), "utf8");
  seen[path.parse(name).name] = look(JSON.parse(words));
}
console.log(JSON.stringify(seen));

// Folds trays by `fold.js` and compares every corner with the folded form of their FOLD files, which come from the document's
// own poses. Arguments: the folder of the scripts, then a page and a FOLD file for each tray. Prints one object a tray.
import { readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { sceneOf } from './scene.mjs';

const [web, ...files] = process.argv.slice(2);
const { lie, moved, poses, stages, turnsToStand } = await import(pathToFileURL(`${web}/fold.js`));
const told = [];
for (let i = 0; i < files.length; i += 2) told.push(judge(sceneOf(files[i]), JSON.parse(readFileSync(files[i + 1], 'utf8'))));
console.log(JSON.stringify(told));

function judge(scene, fold) {
  const all = stages(scene), last = poses(scene.panels, all.at(-1).angles);
  const byName = new Map(scene.panels.map((panel, index) => [panel.name, last[index]]));
  const folded = fold.file_frames[0], names = fold['faces_traywright:name'];
  let worst = 0, corners = 0;
  fold.faces_vertices.forEach((face, index) => {
    const there = (folded.faces_vertices ?? fold.faces_vertices)[index];
    face.forEach((vertex, k) => {
      const [x, y] = fold.vertices_coords[vertex], place = moved(byName.get(names[index]), [x, y, 0]);
      const expected = folded.vertices_coords[there[k]];
      worst = Math.max(worst, ...place.map((value, axis) => Math.abs(value - expected[axis])));
      corners += 1;
    });
  });
  return { corners, worst, panels: new Set(names).size, apart: folded.frame_inherit === false, rigid: rigid(scene, all), stands: stands(scene) };
}

/** How far any pose between two stages is from being a rotation. */
function rigid(scene, all) {
  let off = 0;
  for (const { angles } of all) {
    for (const { r } of poses(scene.panels, angles.map(angle => 0.37 * angle))) {
      for (let i = 0; i < 3; i++) {
        for (let j = 0; j < 3; j++) {
          const dot = r[3 * i] * r[3 * j] + r[3 * i + 1] * r[3 * j + 1] + r[3 * i + 2] * r[3 * j + 2];
          off = Math.max(off, Math.abs(dot - (i === j ? 1 : 0)));
        }
      }
    }
  }
  return off;
}

/** In the box, up is up. */
function stands(scene) {
  const world = lie(scene, turnsToStand(scene));
  return scene.up * world.r[8];
}

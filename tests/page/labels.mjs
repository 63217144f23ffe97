// Where labels and pictures lie in folded trays, by the scripts that fold them. Arguments: the folder of the scripts, then a page for each
// tray. Prints for each page its labels, then its pictures: the panel's name, the way to the top of the words, the way out of the face that
// shows them the right way round, and how far the middle of the words lies from the middle of the tray, all as it stands.
import { pathToFileURL } from 'node:url';
import { sceneOf } from './scene.mjs';

const [web, ...files] = process.argv.slice(2);
const { joined, lie, moved, poses, stages, turnsToStand } = await import(pathToFileURL(`${web}/fold.js`));
console.log(JSON.stringify(files.map(file => judge(sceneOf(file)))));

function judge(scene) {
  const world = lie(scene, turnsToStand(scene)), last = poses(scene.panels, stages(scene).at(-1).angles);
  const motions = last.map(motion => joined(world, motion)), points = [];
  scene.panels.forEach(({ rings }, panel) => {
    for (let i = 0; i < rings[0].length; i += 2) points.push(moved(motions[panel], [rings[0][i], rings[0][i + 1], 0]));
  });
  const middle = [0, 1, 2].map(axis => (Math.min(...points.map(point => point[axis])) + Math.max(...points.map(point => point[axis]))) / 2);
  const pictures = (scene.pictures ?? []).map(({ panel, at, across, up, drawn }) => ({
    panel, drawn, at: at.map((value, axis) => value + (across[axis] + up[axis]) / 2), along: unit(across), up: unit(up),
  }));
  return [...(scene.labels ?? []), ...pictures].map(({ panel, at, along, up, drawn }) => {
    const place = moved(motions[panel], [...at, 0]), way = ([x, y]) => moved(motions[panel], [at[0] + x, at[1] + y, 0]).map((value, axis) => value - place[axis]);
    const [right, top] = [way(along), way(up)];
    // Words that are read run to the right of their top; so the reader's eye is where right, top and eye are right-handed.
    const eye = [right[1] * top[2] - right[2] * top[1], right[2] * top[0] - right[0] * top[2], right[0] * top[1] - right[1] * top[0]];
    return { panel: scene.panels[panel].name, drawn, top, eye, aside: place.map((value, axis) => value - middle[axis]) };
  });
}

function unit(way) {
  return way.map(part => part / Math.hypot(...way));
}

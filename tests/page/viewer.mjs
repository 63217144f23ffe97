// Runs the viewer over a page made of plain objects: its words, its keys, its motion, and the pixels that it draws.
// Arguments: the folder of the scripts, and a page of a tray. Prints what was found.
import { pathToFileURL } from 'node:url';
import { sceneOf, wordsOf } from './scene.mjs';

const [web, file] = process.argv.slice(2), load = name => import(pathToFileURL(`${web}/${name}`));
const { viewer, show, go, render } = await load('viewer.js'), { painter, prism, view } = await load('space.js');
const SIZE = [360, 300];

/** An element as far as the viewer needs one. */
function element() {
  const heard = {}, said = new Map();
  return {
    children: [], text: '', disabled: false, value: '0', clientWidth: SIZE[0], clientHeight: SIZE[1], painted: null,
    addEventListener(name, act) { (heard[name] ??= []).push(act); },
    send(name, event = {}) { for (const act of heard[name] ?? []) act({ preventDefault() {}, ...event }); },
    setAttribute(name, value) { said.set(name, value); },
    removeAttribute(name) { said.delete(name); },
    attribute: name => said.get(name),
    append(...kids) { this.children.push(...kids); },
    replaceChildren(...kids) { this.children = kids; },
    get firstChild() { return this.children[0]; },
    get textContent() { return this.text + this.children.map(kid => kid.textContent ?? kid).join(''); },
    set textContent(text) { this.text = text; this.children = []; },
    getContext() {
      return {
        createImageData: (width, height) => ({ width, height, data: new Uint8ClampedArray(4 * width * height) }),
        putImageData: image => { this.painted = { ...image, data: image.data.slice() }; },
      };
    },
  };
}

let frames = [];
function browser(calm) {
  const parts = {};
  frames = [];
  globalThis.requestAnimationFrame = act => frames.push(act);
  globalThis.ResizeObserver = class { observe() {} };
  globalThis.devicePixelRatio = 1;
  return { getElementById: id => parts[id] ??= element(), createElement: element, defaultView: { matchMedia: () => ({ matches: calm }) }, parts };
}

/** Runs all frames, and what stood in between. */
function run(me, limit = 400) {
  const stood = [];
  for (let time = 0; frames.length > 0 && time < limit; time++) {
    for (const act of frames.splice(0)) act(1000 + 50 * time);
    stood.push(me.at);
  }
  return stood;
}

const scene = sceneOf(file), words = wordsOf(file), found = {};
found.steps = scene.steps.length;
{
  const page = browser(false), me = viewer(page, words);
  show(me, scene);
  run(me);
  found.last = page.parts.when.attribute('aria-valuetext');
  page.parts.when.send('keydown', { key: 'Home' });
  found.goneHome = run(me).length;
  found.first = page.parts.when.attribute('aria-valuetext');
  // Keys with Ctrl, Alt or the command key are the browser's.
  page.parts.when.send('keydown', { key: 'ArrowRight', altKey: true });
  page.parts.space.send('keydown', { key: '0', ctrlKey: true });
  page.parts.space.send('keydown', { key: 'ArrowLeft', metaKey: true });
  found.forBrowser = frames.length;
  page.parts.when.send('keydown', { key: 'ArrowRight' });
  const stood = run(me);
  found.between = stood.filter(at => at > 0 && at < 1).length;
  found.second = page.parts.when.attribute('aria-valuetext');
  found.current = page.parts.steps.children.map(item => item.firstChild.attribute('aria-current') ?? '');
  found.listed = page.parts.steps.children.map(item => item.textContent);
  page.parts.play.send('click');
  found.stop = page.parts.play.textContent;
  page.parts.play.send('click');
  found.play = page.parts.play.textContent;
}
{
  const page = browser(true), me = viewer(page, words);
  show(me, scene);
  run(me);
  go(me, 0);
  go(me, 3);
  const stood = run(me);
  found.calm = [...new Set([me.at, ...stood])];
}
{
  const page = browser(false), me = viewer(page, words), colours = at => {
    me.at = at;
    render(me);
    return counted(page.parts.space.painted);
  };
  show(me, scene);
  found.flatYellow = yellow(colours(0));
  found.fullYellow = yellow(colours(scene.steps.length));
  found.blue = blue(colours(0.6));
}
Object.assign(found, blocks());
console.log(JSON.stringify(found));

function counted({ data }) {
  const all = new Map();
  for (let i = 0; i < data.length; i += 4) {
    const key = data[i] << 16 | data[i + 1] << 8 | data[i + 2];
    all.set(key, (all.get(key) ?? 0) + 1);
  }
  return all;
}

function sum(all, is) {
  let total = 0;
  for (const [key, count] of all) if (is(key >> 16, key >> 8 & 255, key & 255)) total += count;
  return total;
}

function yellow(all) {
  return sum(all, (red, green, blue) => red > 200 && green > 170 && blue < 140);
}

function blue(all) {
  return sum(all, (red, green, blue) => blue > 180 && blue > red + 40);
}

/** Three plates above one another, seen from above: what lies below is not seen, and each edge is one unbroken line. */
function blocks() {
  const canvas = element(), paint = painter(canvas, [255, 255, 255]), plate = side => ({ rings: [[-side, -side, side, -side, side, side, -side, side]], triangles: [0, 1, 2, 0, 2, 3] });
  const solid = (side, low, high, colour) => ({ mesh: prism(plate(side), low, high), colours: [colour, colour, colour], ink: [0, 0, 0] });
  // The uppermost is drawn first, so that depth and not order decides.
  const things = [solid(6, 2, 2.3, [0, 0, 255]), solid(10, 0, 0.3, [0, 255, 0]), solid(10, -5, -4.7, [255, 0, 0])];
  const draw = pitch => {
    paint.frame(2, aspect => view({ yaw: 0, pitch, zoom: 1 }, { least: [-10, -10, -5], most: [10, 10, 2.3] }, aspect), things.map(thing => ({ ...thing })));
    return canvas.painted;
  };
  const above = counted(draw(Math.PI / 2 - 1e-9));
  const from = { red: sum(above, (red, green, blue) => red > 120 && green < 60 && blue < 60), green: sum(above, (red, green, blue) => green > 120 && red < 60 && blue < 60), blue: sum(above, (red, green, blue) => blue > 120 && red < 60 && green < 60) };
  return { from, gaps: gaps(draw(0.5)) };
}

/** Rows in which the dark line at the left end of the picture is broken, of those between its ends. */
function gaps({ width, height, data }) {
  const first = [];
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width / 2; x++) {
      const i = 4 * (y * width + x);
      if (data[i] < 250 || data[i + 1] < 250 || data[i + 2] < 250) {
        let least = 255 * 3;
        for (let k = 0; k < 5; k++) least = Math.min(least, data[i + 4 * k] + data[i + 4 * k + 1] + data[i + 4 * k + 2]);
        first.push(least);
        break;
      }
    }
  }
  const inner = first.slice(3, -3);
  return { rows: inner.length, broken: inner.filter(least => least > 150).length };
}

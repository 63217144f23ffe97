// The picture of a tray with its slider and its list of steps. Input: a page with the elements named below, words, a scene.
import { between, joined, lie, moved, poses, shift, stages } from './fold.js';
import { lettering, print } from './decal.js';
import { painter, prism, view } from './space.js';

const PAPER = [250, 247, 240], INK = [34, 32, 30], ORANGE = [230, 159, 0], BROWN = [110, 84, 48];
/** Faces by their place in a prism: above, below, around. */
const INNER = [255, 253, 246], OUTER = [226, 222, 212], RIM = [238, 233, 222];
const MOVED = [[168, 211, 240], [141, 187, 220], [150, 196, 228]];
const ITEM = [[246, 225, 120], [236, 212, 104], [240, 217, 110]], PAD = [[214, 178, 140], [204, 168, 130], [208, 172, 134]];
const WOOD = [[232, 220, 196], [237, 227, 207], [224, 212, 189]];
/** Milliseconds of one step when the page folds by itself. */
const STEP_MS = 900;
/** A frame that takes longer than this is drawn with fewer pixels while something moves, in milliseconds. */
const SLOW_MS = 24;
/** More arrows than this hide what they point at. */
const MOST_ARROWS = 4;
const FIRST_LOOK = { yaw: 0.55, pitch: 0.66, zoom: 1 };

/** The JSON in an element. */
export function data(id) {
  return JSON.parse(document.getElementById(id).textContent);
}

/** A viewer over the elements of a page: space, what, why, when, back, next, play, steps. */
export function viewer(page, words) {
  const part = id => page.getElementById(id);
  const parts = { space: part('space'), what: part('what'), why: part('why'), when: part('when'), back: part('back'), next: part('next'), play: part('play'), steps: part('steps') };
  const calm = page.defaultView.matchMedia('(prefers-reduced-motion: reduce)');
  const me = { page, words, parts, calm, paint: painter(parts.space, PAPER), look: { ...FIRST_LOOK }, at: 0, wish: null, last: 0, cost: 0, hands: new Map(), asked: false };
  parts.when.addEventListener('input', () => { me.wish = null; stand(me, Number(parts.when.value)); });
  parts.when.addEventListener('keydown', event => slide(me, event));
  parts.back.addEventListener('click', () => go(me, Math.ceil(goal(me)) - 1));
  parts.next.addEventListener('click', () => go(me, Math.floor(goal(me)) + 1));
  parts.play.addEventListener('click', () => play(me));
  drag(me);
  new ResizeObserver(() => draw(me)).observe(parts.space);
  return me;
}

/** Shows a scene; where one was shown before, at the same step. */
export function show(me, scene) {
  const was = me.scene, ended = was && me.at >= was.steps.length;
  me.scene = scene;
  me.stages = stages(scene);
  me.things = things(scene, me.page);
  me.bounds = me.stages.map((stage, index) => bounds(me, stage, index));
  const count = scene.steps.length;
  me.parts.when.max = count;
  me.parts.steps.replaceChildren(...scene.steps.map((step, index) => entry(me, step, index)));
  me.wish = null;
  stand(me, !was || ended ? count : Math.min(me.at, count));
}

function entry(me, step, index) {
  const item = me.page.createElement('li'), button = me.page.createElement('button');
  button.type = 'button';
  if (step.who) {
    const who = me.page.createElement('b');
    who.textContent = step.who;
    button.append(who, ' ');
  }
  button.append(step.words);
  button.addEventListener('click', () => {
    // A step is shown from its beginning.
    if (me.at < index || me.at >= index + 1) me.at = index;
    go(me, index + 1);
  });
  item.append(button);
  return item;
}

/** Goes to a step, in motion unless the reader wants none. */
export function go(me, to) {
  if (!me.scene) return;
  const wish = Math.max(0, Math.min(me.scene.steps.length, to));
  if (me.calm.matches) {
    me.wish = null;
    stand(me, wish);
    return;
  }
  const rests = me.wish === null;
  me.wish = wish;
  if (rests) {
    me.last = 0;
    requestAnimationFrame(time => tick(me, time));
  }
  label(me);
}

function goal(me) {
  return me.wish ?? me.at;
}

function play(me) {
  if (me.wish !== null) {
    me.wish = null;
    label(me);
    return;
  }
  const count = me.scene.steps.length;
  if (me.calm.matches) {
    go(me, me.at >= count ? 0 : Math.floor(me.at) + 1);
    return;
  }
  if (me.at >= count) me.at = 0;
  go(me, count);
}

function label(me) {
  me.parts.play.textContent = me.wish === null || me.calm.matches ? me.words.play : me.words.stop;
}

function tick(me, time) {
  if (me.wish === null) {
    stand(me, me.at);
    return;
  }
  const passed = Math.min(60, me.last ? time - me.last : 16), way = me.wish - me.at, step = passed / STEP_MS;
  me.last = time;
  const arrived = Math.abs(way) <= step;
  const at = arrived ? me.wish : me.at + Math.sign(way) * step;
  if (arrived) me.wish = null;
  stand(me, at);
  if (!arrived) requestAnimationFrame(next => tick(me, next));
}

/** Keys on the slider go by whole steps. */
function slide(me, event) {
  if (isForBrowser(event)) return;
  const at = goal(me), count = me.scene.steps.length;
  const to = { ArrowRight: Math.floor(at) + 1, ArrowUp: Math.floor(at) + 1, PageUp: Math.floor(at) + 1, ArrowLeft: Math.ceil(at) - 1, ArrowDown: Math.ceil(at) - 1, PageDown: Math.ceil(at) - 1, Home: 0, End: count }[event.key];
  if (to === undefined) return;
  event.preventDefault();
  go(me, to);
}

/** Stands at a place between two stages, in picture and words. */
function stand(me, at) {
  const { parts, scene, words } = me;
  me.at = at;
  const index = Math.ceil(at) - 1, step = scene.steps[index];
  const told = step ? [step.who, step.words].filter(Boolean).join(': ') : words.flat;
  const full = step ? words.step.replace('{n}', index + 1).replace('{count}', scene.steps.length).replace('{words}', () => told) : told;
  parts.when.value = at;
  // A slider is asked for its text when it stops; in between it says the step that goes on.
  parts.when.setAttribute('aria-valuetext', full);
  if (parts.what.textContent !== full) parts.what.textContent = full;
  if (parts.why.textContent !== (step?.why ?? '')) parts.why.textContent = step?.why ?? '';
  [...parts.steps.children].forEach((item, i) => {
    if (i === index) item.firstChild.setAttribute('aria-current', 'step');
    else item.firstChild.removeAttribute('aria-current');
  });
  parts.back.disabled = at <= 0;
  parts.next.disabled = at >= scene.steps.length;
  label(me);
  draw(me);
}

/** Draws at the next frame, once. */
function draw(me) {
  if (!me.scene || !me.paint || me.asked) return;
  me.asked = true;
  requestAnimationFrame(() => {
    me.asked = false;
    render(me);
  });
}

/** Draws now. */
export function render(me) {
  const moves = me.wish !== null || me.hands.size > 0;
  const dense = Math.min(2, Math.max(1.5, devicePixelRatio));
  const pixels = moves && me.cost > SLOW_MS ? 1 : dense;
  const began = performance.now(), [drawn, reach] = seen(me);
  me.paint.frame(pixels, aspect => view(me.look, reach, aspect), drawn);
  if (pixels === dense) me.cost = 0.7 * me.cost + 0.3 * (performance.now() - began);
}

/** What is seen at this moment, and between which corners. */
function seen(me) {
  const { scene } = me, index = Math.max(0, Math.ceil(me.at) - 1), next = Math.min(index + 1, me.stages.length - 1);
  const part = ease(me.at - index), [one, other] = [me.stages[index], me.stages[next]];
  const now = between(one, other, part), here = poses(scene.panels, now.angles);
  const fold = me.at > 0 ? scene.steps[index]?.action.fold ?? [] : [], moving = new Set(fold.map(([panel]) => panel));
  const world = table(scene, now), drawn = me.things.panels.map((thing, panel) => {
    const colours = moving.has(panel) ? thing.moved : thing.still;
    return { ...thing, colours, motion: joined(world, here[panel]), angles: now.angles, arrow: null };
  });
  for (const [panel] of (fold.length > MOST_ARROWS ? [] : fold)) drawn[panel].arrow = arc(me, [one, other, part === 1 ? 0 : part], panel);
  if (now.placed > 0) {
    const high = scene.up * (1 - now.placed) * 1.6 * height(scene);
    for (const thing of me.things.items) drawn.push({ ...thing, motion: joined(world, shift(0, 0, high)) });
  }
  // The box comes from below, so that the tray stays where the eye has it.
  if (now.boxed > 0 && me.things.box) drawn.push({ ...me.things.box, motion: joined(shift(0, 0, -0.5 * (1 - now.boxed) * height(scene)), table(scene, other)) });
  // The picture grows before what it shows does.
  const [a, b] = [me.bounds[index], me.bounds[next]], mix = side => a[side].map((at, axis) => at + (b[side][axis] - at) * Math.sqrt(part));
  return [drawn, { least: mix('least'), most: mix('most') }];
}

/** How the tray lies on the table. */
function table(scene, { turned }) {
  return lie(scene, turned);
}

function height(scene) {
  return scene.box?.[2] ?? 0;
}

function ease(part) {
  const x = Math.max(0, Math.min(1, part));
  return x * x * (3 - 2 * x);
}

/** The way of a panel's free edge in a step, from a part of it on. */
function arc(me, [one, other, from], panel) {
  const { panels } = me.scene, point = farthest(panels[panel]), points = [];
  for (let i = 0; i <= 14; i++) {
    const stage = between(one, other, from + (1 - from) * i / 14);
    points.push(moved(joined(table(me.scene, stage), poses(panels, stage.angles)[panel]), point));
  }
  return { points, ink: ORANGE };
}

/** The middle of the edge that lies farthest from a panel's crease. */
function farthest({ rings, hinge }) {
  const [x0, y0, x1, y1] = hinge.line, length = Math.hypot(x1 - x0, y1 - y0), places = [];
  for (let i = 0; i < rings[0].length; i += 2) {
    const [x, y] = [rings[0][i], rings[0][i + 1]];
    places.push([x, y, Math.abs((x1 - x0) * (y - y0) - (y1 - y0) * (x - x0)) / length]);
  }
  const most = Math.max(...places.map(([, , away]) => away)), outer = places.filter(([, , away]) => away > 0.99 * most);
  return [0, 1].map(axis => outer.reduce((sum, place) => sum + place[axis], 0) / outer.length).concat(0);
}

/** The corners between which all is that is seen at a stage. */
function bounds(me, stage, index) {
  const { scene, stages: all } = me, least = [Infinity, Infinity, Infinity], most = least.map(value => -value);
  const take = point => point.forEach((value, axis) => { least[axis] = Math.min(least[axis], value); most[axis] = Math.max(most[axis], value); });
  const world = table(scene, stage), here = poses(scene.panels, stage.angles);
  scene.panels.forEach(({ rings }, panel) => {
    const motion = joined(world, here[panel]);
    for (let i = 0; i < rings[0].length; i += 2) take(moved(motion, [rings[0][i], rings[0][i + 1], 0]));
  });
  if (stage.boxed && me.things.box) corners(me.things.box.mesh).forEach(point => take(moved(world, point)));
  if (stage.placed || all[index + 1]?.placed) me.things.items.forEach(({ mesh }) => corners(mesh).forEach(point => take(moved(world, point))));
  return { least, most };
}

function corners({ points }) {
  return Array.from({ length: points.length / 3 }, (_, i) => [points[3 * i], points[3 * i + 1], points[3 * i + 2]]);
}

/** Panels, items with their pads, and the box as solids. */
function things(scene, page) {
  const half = scene.caliper / 2, faces = scene.outside ? [OUTER, INNER, RIM] : [INNER, OUTER, RIM];
  const thing = (mesh, colours, ink = INK) => ({ mesh, colours, ink });
  const panels = scene.panels.map((panel, index) => {
    const creases = scene.panels.flatMap(({ hinge }, other) => hinge && (other === index || hinge.parent === index) ? [[hinge.line, other]] : []);
    const mesh = prism(panel, -half, half, point => creases.find(([line]) => isOn(line, point))?.[1] ?? -1);
    const labels = (scene.labels ?? []).filter(label => label.panel === index);
    const prints = (scene.pictures ?? []).filter(picture => picture.panel === index).map(picture => print(picture, half));
    const decals = [...prints, ...labels.map(label => lettering(page, label, half)).filter(Boolean)];
    return { mesh, still: faces, moved: MOVED, ink: INK, decals };
  });
  const items = scene.items.flatMap(item => {
    const { at, size, pad } = item, [, , z] = at, foot = footprint(item);
    const solid = (low, high, colours) => thing(prism(foot, Math.min(low, high), Math.max(low, high)), colours);
    const own = [solid(z, z + scene.up * size[2], ITEM)];
    return pad > 0 ? [solid(z - scene.up * pad, z, PAD), ...own] : own;
  });
  return { panels, items, box: box(scene) };
}

function box({ box: inside, seat: [x, y, z], up }) {
  if (!inside) return null;
  const [l, w, h] = inside, ring = [x - l / 2, y - w / 2, x + l / 2, y - w / 2, x + l / 2, y + w / 2, x - l / 2, y + w / 2];
  const mesh = prism({ rings: [ring], triangles: [0, 1, 2, 0, 2, 3] }, Math.min(z, z + up * h), Math.max(z, z + up * h));
  return { mesh, colours: WOOD, ink: BROWN, inside: true };
}

/** The outline of an item as it lies. */
function footprint({ shape, size: [length, width], at: [x, y], along: [ax, ay] }) {
  const place = (u, v) => [x + u * ax - v * ay, y + u * ay + v * ax], [l, w] = [length / 2, width / 2];
  const round = Array.from({ length: 48 }, (_, i) => [l * Math.cos(i * Math.PI / 24), w * Math.sin(i * Math.PI / 24)]);
  const corners = shape === 'rectangle' ? [[-l, -w], [l, -w], [l, w], [-l, w]] : round;
  const triangles = corners.slice(2).flatMap((_, i) => [0, i + 1, i + 2]);
  return { rings: [corners.flatMap(([u, v]) => place(u, v))], triangles, smooth: shape !== 'rectangle' };
}

function isOn([x0, y0, x1, y1], [x, y]) {
  const length = Math.hypot(x1 - x0, y1 - y0), along = ((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / length;
  const aside = ((x1 - x0) * (y - y0) - (y1 - y0) * (x - x0)) / length;
  return Math.abs(aside) < 0.01 && along > -0.01 && along < length + 0.01;
}

/** Hands and keys on the picture turn and enlarge it. */
function drag(me) {
  const { space } = me.parts, { hands, look } = me;
  const turned = (yaw, pitch, zoom = 1) => {
    look.yaw += yaw;
    look.pitch = Math.max(-1.5, Math.min(1.5, look.pitch + pitch));
    look.zoom = Math.max(0.6, Math.min(4, look.zoom * zoom));
    draw(me);
  };
  space.addEventListener('pointerdown', event => {
    space.setPointerCapture(event.pointerId);
    hands.set(event.pointerId, [event.clientX, event.clientY]);
  });
  space.addEventListener('pointermove', event => {
    const old = hands.get(event.pointerId);
    if (!old) return;
    const now = [event.clientX, event.clientY], others = [...hands].filter(([id]) => id !== event.pointerId).map(([, place]) => place);
    hands.set(event.pointerId, now);
    if (others.length === 0) turned(-0.008 * (now[0] - old[0]), 0.008 * (now[1] - old[1]));
    else turned(0, 0, apart(now, others[0]) / Math.max(1, apart(old, others[0])));
  });
  for (const end of ['pointerup', 'pointercancel']) {
    space.addEventListener(end, event => { hands.delete(event.pointerId); draw(me); });
  }
  space.addEventListener('keydown', event => {
    if (isForBrowser(event)) return;
    const way = { ArrowLeft: [-0.1, 0], ArrowRight: [0.1, 0], ArrowUp: [0, 0.1], ArrowDown: [0, -0.1], '+': [0, 0, 1.15], '-': [0, 0, 1 / 1.15] }[event.key];
    if (event.key === '0') Object.assign(look, FIRST_LOOK);
    else if (!way) return;
    event.preventDefault();
    turned(...way ?? [0, 0]);
  });
}

/** Such keys go back, or enlarge the whole page. */
function isForBrowser(event) {
  return event.ctrlKey || event.altKey || event.metaKey;
}

function apart([ax, ay], [bx, by]) {
  return Math.hypot(ax - bx, ay - by);
}

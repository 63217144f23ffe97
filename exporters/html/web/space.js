// Solids drawn into a canvas: faces by depth at every pixel, then their edges as lines. The same picture in every browser.
// An edge is seen where a face beside it is seen, so that nothing is compared that differs by rounding alone.
import { lay } from './decal.js';
import { STILL } from './fold.js';

/** Edges of a solid: always drawn, or drawn where the solid ends to the eye; from CREASE on, the crease of a panel. */
const HARD = 0, SEAM = 1, CREASE = 2;
/** Corners of a ring turn by less than this where it is round, in radians. Derived: a circle of 24 chords turns by 0.262. */
const ROUND = 0.27;
/** Half the angle of the view. Source: a choice of this project; a lens that shows little perspective. */
const HALF_VIEW = 0.2;
/** Room around what is seen. */
const MARGIN = 1.06;
/** Nearer than this share, two depths are one. Derived: 0.05 mm at a distance of 0.5 m. */
const SAME_DEPTH = 1e-4;
/** Steps of a line before and after one that have a say in whether it is seen. */
const AROUND = 14;
/** A line ends at most so many steps beyond the last at which it is seen. */
const BESIDE = 3;

/** A prism between two heights over rings of corners (x, y, x, y, …), the outline first, with triangles that fill it. */
// The ends of a long oval turn by more than round corners of panels do: a smooth outline says that it has no corners.
export function prism({ rings, triangles, smooth = false }, low, high, creaseAt = () => -1) {
  const flat = rings.flat(), count = flat.length / 2;
  const points = new Float64Array(6 * count);
  for (let i = 0; i < count; i++) {
    points.set([flat[2 * i], flat[2 * i + 1], low, flat[2 * i], flat[2 * i + 1], high], 6 * i);
  }
  const normals = [0, 0, 1, 0, 0, -1], corners = [], owners = [], edges = [];
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [triangles[i], triangles[i + 1], triangles[i + 2]];
    corners.push(2 * a + 1, 2 * b + 1, 2 * c + 1, 2 * a, 2 * c, 2 * b);
    owners.push(0, 1);
  }
  let first = 0;
  for (const ring of rings) {
    const size = ring.length / 2, faces = normals.length / 3;
    for (let i = 0; i < size; i++) {
      const j = (i + 1) % size, a = 2 * (first + i), b = 2 * (first + j);
      const dx = ring[2 * j] - ring[2 * i], dy = ring[2 * j + 1] - ring[2 * i + 1], length = Math.hypot(dx, dy) || 1;
      const face = faces + i, before = faces + (i + size - 1) % size;
      normals.push(dy / length, -dx / length, 0);
      corners.push(a, b, b + 1, a, b + 1, a + 1);
      owners.push(face, face);
      const middle = [(ring[2 * i] + ring[2 * j]) / 2, (ring[2 * i + 1] + ring[2 * j + 1]) / 2];
      const crease = creaseAt(middle), kind = crease < 0 ? HARD : CREASE + crease;
      edges.push([a + 1, b + 1, 0, face, kind], [a, b, 1, face, kind], [a, a + 1, face, before, smooth || isRound(ring, i) ? SEAM : HARD]);
    }
    first += size;
  }
  return {
    points, corners: Int32Array.from(corners), owners: Int32Array.from(owners), normals: Float64Array.from(normals),
    edges: Int32Array.from(edges.flat()), places: new Float64Array(6 * count),
  };
}

function isRound(ring, i) {
  const size = ring.length / 2, at = k => [ring[2 * ((k + size) % size)], ring[2 * ((k + size) % size) + 1]];
  const [p, q, r] = [at(i - 1), at(i), at(i + 1)];
  const [ux, uy, vx, vy] = [q[0] - p[0], q[1] - p[1], r[0] - q[0], r[1] - q[1]];
  return Math.abs(Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)) < ROUND;
}

/** A view from an angle (radians), so near that what lies between two corners in space just fills the picture. */
export function view({ yaw, pitch, zoom }, { least, most }, aspect) {
  const [cy, sy, cp, sp] = [Math.cos(yaw), Math.sin(yaw), Math.cos(pitch), Math.sin(pitch)];
  const right = [cy, sy, 0], back = [sy * cp, -cy * cp, sp], up = [-sy * sp, cy * sp, cp];
  const middle = least.map((value, axis) => (value + most[axis]) / 2), open = Math.tan(HALF_VIEW) / MARGIN;
  let far = 1, nearest = 0;
  for (let corner = 0; corner < 8; corner++) {
    const away = middle.map((value, axis) => (corner >> axis & 1 ? most[axis] : least[axis]) - value);
    const along = way => way[0] * away[0] + way[1] * away[1] + way[2] * away[2], towards = along(back);
    far = Math.max(far, Math.abs(along(right)) / (open * aspect) + towards, Math.abs(along(up)) / open + towards);
    nearest = Math.max(nearest, towards);
  }
  // The eye stays outside, however much is enlarged.
  const distance = Math.max(far / zoom, 1.1 * nearest + 1);
  return { right, up, back, eye: middle.map((value, axis) => value + back[axis] * distance), scale: 1 / Math.tan(HALF_VIEW) };
}

/** Draws things into a canvas; null where the browser has no canvas. A thing is { mesh, motion, colours, ink }. */
export function painter(canvas, paper) {
  const on = canvas.getContext('2d');
  if (!on) return null;
  const drawing = { width: 0, height: 0, on, canvas, paper: packed(paper) };
  return {
    /** A frame of so many pixels to one of the page. */
    frame(pixels, look, things) {
      sized(drawing, pixels);
      const { width, height } = drawing;
      drawing.look = look(width / height);
      drawing.depth.fill(0);
      drawing.owner.fill(0);
      drawing.shades = [drawing.paper];
      for (const thing of things) {
        thing.first = drawing.shades.length;
        place(drawing, thing);
        fill(drawing, thing);
      }
      shade(drawing);
      const see = projection(drawing);
      for (const thing of things) for (const decal of thing.decals ?? []) lay(drawing, thing, decal, see, blend);
      for (const thing of things) outline(drawing, thing, pixels);
      for (const thing of things) if (thing.arrow) arrow(drawing, thing.arrow, pixels);
      on.putImageData(drawing.image, 0, 0);
    },
  };
}

function packed([red, green, blue]) {
  return (255 << 24 | blue << 16 | green << 8 | red) >>> 0;
}

function sized(drawing, pixels) {
  const { canvas, on } = drawing;
  const width = Math.max(1, Math.round(canvas.clientWidth * pixels)), height = Math.max(1, Math.round(canvas.clientHeight * pixels));
  if (width === drawing.width && height === drawing.height) return;
  Object.assign(drawing, { width, height, image: on.createImageData(width, height) });
  canvas.width = width;
  canvas.height = height;
  drawing.colour = new Uint32Array(drawing.image.data.buffer);
  drawing.depth = new Float32Array(width * height);
  drawing.owner = new Uint32Array(width * height);
}

/** The way from a place to the picture: x, y in pixels, and one over the distance, which is even across a face. */
function projection({ look, width, height }) {
  return { ...look, size: look.scale * height / 2, x: width / 2, y: height / 2 };
}

/** Places a thing's points in the picture, and finds which of its faces look at the eye. */
function place(drawing, thing) {
  const { mesh, motion = STILL } = thing, { r, t } = motion, { points, places, normals } = mesh;
  const see = projection(drawing), { right, up, back, eye: at, size } = see;
  for (let i = 0; i < points.length; i += 3) {
    const px = points[i], py = points[i + 1], pz = points[i + 2];
    const x = r[0] * px + r[1] * py + r[2] * pz + t[0] - at[0];
    const y = r[3] * px + r[4] * py + r[5] * pz + t[1] - at[1];
    const z = r[6] * px + r[7] * py + r[8] * pz + t[2] - at[2];
    const near = -1 / (back[0] * x + back[1] * y + back[2] * z);
    places[i] = see.x + size * near * (right[0] * x + right[1] * y + right[2] * z);
    places[i + 1] = see.y - size * near * (up[0] * x + up[1] * y + up[2] * z);
    places[i + 2] = near;
  }
  const count = normals.length / 3, front = thing.front = new Uint8Array(count);
  const some = corner(mesh);
  for (let face = 0; face < count; face++) {
    const nx = normals[3 * face], ny = normals[3 * face + 1], nz = normals[3 * face + 2];
    const x = r[0] * nx + r[1] * ny + r[2] * nz, y = r[3] * nx + r[4] * ny + r[5] * nz, z = r[6] * nx + r[7] * ny + r[8] * nz;
    const k = 3 * some[face], [px, py, pz] = [points[k], points[k + 1], points[k + 2]];
    const ex = at[0] - (r[0] * px + r[1] * py + r[2] * pz + t[0]), ey = at[1] - (r[3] * px + r[4] * py + r[5] * pz + t[1]);
    const ez = at[2] - (r[6] * px + r[7] * py + r[8] * pz + t[2]);
    front[face] = x * ex + y * ey + z * ez > 0 ? 1 : 0;
    // Light from above, over the left shoulder.
    const light = 0.9 + 0.1 * (-0.45 * x - 0.35 * y + 0.82 * z);
    const colour = thing.colours[Math.min(face, 2)];
    drawing.shades.push(packed(colour.map(part => Math.min(255, Math.round(part * light)))));
  }
}

/** A point of every face. */
function corner(mesh) {
  if (!mesh.some) {
    mesh.some = new Int32Array(mesh.normals.length / 3);
    mesh.owners.forEach((face, i) => { mesh.some[face] = mesh.corners[3 * i]; });
  }
  return mesh.some;
}

function fill(drawing, { mesh, front, first, inside }) {
  const { corners, owners, places } = mesh;
  for (let i = 0; i < owners.length; i++) {
    const face = owners[i];
    if (front[face] === (inside ? 1 : 0)) continue;
    triangle(drawing, places, 3 * corners[3 * i], 3 * corners[3 * i + 1], 3 * corners[3 * i + 2], first + face);
  }
}

/** Gives every pixel the colour of the face that it shows. */
function shade({ colour, owner, shades }) {
  const table = Uint32Array.from(shades);
  for (let i = 0; i < colour.length; i++) colour[i] = table[owner[i]];
}

/** Fills the pixels whose middle lies in a triangle. Two triangles with a common side leave no pixel out and share none. */
function triangle({ width, height, depth, owner }, places, a, b, c, own) {
  // Downwards; of two at one height that with the smaller number first, so that a common side is computed in one way.
  const below = (p, q) => places[p + 1] > places[q + 1] || places[p + 1] === places[q + 1] && p > q;
  if (below(a, b)) [a, b] = [b, a];
  if (below(b, c)) [b, c] = [c, b];
  if (below(a, b)) [a, b] = [b, a];
  const ax = places[a], ay = places[a + 1], ad = places[a + 2], bx = places[b], by = places[b + 1], cx = places[c], cy = places[c + 1];
  const area = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay);
  if (area === 0) return;
  const bd = places[b + 2] - ad, cd = places[c + 2] - ad;
  const dx = (bd * (cy - ay) - cd * (by - ay)) / area, dy = (cd * (bx - ax) - bd * (cx - ax)) / area;
  const top = Math.max(0, Math.ceil(ay - 0.5)), foot = Math.min(height, Math.ceil(cy - 0.5));
  const long = (cx - ax) / (cy - ay), upper = (bx - ax) / (by - ay), lower = (cx - bx) / (cy - by);
  for (let y = top; y < foot; y++) {
    const middle = y + 0.5;
    const one = ax + long * (middle - ay), other = middle < by ? ax + upper * (middle - ay) : bx + lower * (middle - by);
    const from = Math.max(0, Math.ceil(Math.min(one, other) - 0.5)), till = Math.min(width, Math.ceil(Math.max(one, other) - 0.5));
    let near = ad + dx * (from + 0.5 - ax) + dy * (middle - ay);
    for (let i = y * width + from, end = y * width + till; i < end; i++, near += dx) {
      if (near > depth[i]) {
        depth[i] = near;
        owner[i] = own;
      }
    }
  }
}

/** Draws the edges of a thing that are seen. */
function outline(drawing, { mesh, front, first, ink, inside, angles }, pixels) {
  const { edges, places } = mesh;
  for (let i = 0; i < edges.length; i += 5) {
    const one = edges[i + 2], other = edges[i + 3], kind = edges[i + 4];
    // Of what is open to the eye the far sides are seen, and the near ones are glass.
    const sides = inside ? [1 - front[one], 1 - front[other]] : [front[one], front[other]];
    const glass = inside && !sides[0] && !sides[1];
    if (!glass && (kind === SEAM ? sides[0] === sides[1] : !sides[0] && !sides[1])) continue;
    const faces = glass ? null : [sides[0] ? first + one : 0, sides[1] ? first + other : 0];
    // A crease that is not folded yet is a faint line.
    const [width, strength] = kind >= CREASE && angles[kind - CREASE] === 0 ? [0.8, 0.4] : [1.15, glass ? 0.6 : 1];
    line(drawing, places, [3 * edges[i], 3 * edges[i + 1]], { faces, ink, width: width * pixels, strength });
  }
}

let runs = new Uint8Array(1024), smooth = new Float32Array(1024);

/** A line between two places, with soft sides, where one of its faces is seen beside it or nothing lies before it. */
function line(drawing, places, [a, b], pen) {
  const { width, height } = drawing;
  let [ax, ay, ad, bx, by, bd] = [places[a], places[a + 1], places[a + 2], places[b], places[b + 1], places[b + 2]];
  const steep = Math.abs(by - ay) > Math.abs(bx - ax);
  if (steep) [ax, ay, bx, by] = [ay, ax, by, bx];
  if (ax > bx) [ax, ay, ad, bx, by, bd] = [bx, by, bd, ax, ay, ad];
  const length = Math.hypot(bx - ax, by - ay);
  if (length < 1e-6) return;
  const slope = (by - ay) / (bx - ax || 1), lean = (bx - ax) / length || 1, fall = (bd - ad) / (bx - ax || 1);
  const [long, wide] = steep ? [height, width] : [width, height];
  const reach = pen.width / 2 * lean;
  const from = Math.max(0, Math.ceil(ax - reach - 0.5)), till = Math.min(long, Math.floor(bx + reach - 0.5) + 1);
  if (till <= from) return;
  if (runs.length < till - from) [runs, smooth] = [new Uint8Array(2 * (till - from)), new Float32Array(2 * (till - from))];
  for (let i = from; i < till; i++) {
    const at = Math.min(bx, Math.max(ax, i + 0.5));
    runs[i - from] = !pen.faces || isSeen(drawing, steep, i, ay + slope * (i + 0.5 - ax), ad + fall * (at - ax), pen.faces) ? 1 : 0;
  }
  if (pen.faces) steady(runs, till - from);
  const shown = pen.faces ? smooth : runs, half = pen.width / 2 + 0.5, spread = half / lean;
  for (let i = from; i < till; i++) {
    const strength = pen.strength * shown[i - from];
    if (strength === 0) continue;
    const middle = ay + slope * (i + 0.5 - ax);
    const low = Math.max(0, Math.ceil(middle - spread - 0.5)), high = Math.min(wide - 1, Math.floor(middle + spread - 0.5));
    for (let j = low; j <= high; j++) {
      const share = Math.min(1, half - Math.abs(j + 0.5 - middle) * lean) * strength;
      if (share > 0) blend(drawing, steep ? i * width + j : j * width + i, pen.ink, share);
    }
  }
}

/** Whether an edge is seen at a step of its line: by the pixels around it, as one pixel may lie on either side. */
function isSeen({ width, height, depth, owner }, steep, i, middle, near, [one, other]) {
  const j = Math.floor(middle), [x, y] = steep ? [j, i] : [i, j];
  if (x < 0 || y < 0 || x >= width || y >= height) return false;
  const left = Math.max(0, x - 1), right = Math.min(width - 1, x + 1), bare = near * (1 - SAME_DEPTH);
  let before = true;
  for (let row = Math.max(0, y - 1), end = Math.min(height - 1, y + 1); row <= end; row++) {
    for (let k = row * width + left, last = row * width + right; k <= last; k++) {
      const own = owner[k];
      if (own !== 0 && (own === one || own === other)) return true;
      if (depth[k] >= bare) before = false;
    }
  }
  return before;
}

/** How much of a line is seen at a step, as the steps around it say: slivers thinner than a pixel are seen here and there. */
function steady(flags, count) {
  let wide = 0, close = 0;
  for (let i = 0; i < Math.min(AROUND, count); i++) wide += flags[i];
  for (let i = 0; i < Math.min(BESIDE, count); i++) close += flags[i];
  for (let i = 0; i < count; i++) {
    if (i + AROUND < count) wide += flags[i + AROUND];
    if (i > AROUND) wide -= flags[i - AROUND - 1];
    if (i + BESIDE < count) close += flags[i + BESIDE];
    if (i > BESIDE) close -= flags[i - BESIDE - 1];
    const of = Math.min(count - 1, i + AROUND) - Math.max(0, i - AROUND) + 1;
    smooth[i] = close === 0 ? 0 : Math.max(0, Math.min(1, (wide / of - 0.35) / 0.3));
  }
}

function blend({ colour }, i, [red, green, blue], share) {
  const old = colour[i], rest = 1 - share;
  colour[i] = (255 << 24
    | ((old >> 16 & 255) * rest + blue * share) << 16
    | ((old >> 8 & 255) * rest + green * share) << 8
    | ((old & 255) * rest + red * share)) >>> 0;
}

/** A run of points in space with a head at its end, before everything. */
function arrow(drawing, { points, ink }, pixels) {
  const see = projection(drawing), places = new Float64Array(3 * points.length);
  points.forEach((point, i) => {
    const away = [0, 1, 2].map(axis => point[axis] - see.eye[axis]), along = way => way[0] * away[0] + way[1] * away[1] + way[2] * away[2];
    const near = -1 / along(see.back);
    places.set([see.x + see.size * near * along(see.right), see.y - see.size * near * along(see.up), near], 3 * i);
  });
  const pen = { faces: null, ink, width: 2.6 * pixels, strength: 1 };
  for (let i = 0; i + 1 < points.length; i++) line(drawing, places, [3 * i, 3 * i + 3], pen);
  const n = 3 * (points.length - 1), [x, y] = [places[n], places[n + 1]];
  const [dx, dy] = [x - places[n - 3], y - places[n - 2]], long = Math.hypot(dx, dy) || 1, size = 11 * pixels;
  for (const side of [0.42, -0.42]) {
    const barb = [x - size * (dx / long - side * dy / long), y - size * (dy / long + side * dx / long), 1];
    line(drawing, new Float64Array([x, y, 1, ...barb]), [0, 3], pen);
  }
}

// What is printed on the faces of solids: pictures that lie on a face wherever that face is seen.
import { STILL } from './fold.js';

/** Height of a capital in the picture of words, in pixels, and over the size of the type. */
const CAPITAL = 48, SHARE = 0.729;
/** Places in a pixel of the screen, each way, whose mean gives its colour. */
const FINE = 3;

/** A label as a picture that lies on a face of its panel: 0 is the drawn one. Null where the browser draws no words. */
export function lettering(page, { text, drawn, at, along, up, height }, half) {
  const canvas = page.createElement('canvas'), on = canvas.getContext?.('2d', { willReadFrequently: true });
  if (!on?.measureText) return null;
  const font = `${Math.round(CAPITAL / SHARE)}px "DejaVu Sans", sans-serif`;
  on.font = font;
  const width = Math.ceil(on.measureText(text).width) + 4, tall = Math.ceil(1.8 * CAPITAL), foot = Math.round(1.35 * CAPITAL);
  Object.assign(canvas, { width, height: tall });
  on.font = font;
  on.fillText(text, 2, foot);
  const { data } = on.getImageData(0, 0, width, tall);
  const mm = height / CAPITAL, left = -width / 2 * mm, top = foot * mm, z = drawn ? half : -half;
  const point = (x, y) => [at[0] + along[0] * x + up[0] * y, at[1] + along[1] * x + up[1] * y, z];
  const [origin, right, below] = [point(left, top), point(-left, top), point(left, top - tall * mm)];
  return { face: drawn ? 0 : 1, origin, right: minus(right, origin), down: minus(below, origin), width, height: tall, data };
}

/** A picture that lies on a face of its panel. */
export function print({ drawn, at, across, up, size: [width, height], rgba }, half) {
  const z = drawn ? half : -half, text = atob(rgba), data = new Uint8ClampedArray(text.length);
  for (let i = 0; i < data.length; i++) data[i] = text.charCodeAt(i);
  const origin = [at[0] + up[0], at[1] + up[1], z];
  return { face: drawn ? 0 : 1, origin, right: [...across, 0], down: [-up[0], -up[1], 0], width, height, data };
}

function minus(one, other) {
  return one.map((value, axis) => value - other[axis]);
}

/** Lays a picture on the pixels that show its face; its place in the picture is even across the face, seen in perspective. */
export function lay(drawing, { motion = STILL, first }, decal, see, blend) {
  const { right, up, back, eye, size } = see, { r, t } = motion;
  const turned = ([x, y, z]) => [r[0] * x + r[1] * y + r[2] * z, r[3] * x + r[4] * y + r[5] * z, r[6] * x + r[7] * y + r[8] * z];
  const seen = way => [right, up, back].map(axis => axis[0] * way[0] + axis[1] * way[1] + axis[2] * way[2]);
  const place = turned(decal.origin).map((value, axis) => value + t[axis] - eye[axis]);
  // Columns: along the picture, down the picture, its corner; rows: across the screen, up, away from the eye.
  const columns = [turned(decal.right), turned(decal.down), place].map(seen).map(([x, y, z]) => [size * x, -size * y, -z]);
  const inverse = inverted(columns);
  if (!inverse) return;
  const corners = [[0, 0], [1, 0], [0, 1], [1, 1]].map(([u, v]) => {
    const [x, y, w] = [0, 1, 2].map(row => columns[0][row] * u + columns[1][row] * v + columns[2][row]);
    return [see.x + x / w, see.y + y / w];
  });
  const range = (axis, most) => {
    const values = corners.map(corner => corner[axis]);
    return [Math.max(0, Math.floor(Math.min(...values))), Math.min(most, Math.ceil(Math.max(...values)))];
  };
  const [left, end] = range(0, drawing.width), [top, foot] = range(1, drawing.height), own = first + decal.face;
  for (let y = top; y < foot; y++) {
    for (let x = left; x < end; x++) {
      const i = y * drawing.width + x;
      if (drawing.owner[i] !== own) continue;
      const [red, green, blue, share] = colour(decal, inverse, x - see.x, y - see.y);
      if (share > 0) blend(drawing, i, [red, green, blue], share);
    }
  }
}

/** The mean colour of a pixel of the screen, and its share. */
function colour({ width, height, data }, m, x, y) {
  const sum = [0, 0, 0, 0];
  for (let k = 0; k < FINE * FINE; k++) {
    const px = x + (k % FINE + 0.5) / FINE, py = y + (Math.floor(k / FINE) + 0.5) / FINE;
    const w = m[2][0] * px + m[2][1] * py + m[2][2];
    const column = Math.floor((m[0][0] * px + m[0][1] * py + m[0][2]) / w * width);
    const row = Math.floor((m[1][0] * px + m[1][1] * py + m[1][2]) / w * height);
    if (column < 0 || row < 0 || column >= width || row >= height) continue;
    const at = 4 * (row * width + column), share = data[at + 3];
    for (let part = 0; part < 3; part++) sum[part] += data[at + part] * share;
    sum[3] += share;
  }
  const [red, green, blue, share] = sum;
  return share ? [red / share, green / share, blue / share, share / (255 * FINE * FINE)] : [0, 0, 0, 0];
}

/** The inverse of a matrix of three columns, as rows; null where a picture is seen edge on. */
function inverted([a, b, c]) {
  const cross = (p, q) => [p[1] * q[2] - p[2] * q[1], p[2] * q[0] - p[0] * q[2], p[0] * q[1] - p[1] * q[0]];
  const rows = [cross(b, c), cross(c, a), cross(a, b)], volume = a[0] * rows[0][0] + a[1] * rows[0][1] + a[2] * rows[0][2];
  return Math.abs(volume) < 1e-9 ? null : rows.map(row => row.map(value => value / volume));
}

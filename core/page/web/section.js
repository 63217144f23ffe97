// How an item lies in the closed box: lid, deck, item, pad and floor with their heights, and what holds it each way.
// Heights are to one scale, lengths along the box to another: a short item in a long box looks like one.
import { shownLength } from './job.js';

const SVG = 'http://www.w3.org/2000/svg';
const WIDE = 300, HIGH = 150, LEFT = 8, RIGHT = 148;
/** Room for the flaps beside an item that is as long as its box, and the least that is drawn of a short one. */
const BESIDE_ITEM = 6, LEAST_HALF = 4;

/** A picture and its words for each kind of item. */
export function sections({ items, unit, scene }, words) {
  const first = items.filter(item => item.number === 1 && item.held), longest = Math.max(...first.map(item => item.length), 1);
  const boxLength = scene.box?.[0] ?? 1.2 * longest;
  return first.map(item => {
    const figure = document.createElement('figure'), caption = document.createElement('figcaption');
    caption.textContent = `${item.name}: ${heldWords(item, words, unit)}`;
    figure.append(drawn(item, unit, words, boxLength), caption);
    return figure;
  });
}

function lengthWords(mm, unit) {
  return `${shownLength(mm, unit)} ${unit === 'in' ? 'in' : 'mm'}`;
}

function heldWords({ held }, words, unit) {
  const by = stop => {
    const name = words[`by_${stop.by}`] ?? stop.by, over = stop.heights[1] - stop.heights[0];
    return stop.by === 'nothing' ? words.slides.replace('{length}', lengthWords(stop.travel, unit)) : over > 0 ? words.held_over.replace('{by}', name).replace('{length}', lengthWords(over, unit)) : name;
  };
  return words.held.replace('{along}', by(held.along)).replace('{across}', by(held.across)).replace('{rise}', lengthWords(held.rise, unit));
}

function drawn(item, unit, words, boxLength) {
  const svg = svgShape('svg', { viewBox: `0 0 ${WIDE} ${HIGH + 24}`, role: 'img' }), { held, rest, pad } = item;
  const top = rest + item.depth, lid = top + held.rise, scale = HIGH / Math.max(lid, 1), y = height => HIGH + 8 - height * scale;
  const middle = (LEFT + RIGHT) / 2;
  const whole = (RIGHT - LEFT) / 2, half = Math.max(LEAST_HALF, Math.min(whole - BESIDE_ITEM, whole * item.length / boxLength));
  svg.setAttribute('aria-label', `${item.name}: ${words.holds}`);
  const box = svgShape('path', { d: `M${LEFT} ${y(lid)}V${y(0)}H${RIGHT}V${y(lid)}Z`, fill: 'none', stroke: '#6e5430', 'stroke-width': 2 });
  const marks = [];
  const block = (low, high, fill) => svgShape('rect', { x: middle - half, y: y(high), width: 2 * half, height: Math.max(1, y(low) - y(high)), fill, stroke: '#22201e' });
  svg.append(box);
  if (pad > 0) {
    svg.append(block(rest - pad, rest, '#d8b898'));
    marks.push([rest - pad, rest, words.mark_pad, pad]);
  }
  svg.append(block(rest, top, '#f6e178'));
  marks.push([rest, top, words.mark_item, item.depth]);
  if (held.rise > 0.005) marks.push([top, lid, words.mark_rise, held.rise]);
  if (typeof held.deck === 'number') {
    for (const [from, to] of [[LEFT, middle - half - 4], [middle + half + 4, RIGHT]]) svg.append(svgShape('path', { d: `M${from} ${y(held.deck)}H${to}`, stroke: '#22201e', 'stroke-width': 3 }));
  }
  const [low, high] = held.along.heights;
  if (high > low) {
    for (const side of [-1, 1]) svg.append(svgShape('path', { d: `M${middle + side * (half + 3)} ${y(high)}V${y(low)}`, stroke: '#0072b2', 'stroke-width': 4 }));
  }
  marks.forEach(([from, to, name, length]) => {
    const x = RIGHT + 8, at = (y(from) + y(to)) / 2;
    svg.append(svgShape('path', { d: `M${x} ${y(from)}H${x + 6}V${y(to)}H${x}`, fill: 'none', stroke: '#57534a' }), svgWords(x + 11, at + 4, `${name} ${lengthWords(length, unit)}`));
  });
  return svg;
}

/** An element of SVG. */
export function svgShape(name, attributes) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}

function svgWords(x, y, words) {
  const made = svgShape('text', { x, y, 'font-size': 11, fill: '#1d1d1b' });
  made.textContent = words;
  return made;
}

// Keeps a tray and sets the present one beside it: one table of their measures and one picture of both blanks.
import { make } from './fields.js';
import { lineOf, numberOf, shownLength, unitOf, valueOf } from './job.js';
import { svgShape } from './section.js';
import { itemCount } from './styles.js';

const SIDES_OF = name => ['length', 'width', 'depth'].map(side => `${name}_${side}`);
const VERDICT_WORDS = { fits: 'short_fits', watch: 'short_watch', 'does-not-fit': 'short_not' };

/** What is known of a tray, as rows: a name, and words or numbers. Lengths are in mm. */
export function measuresOf({ report, lines = [], scene }, words) {
  if (!report) return [{ name: words.measure_verdict, words: words.short_unread }];
  const { measures, board } = report, rows = [];
  const put = (name, value, item = '') => rows.push({ name: words[name].replace('{item}', () => item), ...value });
  const lengths = (name, keys, item = '') => {
    const numbers = keys.map(key => measures[item ? `${key}.${item}` : key]);
    if (numbers.every(number => typeof number === 'number')) put(name, { numbers }, item);
  };
  put('measure_verdict', { words: words[VERDICT_WORDS[report.verdict]] });
  put('measure_style', { words: report.style });
  put('measure_board', { words: [board.name, `${board.caliper} mm`].filter(Boolean).join(' · ') });
  const box = lineOf(lines, 'box'), items = lines.filter(each => each.name === 'item');
  put('measure_box', { numbers: ['length', 'width', 'depth'].map(side => (numberOf(valueOf(box, side)) ?? 0) * (unitOf(lines) === 'in' ? 25.4 : 1)) });
  put('measure_items', { words: String(itemCount(lines)) });
  lengths('measure_folded', SIDES_OF('folded'));
  lengths('measure_clearance', SIDES_OF('box_clearance'));
  lengths('measure_blank', ['blank_length', 'blank_width']);
  lengths('measure_wall', ['wall_height']);
  if (scene) put('measure_steps', { words: String(scene.steps.length) });
  for (const item of items.map(each => valueOf(each, ''))) {
    lengths('measure_opening', ['clear_length', 'clear_width'], item);
    lengths('measure_along', ['travel_length'], item);
    lengths('measure_across', ['travel_width'], item);
    lengths('measure_rise', ['rise'], item);
    lengths('measure_pad', ['pad'], item);
  }
  return rows;
}

/** A number as it is written; a difference with its sign. */
function figure(number, signed = false) {
  return (signed && number > 0 ? '+' : '') + String(number).replace('-', '−');
}

function valueWords(row, unit) {
  if (!row) return '–';
  return row.words ?? `${row.numbers.map(mm => figure(shownLength(mm, unit))).join(' × ')} ${unit}`;
}

/** The measures of one tray as a table. */
export function measuresTable(found, words) {
  const rows = measuresOf(found, words).map(row => make('tr', {}, make('th', { scope: 'row', textContent: row.name }), make('td', { textContent: valueWords(row, found.unit) })));
  return make('table', {}, make('tbody', {}, rows));
}

/** How a measure changed, in words: no colour says it alone. */
function changeWords(kept, now, unit, words) {
  if (!kept || !now) return words.compare_differs;
  if (kept.words !== undefined) return kept.words === now.words ? words.compare_same : words.compare_differs;
  // The difference of what is shown, so that the columns agree.
  const less = now.numbers.map((mm, index) => Number((shownLength(mm, unit) - shownLength(kept.numbers[index], unit)).toFixed(3)));
  if (less.every(number => number === 0)) return words.compare_same;
  return `${less.map(number => figure(number, true)).join(' × ')} ${unit}`;
}

/** Shows the comparison of the kept tray with the present one; nothing is shown where none is kept. */
export function showComparison(me, found) {
  const place = document.getElementById('compare'), keep = document.getElementById('keep'), { words, kept } = me;
  me.present = found;
  keep.textContent = kept ? words.compare_keep_this : words.compare_keep;
  keep.disabled = !found.report;
  place.hidden = !kept;
  document.body.classList.toggle('compares', Boolean(kept));
  if (!kept) {
    document.getElementById('compared').replaceChildren();
    return;
  }
  const unit = found.unit ?? kept.unit, before = measuresOf(kept, words), after = measuresOf(found, words);
  const names = [...new Set([...before, ...after].map(row => row.name))];
  const rows = names.map(name => {
    const [one, other] = [before, after].map(rowsThere => rowsThere.find(row => row.name === name)), change = changeWords(one, other, unit, words);
    return make('tr', { className: change === words.compare_same ? '' : 'differs' }, make('th', { scope: 'row', textContent: name }),
      ...[valueWords(one, unit), valueWords(other, unit), change].map(textContent => make('td', { textContent })));
  });
  const heads = [words.compare_measure, words.compare_kept, words.compare_now, words.compare_change].map(textContent => make('th', { scope: 'col', textContent }));
  const isSame = kept.job === found.job, hint = isSame ? make('p', { className: 'hint', textContent: words.compare_hint }) : null;
  const figureBoth = make('figure', {}), table = make('table', {}, make('thead', {}, make('tr', {}, heads)), make('tbody', {}, rows));
  table.setAttribute('aria-labelledby', 'compare-title');
  const parts = [hint, make('div', { className: 'pair' }, make('div', { className: 'wide-table', tabIndex: 0, role: 'group', ariaLabel: words.compare }, table), figureBoth)];
  document.getElementById('compared').replaceChildren(...parts.filter(Boolean));
  overlay(figureBoth, kept, found, words);
}

/** Keeps the present tray, and says so. */
export function keepPresent(me) {
  if (!me.present?.report) return;
  me.kept = me.present;
  showComparison(me, me.present);
  document.getElementById('compare-said').textContent = me.words.compare_said.replace('{name}', () => me.present.title ?? '');
}

/** Ends the comparison; what has the focus goes, so the button that began it takes it. */
export function stopComparing(me) {
  me.kept = null;
  document.getElementById('compare-said').textContent = '';
  showComparison(me, me.present);
  document.getElementById('keep').focus();
}

/** Both blanks over one another, as the SVG exporter draws them, without figures. */
function overlay(figureBoth, kept, found, words) {
  // A tray that does not fit has no blank.
  const said = found.blank ? words.compare_of : `${words.compare_kept}: ${kept.title ?? ''}`;
  const svg = svgShape('svg', { role: 'img', 'aria-label': said }), caption = make('figcaption', { className: 'hint', textContent: said });
  figureBoth.append(svg, caption);
  if (!kept.blank && !found.blank) {
    figureBoth.replaceChildren();
    return;
  }
  const kinds = [[kept, { stroke: '#9a3d00', 'stroke-dasharray': '5 3' }], [found, { stroke: '#1d1d1b' }]];
  const groups = kinds.filter(([tray]) => tray.blank).map(([tray, look]) => {
    const group = svgShape('g', { fill: 'none', 'stroke-width': 1.4, 'vector-effect': 'non-scaling-stroke', ...look });
    for (const d of cutsOf(tray.blank)) group.append(svgShape('path', { d, 'vector-effect': 'non-scaling-stroke' }));
    svg.append(group);
    return group;
  });
  const sizes = groups.map(group => group.getBBox()), half = side => Math.max(1, ...sizes.map(size => size[side])) / 2 + 2;
  groups.forEach((group, index) => {
    const { x, y, width, height } = sizes[index];
    group.setAttribute('transform', `translate(${-(x + width / 2)} ${-(y + height / 2)})`);
  });
  svg.setAttribute('viewBox', `${-half('width')} ${-half('height')} ${2 * half('width')} ${2 * half('height')}`);
}

/** The lines along which a blank is cut. */
function cutsOf(svg) {
  const drawn = new DOMParser().parseFromString(svg, 'image/svg+xml');
  return [...drawn.querySelectorAll('#cutting path')].map(path => path.getAttribute('d'));
}

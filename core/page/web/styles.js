// The part of the form that asks for a style: each with its drawing and what it takes, and the settings of the chosen one.
import { field, fold, make, part, row } from './fields.js';
import { jobLine, setEntry, shownLength, textEntry, typed, unitOf, valueOf } from './job.js';
import { svgShape } from './section.js';

/** Width of a line, as a part of the width of the blank. Derived: one pixel of a drawing 96 pixels wide. */
const LINE = 1 / 96;

/** How many items a job has, all of a kind counted. */
export function itemCount(lines) {
  const counts = lines.filter(each => each.name === 'item').map(each => Number(valueOf(each, 'count') || 1));
  return counts.reduce((sum, count) => sum + (Number.isFinite(count) ? count : 1), 0);
}

/** The styles to choose from. */
export function stylePart(me, tray) {
  const { words, library } = me, now = valueOf(tray, 'style');
  const styles = library.styles.map(style => {
    const input = make('input', { type: 'radio', name: 'style', id: `style-${style.name}`, value: style.name, checked: style.name === now });
    input.setAttribute('aria-describedby', `takes-${style.name}`);
    input.addEventListener('change', () => {
      setEntry(tray, 'style', textEntry('style', style.name));
      me.lines = me.lines.filter(each => each.name !== 'set');
      me.changed();
    });
    return make('label', { className: 'check' }, input, make('span', {}, make('b', { textContent: style.name }), ` ${style.about} `, make('span', { className: 'takes', id: `takes-${style.name}` })), make('span', { className: 'drawing', id: `drawing-${style.name}` }));
  });
  return part(me, 4, 'style', make('div', { id: 'styles', role: 'radiogroup', ariaLabel: words.style }, styles), fold('settings', words.settings, make('div', { id: 'settings-of-style' })));
}

/** Says of every style how many items it takes, and which cannot take those of the job. */
export function markStyles(me) {
  const count = itemCount(me.lines), { words } = me;
  for (const { name, items: [least, most] } of me.library.styles) {
    const place = document.getElementById(`takes-${name}`), suits = count >= least && count <= most;
    const takes = least === 1 && most === 1 ? words.takes_one : words.takes.replace('{least}', least).replace('{most}', most);
    place.textContent = `${suits ? takes : `${takes}; ${words.you_have.replace('{count}', count)}`}.`;
    place.classList.toggle('unsuited', !suits);
  }
}

/** Puts the drawings into the form, as far as there are any. */
export function drawStyles(me) {
  for (const [name, drawing] of Object.entries(me.drawings)) {
    const { width, height, cuts, creases } = drawing, line = LINE * width;
    const svg = svgShape('svg', { viewBox: `${-line} ${-line} ${width + 2 * line} ${height + 2 * line}`, 'aria-hidden': 'true', fill: 'none', 'stroke-width': line });
    svg.append(svgShape('path', { d: cuts, stroke: '#1d1d1b' }), svgShape('path', { d: creases, stroke: '#a3447a', 'stroke-dasharray': `${3 * line} ${2 * line}` }));
    document.getElementById(`drawing-${name}`).replaceChildren(svg);
  }
}

/** The settings of the style, with what they are in this job. */
export function fillSettings(me) {
  const place = document.getElementById('settings-of-style');
  if (!place || place.contains(document.activeElement)) return;
  place.replaceChildren(...me.settings.map(setting => settingField(me, setting)));
}

function settingField(me, setting) {
  const unit = unitOf(me.lines), shown = (number, kind) => shownLength(number, kind === 'length' ? unit : 'mm');
  const each = me.lines.find(line => line.name === 'set' && line.entries.some(entry => entry.key === setting.name));
  const words = value => value === null ? '' : value === true ? me.words.yes : value === false ? me.words.no : typeof value === 'number' ? String(shown(value, setting.kind)) : value;
  const usual = me.words.default.replace('{value}', words(setting.default));
  const list = setting.kind === 'choice' ? [['', usual], ...setting.possible.map(value => [value, value])] : setting.kind === 'yes-no' ? [['', usual], ['#true', me.words.yes], ['#false', me.words.no]] : null;
  const made = field(me, { id: `set-${setting.name}`, label: `${setting.question} (${setting.name})`, wide: true, value: valueOf(each, setting.name), list, write: value => writeSetting(me, setting, value) });
  if (!list) {
    const [least, most] = setting.possible.map(words);
    made.querySelector('input').placeholder = usual;
    made.append(make('span', { className: 'hint', textContent: me.words.range.replace('{least}', least).replace('{most}', most) }));
  }
  return row(made);
}

function writeSetting(me, setting, value) {
  // Other settings of the same line stay.
  for (const line of me.lines.filter(each => each.name === 'set')) setEntry(line, setting.name, null);
  me.lines = me.lines.filter(line => line.name !== 'set' || line.entries.length > 0);
  if (value.trim() === '') return;
  const plain = { key: setting.name, unit: '', text: value, quoted: false };
  const entry = setting.kind === 'choice' ? textEntry(setting.name, value) : setting.kind === 'yes-no' ? plain : typed(setting.name, value, { length: unitOf(me.lines), angle: 'deg' }[setting.kind] ?? '');
  me.lines.push(jobLine('set', entry));
}

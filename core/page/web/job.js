// A job as a form holds it: lines with values, as the module reads them. The text of the job is written from it and nothing
// else is kept.

/** What a page shows that knows no job. */
export function example() {
  return [
    jobLine('tray', textEntry('style', 'single-slot'), textEntry('name', 'Barometer keepsake box')),
    jobLine('box', figureEntry('length', '182'), figureEntry('width', '121'), figureEntry('depth', '34')),
    jobLine('item', textEntry('', 'barometer'), figureEntry('length', '96'), figureEntry('width', '61'), figureEntry('depth', '28')),
    jobLine('board', textEntry('', 'index-255')),
    jobLine('page', textEntry('', 'A4')),
  ];
}

/** A job that has all to be filled in, in a unit. */
export function empty(unit) {
  const sides = () => ['length', 'width', 'depth'].map(side => ({ key: side, unit, text: '', quoted: true }));
  return [jobLine('tray', textEntry('style', 'single-slot')), jobLine('box', ...sides()), jobLine('item', textEntry('', ''), ...sides()), jobLine('board', textEntry('', 'index-255'))];
}

/** The order in which lines are written; others follow. */
const ORDER = ['tray', 'box', 'item', 'board', 'tool', 'fit', 'slot', 'page', 'draw', 'words', 'set'];
/** Lines that fields show; all others stand among the "more lines" of the form. */
const SHOWN = new Set(['tray', 'box', 'item', 'board', 'fit', 'slot', 'page', 'draw', 'words', 'set']);

export function jobLine(name, ...entries) {
  return { name, entries };
}

export function textEntry(key, words) {
  return { key, unit: '', text: words, quoted: true };
}

export function figureEntry(key, number, unit = 'mm') {
  return { key, unit, text: number, quoted: false };
}

/** The first line of a name. */
export function lineOf(lines, name) {
  return lines.find(each => each.name === name);
}

/** The words of a value; empty where there is none. */
export function valueOf(each, key) {
  return each?.entries.find(entry => entry.key === key)?.text ?? '';
}

/** Sets a value of a line, or takes it off where the entry is null. Keeps the place of a value that is there. */
export function setEntry(each, key, entry) {
  const at = each.entries.findIndex(old => old.key === key);
  if (entry === null) {
    if (at >= 0) each.entries.splice(at, 1);
  } else if (at >= 0) each.entries[at] = entry;
  else if (key === '') each.entries.unshift(entry);
  else each.entries.push(entry);
}

/** Sets a value of the only line of a name; a line without values goes. */
export function setIn(lines, name, key, entry) {
  let each = lineOf(lines, name);
  if (!each) {
    if (entry === null) return;
    each = jobLine(name);
    lines.push(each);
  }
  setEntry(each, key, entry);
  if (each.entries.length === 0) lines.splice(lines.indexOf(each), 1);
}

/** A comma between digits that may part thousands as well as decimals: a reader cannot know. */
export const TWO_MEANINGS = /^[1-9]\d{0,2},\d{3}$/;
/** A plain number. */
const FIGURE = /^-?(\d+\.?\d*|\.\d+)$/;
/** Units that a maker may write, in mm. */
const IN_MM = { mm: 1, cm: 10, in: 25.4, '"': 25.4, '″': 25.4 };

/** What a maker typed as a value: a figure with comma or point, or with its own unit; a fraction; or words to be refused. */
export function typed(key, words, unit) {
  const isLength = unit === 'mm' || unit === 'in', said = isLength ? words.trim().match(/^(.*\d[.,]?)\s*(mm|cm|in|"|″)$/i) : null;
  const bare = said ? said[1].trim() : words.trim();
  const plain = TWO_MEANINGS.test(bare) ? bare : bare.replace(/^(\d*),(\d+)$/, '$1.$2');
  const isNumber = FIGURE.test(plain), own = said?.[2].toLowerCase() ?? unit;
  if (!said || own === unit) {
    // KDL wants a digit on both sides of the point.
    const number = plain.replace(/^(-?)\./, '$10.').replace(/\.$/, '');
    return isNumber ? figureEntry(key, number, unit) : { key, unit, text: plain, quoted: true };
  }
  const figure = TWO_MEANINGS.test(plain) ? null : numberOf(plain);
  if (figure === null) return { key, unit, text: words.trim(), quoted: true };
  const mm = figure * IN_MM[own];
  return figureEntry(key, unit === 'in' ? inInches(mm) : String(Number(mm.toFixed(4))), unit);
}

/** The text of a job, and where each value stands in it, in bytes. */
export function jobText(lines) {
  const order = each => (ORDER.indexOf(each.name) + ORDER.length + 1) % (ORDER.length + 1);
  const sorted = lines.map((each, index) => [order(each), index, each]).sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const places = [];
  let written = '', at = 0;
  const put = words => { written += words; at += new TextEncoder().encode(words).length; };
  for (const [, , each] of sorted) {
    put(word(each.name));
    for (const entry of each.entries) {
      put(' ');
      const start = at;
      put((entry.key ? `${each.name === 'set' ? quoted(entry.key) : word(entry.key)}=` : '') + (entry.unit ? `(${entry.unit})` : '') + (entry.quoted ? quoted(entry.text) : entry.text));
      places.push({ each, entry, start, end: at });
    }
    put('\n');
  }
  return { text: written, places };
}

/** The lines that no field shows, as text. */
export function otherLines(lines) {
  return jobText(lines.filter(each => !SHOWN.has(each.name))).text;
}

/** The lines that fields show. */
export function shownLines(lines) {
  return lines.filter(each => SHOWN.has(each.name));
}

/** Lines with values of other ones put into them: the new lines, the values that were put, and the first that cannot be. */
export function withMore(lines, more) {
  const all = structuredClone(lines), put = new Set();
  let twice = null;
  for (const { name, entries } of more) {
    const same = name === 'item' ? all.find(each => each.name === name && valueOf(each, '') === valueOf({ entries }, '')) : lineOf(all, name);
    // A setting may stand in any line of settings.
    const home = key => name === 'set' ? all.find(each => each.name === name && each.entries.some(entry => entry.key === key)) : null;
    const keys = entries.map(entry => entry.key);
    twice ??= entries.filter((entry, index) => keys.indexOf(entry.key) < index).map(entry => `${name} ${entry.text}`)[0] ?? null;
    const line = same ?? jobLine(name);
    if (!same) all.push(line);
    for (const entry of entries) {
      setEntry(home(entry.key) ?? line, entry.key, entry);
      put.add(entry);
    }
  }
  return { lines: all, put, twice };
}

function word(words) {
  return /^[a-z][a-z0-9-]*$/.test(words) ? words : quoted(words);
}

function quoted(words) {
  // Source: KDL 2, "Disallowed Literal Code Points": they may be written escaped alone.
  const safe = words.replace(/[\\"]/g, '\\$&').replace(/\n/g, '\\n').replace(/\r/g, '\\r').replace(/\t/g, '\\t');
  return `"${safe.replace(/[\u0000-\u0008\u000b-\u001f\u007f\u0085\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff]/g, letter => `\\u{${letter.charCodeAt(0).toString(16)}}`)}"`;
}

/** The unit in which a job thinks: that of its box. */
export function unitOf(lines) {
  return lineOf(lines, 'box')?.entries.find(entry => entry.unit)?.unit === 'in' ? 'in' : 'mm';
}

/** Lengths of all lines in the other unit; those that are no plain figure or fraction stay. */
export function converted(lines, unit) {
  for (const each of lines) {
    each.entries = each.entries.map(entry => {
      if (entry.unit === unit || entry.unit !== (unit === 'in' ? 'mm' : 'in')) return entry;
      if (entry.text.trim() === '') return { ...entry, unit };
      const number = numberOf(entry.text);
      if (number === null) return entry;
      return figureEntry(entry.key, unit === 'in' ? inInches(number) : inMillimetres(number), unit);
    });
  }
}

/** A length as it is shown: to 0.01 mm or 0.001 in. */
export function shownLength(mm, unit) {
  return unit === 'in' ? Number((mm / 25.4).toFixed(3)) : Number(mm.toFixed(2));
}

/** A length in inches, as a figure. */
export function inInches(mm) {
  // Source: 1 in = 25.4 mm exactly.
  return String(Number((mm / 25.4).toFixed(6)));
}

/** A length in millimetres, as a figure. */
function inMillimetres(inches) {
  const mm = inches * 25.4, near = Number(mm.toFixed(4));
  // Derived: inches of six decimals are within 0.0000127 mm of what they were. What is that near to four decimals was them.
  return String(Math.abs(mm - near) < 1.3e-5 ? near : Number(mm.toFixed(6)));
}

/** The same figures in the other unit. */
export function relabelled(lines, unit) {
  for (const each of lines) for (const entry of each.entries) if (entry.unit === 'mm' || entry.unit === 'in') entry.unit = unit;
}

/** The number that a figure or a fraction such as `7 3/16` stands for; null for other words. */
export function numberOf(words) {
  const plain = words.trim().replace(',', '.');
  const fraction = plain.match(/^(?:(\d+)\s+)?(\d+)\/(\d+)$/);
  const number = fraction ? Number(fraction[1] ?? 0) + Number(fraction[2]) / Number(fraction[3]) : FIGURE.test(plain) ? Number(plain) : NaN;
  return Number.isFinite(number) ? number : null;
}

/** A stem for files, from the name of the tray. */
export function stemOf(lines) {
  const name = valueOf(lineOf(lines, 'tray'), 'name').toLowerCase().normalize('NFKD');
  return name.replace(/[^a-z0-9]+/g, '-').replace(/^-|-$/g, '').slice(0, 60) || 'tray';
}

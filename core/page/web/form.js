// The form: the questions of a job in the order of measuring. It shows the lines of a job and changes them, nothing else.
import { field, fold, make, part, row } from './fields.js';
import { converted, inInches, jobLine, lineOf, otherLines, relabelled, setEntry, setIn, shownLines, textEntry, typed, unitOf, valueOf } from './job.js';
import { keepShelf, shelve } from './shelf.js';
import { drawStyles, markStyles, stylePart } from './styles.js';

const SIDES = ['length', 'width', 'depth'];
/** All that a card is. */
const CARD_KEYS = ['', 'caliper', 'tolerance', 'hinge', 'reading', 'grain', 'sheet', 'kind', 'crease'];

/** Builds the form anew. `me` has lines, library, words, settings, shelf; `me.changed()` is called after each change. */
export function fillForm(me) {
  const focus = document.activeElement?.id, open = new Set([...document.querySelectorAll('#form details[open]')].map(each => each.id));
  me.fields = new Map();
  const form = document.getElementById('form');
  // A text box that is taken off while someone types tells of a change, which is not one of this job.
  me.isFilling = true;
  form.replaceChildren(boxPart(me), itemsPart(me), cardPart(me), stylePart(me, needed(me, 'tray')), paperPart(me), morePart(me), shelfPart(me));
  me.isFilling = false;
  markStyles(me);
  drawStyles(me);
  for (const each of form.querySelectorAll('details')) each.open = open.has(each.id);
  if (focus) document.getElementById(focus)?.focus();
}

/** A field for a value of a line that there is. */
function entryField(me, each, key, options) {
  const id = idOf(me, each, key), write = words => setEntry(each, key, words.trim() === '' && options.optional ? null : options.words ? textEntry(key, words) : typed(key, words, options.plain ? '' : unitOf(me.lines)));
  // What a line cannot do without stands in it, empty, so that its field says what is wrong.
  if (!options.optional && !each.entries.some(entry => entry.key === key)) write('');
  return field(me, { id, value: valueOf(each, key), write, ...options });
}

/** A field for a value of a line that a job may lack. */
function lineField(me, name, key, options) {
  const write = words => setIn(me.lines, name, key, words.trim() === '' ? null : options.words || options.list ? textEntry(key, words) : typed(key, words, unitOf(me.lines)));
  return field(me, { id: `f-${name}-${key || 'name'}`, value: valueOf(lineOf(me.lines, name), key), write, ...options });
}

/** The name of the field of a value: errors of the text are shown there. */
export function idOf(me, each, key) {
  const same = me.lines.filter(other => other.name === each.name);
  return `f-${each.name}${same.length > 1 ? same.indexOf(each) : ''}-${key || 'name'}`;
}

function needed(me, name) {
  let each = lineOf(me.lines, name);
  if (!each) me.lines.push(each = jobLine(name));
  return each;
}

function boxPart(me) {
  const { words } = me, box = needed(me, 'box'), unit = unitOf(me.lines);
  const units = make('div', { className: 'units', role: 'group', ariaLabel: words.unit }, ['mm', 'in'].map(each => {
    const button = make('button', { type: 'button', id: `unit-${each}`, textContent: each });
    button.setAttribute('aria-pressed', String(each === unit));
    button.addEventListener('click', () => askUnit(me, each));
    return button;
  }));
  const ask = make('p', { id: 'unit-ask', className: 'ask', hidden: true });
  return part(me, 1, 'box', units, ask, make('p', { className: 'hint', textContent: words.box_hint }),
    row(...SIDES.map(side => entryField(me, box, side, { label: words[side] }))),
    shelfPicker(me, 'boxes', box, ['length', 'width', 'depth', 'corner', 'floor-corner']));
}

/** A switch of the unit asks what becomes of the figures. */
function askUnit(me, unit) {
  const ask = document.getElementById('unit-ask');
  if (unit === unitOf(me.lines)) {
    ask.hidden = true;
    return;
  }
  const choose = (say, act) => {
    const button = make('button', { type: 'button', textContent: me.words[say] });
    button.addEventListener('click', () => { act(me.lines, unit); fillForm(me); me.changed(); document.getElementById(`unit-${unit}`).focus(); });
    return button;
  };
  ask.replaceChildren(me.words.convert_ask.replace('{unit}', unit), ' ', choose('convert', converted), ' ', choose('keep', relabelled));
  ask.hidden = false;
  ask.querySelector('button').focus();
}

function itemsPart(me) {
  const { words } = me, items = me.lines.filter(each => each.name === 'item');
  const add = make('button', { type: 'button', id: 'add-item', textContent: words.add_item });
  add.addEventListener('click', () => {
    const at = me.lines.findLastIndex(each => each.name === 'item'), last = me.lines[at];
    let number = items.length + 1;
    const taken = new Set(items.map(each => valueOf(each, '')));
    while (taken.has(`${words.item} ${number}`)) number += 1;
    const fresh = structuredClone(last ?? jobLine('item', ...SIDES.map(side => typed(side, '20', unitOf(me.lines)))));
    fresh.entries = fresh.entries.filter(entry => ['length', 'width', 'depth'].includes(entry.key));
    setEntry(fresh, '', textEntry('', `${words.item} ${number}`));
    me.lines.splice(at + 1, 0, fresh);
    // A style for one item takes no second one: another takes both.
    const style = me.library.styles.find(each => each.name === valueOf(lineOf(me.lines, 'tray'), 'style'));
    if (style && items.length + 1 > style.items[1]) {
      const other = me.library.styles.find(each => each.items[1] > items.length && each.items[0] <= items.length + 1);
      if (other) setEntry(lineOf(me.lines, 'tray'), 'style', textEntry('style', other.name));
    }
    fillForm(me);
    me.changed();
    document.getElementById(idOf(me, fresh, ''))?.focus();
  });
  return part(me, 2, 'items', make('p', { className: 'hint', textContent: words.items_hint }), items.map((each, index) => itemPart(me, each, index, items.length)), add);
}

function itemPart(me, each, index, count) {
  const { words } = me, plain = (key, label, more = {}) => entryField(me, each, key, { label, ...more });
  const choice = (key, list) => field(me, { id: idOf(me, each, key), label: words[key], value: valueOf(each, key), list, write: value => setEntry(each, key, value ? textEntry(key, value) : null) });
  const yes = key => {
    const input = make('input', { type: 'checkbox', id: idOf(me, each, key), checked: valueOf(each, key) === '#true' });
    input.addEventListener('change', () => { setEntry(each, key, input.checked ? { key, unit: '', text: '#true', quoted: false } : null); me.changed(); });
    return make('label', { className: 'check' }, input, words[key]);
  };
  const remove = count > 1 ? make('button', { type: 'button', textContent: words.remove }) : null;
  remove?.setAttribute('aria-label', `${words.remove}: ${valueOf(each, '')}`);
  remove?.addEventListener('click', () => { me.lines.splice(me.lines.indexOf(each), 1); fillForm(me); me.changed(); document.getElementById('add-item').focus(); });
  return make('div', { className: 'item', role: 'group', ariaLabel: `${words.item} ${index + 1}` },
    row( plain('', words.item_name, { wide: true, words: true }), plain('count', words.count, { optional: true, plain: true })),
    row(...SIDES.map(side => plain(side, words[side]))),
    row(
      choice('shape', [['', words.rectangle], ['oval', words.oval], ['round', words.round]]),
      choice('cut', [['', words.cut_of_tray], ['cross', words.cross], ['doors', words.doors], ['open', words.open_cut]]),
      plain('pad', words.pad, { optional: true })),
    fold(`more-item${index}`, words.more_item,
      row( plain('straight', words.straight, { optional: true }), plain('finger', words.finger, { optional: true })),
      yes('turn'), yes('loose')),
    shelfPicker(me, 'items', each, [...SIDES, 'shape', 'straight']), remove);
}

function cardPart(me) {
  const { words, library } = me, board = needed(me, 'board'), measured = valueOf(board, '') === '';
  const names = library.boards.map(each => [each.name, `${each.name} · ${each.caliper} mm · ${each.about}`]);
  const choose = field(me, {
    id: idOf(me, board, ''), label: words.card_list, wide: 3, value: valueOf(board, ''), list: [['', words.card_measured], ...names],
    write: value => {
      const known = library.boards.find(each => each.name === value), old = library.boards.find(each => each.name === valueOf(board, ''));
      // A listed card is another one: what was said of the last does not hold for it.
      if (known) board.entries = board.entries.filter(entry => !CARD_KEYS.includes(entry.key));
      setEntry(board, '', value ? textEntry('', value) : null);
      const unit = unitOf(me.lines), caliper = old?.caliper ?? 0.3;
      if (!known) setEntry(board, 'caliper', typed('caliper', unit === 'in' ? inInches(caliper) : String(caliper), unit));
      fillForm(me);
    },
  });
  const thickness = measured ? entryField(me, board, 'caliper', { label: words.thickness }) : null;
  return part(me, 3, 'card', make('p', { className: 'hint', textContent: words.card_hint }), row( choose, thickness),
    shelfPicker(me, 'cards', board, CARD_KEYS));
}

function paperPart(me) {
  const { words, library } = me, tray = needed(me, 'tray');
  return part(me, 5, 'paper', row(
    lineField(me, 'page', '', { label: words.sheet, list: [['', words.unsaid], ...library.pages.map(name => [name, name]), ...other(valueOf(lineOf(me.lines, 'page'), ''), library.pages)] }),
    entryField(me, tray, 'name', { label: words.tray_name, wide: true, words: true, optional: true })));
}

/** A value of the job that a list does not have is in it all the same. */
function other(value, list) {
  return value && !list.includes(value) ? [[value, value]] : [];
}

function morePart(me) {
  const { words, library } = me, plain = (name, key, say) => lineField(me, name, key, { label: words[say] });
  const rest = make('textarea', { id: 'rest', rows: 4, spellcheck: false, value: otherLines(me.lines) });
  rest.setAttribute('aria-describedby', 'rest-why');
  rest.addEventListener('input', () => me.changedRest(rest.value, false));
  rest.addEventListener('change', () => { if (!me.isFilling) me.changedRest(rest.value, true); });
  const tongues = library.languages.map(code => [code, code]);
  return fold('more', words.more,
    row( plain('fit', 'box', 'fit_box'), plain('fit', 'item', 'fit_item'), plain('fit', 'play', 'fit_play')),
    row(
      lineField(me, 'slot', 'cut', { label: words.slot_cut, list: [['', words.unsaid], ['cross', words.cross], ['doors', words.doors], ['open', words.open_cut]] }),
      lineField(me, 'draw', 'face', { label: words.face, list: [['', words.unsaid], ['inside', words.inside], ['outside', words.outside]] }),
      lineField(me, 'words', '', { label: words.language, list: [['', words.unsaid], ...tongues], write: me.chosenWords })),
    row(entryField(me, needed(me, 'tray'), 'height', { label: words.tray_height, wide: 3, optional: true })),
    make('label', { className: 'field' }, make('span', { textContent: words.rest }), rest, make('span', { className: 'refused', id: 'rest-why' })),
    make('p', { className: 'hint', textContent: words.rest_hint }));
}

/** Takes what the text box says as the lines that no field shows; lines that fields show are left out. */
export function restLines(me, lines) {
  me.lines = [...shownLines(me.lines), ...lines.filter(each => shownLines([each]).length === 0)];
}

/** Own things of one kind: take one, or keep this one. */
function shelfPicker(me, kind, each, keys) {
  const { words, shelf } = me, take = make('select', { ariaLabel: words[`own_${kind}`] }, make('option', { value: '', textContent: words[`own_${kind}`] }), shelf[kind].map(own => make('option', { value: own.name, textContent: own.name })));
  take.addEventListener('change', () => {
    const own = shelf[kind].find(one => one.name === take.value);
    if (!own) return;
    each.entries = each.entries.filter(entry => !keys.includes(entry.key));
    for (const entry of structuredClone(own.entries)) setEntry(each, entry.key, entry);
    if (kind === 'items') setEntry(each, '', textEntry('', own.name));
    fillForm(me);
    me.changed();
  });
  const keep = make('button', { type: 'button', textContent: words.keep_it });
  keep.setAttribute('aria-label', `${words.keep_it}: ${words[`own_${kind}`]}`);
  keep.addEventListener('click', () => {
    const measures = each.entries.filter(entry => ['length', 'width', 'depth', 'caliper'].includes(entry.key)).map(entry => `${entry.text}`).join(' × ');
    const name = kind === 'items' ? valueOf(each, '') : prompt(words.shelf_name, measures || valueOf(each, ''));
    if (!name) return;
    shelve(shelf, kind, name, each.entries.filter(entry => keys.includes(entry.key)));
    me.tell(keepShelf(shelf) ? words.kept.replace('{name}', () => name) : words.keeps_nothing);
    fillForm(me);
  });
  const id = `shelf-${kind}${kind === 'items' ? me.lines.filter(line => line.name === 'item').indexOf(each) : ''}`;
  const own = words[`own_${kind}`];
  return fold(id, `${own.charAt(0).toUpperCase()}${own.slice(1)} (${shelf[kind].length})`, make('p', { className: 'hint', textContent: words.shelf_hint }), make('div', { className: 'shelf' }, shelf[kind].length > 0 ? take : null, keep));
}

function shelfPart(me) {
  const { words } = me, button = (say, act) => {
    const made = make('button', { type: 'button', textContent: words[say] });
    made.addEventListener('click', act);
    return made;
  };
  return fold('shelf', words.shelf, make('p', { className: 'hint', textContent: words.shelf_hint }), make('div', { className: 'buttons' }, button('shelf_save', me.saveShelf), button('shelf_load', me.loadShelf)));
}

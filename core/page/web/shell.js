// The page: asks the module at every key, shows its verdict, its fixes and the picture, and hands out files. The job is the
// state: what the page shows, what it keeps and what "the job" saves is one text.
import { show, viewer } from './viewer.js';
import { addressHasJob, jobInAddress, putInAddress } from './address.js';
import { ask, openModule } from './asking.js';
import { example, jobText, lineOf, setIn, shownLines, stemOf, textEntry, valueOf, withMore } from './job.js';
import { clashes, keepJob, keepShelf, lastJob, merged, readShelf, soundShelf, watchShelf } from './shelf.js';
import { fillForm, fillSettings, idOf, make, restLines } from './form.js';
import { sections } from './section.js';

/** Milliseconds after the last key. */
const PAUSE_MS = 60;
const FILES = ['pdf', 'booklet', 'svg', 'dxf', 'fold', 'html', 'job'];

const me = { lines: example(), words: {}, settings: [], shelf: readShelf(), past: [], asked: 0, told: false };
const at = id => document.getElementById(id);

/** The words of the page in a language: whether the module gave them. */
async function speak(language) {
  const found = await ask({ kind: 'words', language });
  if (!found.words) {
    me.tell(found.late ? me.words.verdict_late : me.words.verdict_broken?.replace('{why}', () => found.broken));
    return false;
  }
  me.words = found.words;
  document.documentElement.lang = language;
  document.title = `traywright: ${me.words.title}`;
  for (const each of document.querySelectorAll('[data-say]')) each.textContent = me.words[each.dataset.say] ?? '';
  for (const each of document.querySelectorAll('[data-label]')) each.setAttribute('aria-label', me.words[each.dataset.label] ?? '');
  at('form').setAttribute('aria-label', me.words.form);
  at('space').setAttribute('aria-label', me.words.picture);
  at('play').textContent = me.words.play;
  at('version').textContent = `traywright ${me.library.version}`;
  at('tongues').replaceChildren(...me.library.languages.map(code => {
    const button = make('button', { type: 'button', textContent: code, lang: code });
    button.setAttribute('aria-pressed', String(code === language));
    button.addEventListener('click', () => {
      me.chosenWords(code === 'en' ? '' : code);
      me.changed();
    });
    return button;
  }));
  fillFiles();
  if (me.view) me.view.words = viewerWords();
  return true;
}

/** The words of the page in the language of the job. */
async function follow() {
  const language = valueOf(lineOf(me.lines, 'words'), '') || 'en';
  if (language !== document.documentElement.lang && me.library.languages.includes(language)) await speak(language);
}

function viewerWords() {
  const { step, flat, play, stop } = me.words;
  return { step, flat, play, stop };
}

/** A change of the form: a moment later the module is asked. */
me.changed = () => {
  clearTimeout(me.timer);
  me.timer = setTimeout(judge, PAUSE_MS);
};

/** The words of the files, and with them those of the page. */
me.chosenWords = async code => {
  setIn(me.lines, 'words', '', code ? textEntry('', code) : null);
  await follow();
  fillForm(me);
};

/** The text of other lines goes through the reader first. Lines that have fields go there once the text box is left. */
me.changedRest = async (words, isLeft) => {
  const { lines, replaced } = await ask({ kind: 'check', name: 'more.kdl', job: words }, isLeft ? null : 'rest');
  if (replaced) return;
  if (lines) {
    restLines(me, lines);
    if (isLeft) await toFields(shownLines(lines));
  } else me.tell(me.words.rest_unread);
  me.changed();
};

/** Puts lines into those of the form, if the reader takes the values. */
async function toFields(more) {
  if (more.length === 0) return;
  const { lines, put, twice } = withMore(me.lines, more), { text: job, places } = jobText(lines);
  const { errors } = await ask({ kind: 'check', name: 'more.kdl', job });
  const wrong = (errors ?? []).flatMap(error => error.faults).find(fault => put.has(placeOf(places, fault)?.entry));
  if (twice || wrong) {
    me.tell(me.words.rest_refused.replace('{why}', () => wrong ? faultWords(wrong) : twice));
    return;
  }
  if (me.job) me.past.push(me.job);
  // The form may have changed in the meantime.
  me.lines = withMore(me.lines, more).lines;
  await follow();
  fillForm(me);
  me.tell(me.words.rest_taken.replace('{names}', () => [...new Set(more.map(each => each.name))].join(', ')));
}

/** Says something that is no verdict. */
me.tell = words => {
  at('made').textContent = words;
};

async function judge() {
  const mine = me.asked += 1, { text: job, places } = jobText(me.lines), name = `${stemOf(me.lines)}.kdl`;
  at('job').textContent = job;
  me.job = job;
  me.places = places;
  remember(job);
  const found = await ask({ kind: 'check', name, job }, 'judge');
  // Only the newest answer counts.
  if (mine !== me.asked) return;
  me.took = found.took;
  showVerdict(found);
  if (found.report && found.report.verdict !== 'fits') {
    at('fixes').setAttribute('aria-busy', 'true');
    const { fixes } = await ask({ kind: 'fixes', name, job }, 'judge');
    if (mine === me.asked) showFixes(fixes ?? []);
  }
}

function showVerdict(found) {
  const state = { 0: 'fits', 1: 'not', 2: 'unread', 3: 'broken' }[found.code];
  document.body.dataset.verdict = state === 'fits' && found.report.verdict === 'watch' ? 'watch' : state;
  at('findings').replaceChildren();
  showFixes([]);
  showPlaces(found.errors ?? []);
  const verdict = sentenceOf(found);
  if (at('verdict').textContent !== verdict) at('verdict').textContent = verdict;
  if (found.report) {
    me.settings = found.settings ?? [];
    fillSettings(me);
    const told = found.report.findings.filter(each => each.level !== 'note').slice(0, 4);
    at('findings').replaceChildren(...told.map(each => make('li', { className: each.level, textContent: `${sentence(each.message)}${each.fix ? ` ${me.words.fix}: ${sentence(each.fix)}` : ''}` })));
    at('report').textContent = found.words;
  }
  for (const button of at('files').querySelectorAll('[data-as]')) button.disabled = found.code !== 0 && button.dataset.as !== 'job';
  at('old').hidden = found.code === 0 || !me.view.scene;
  document.body.classList.toggle('bare', found.code !== 0 && !me.view.scene);
  if (found.code !== 0) return;
  show(me.view, found.scene);
  showBlank(found.blank);
  at('holds').replaceChildren(...sections(found, me.words));
}

function sentenceOf(found) {
  const { words } = me;
  if (found.late) return words.verdict_late;
  if (found.code === 3) return words.verdict_broken.replace('{why}', () => found.broken);
  if (found.code === 2) {
    const fault = found.errors[0]?.faults[0];
    return fault ? `${words.verdict_unread} ${sentence(fault.message)} ${sentence(fault.label ?? '')}` : `${words.verdict_unread} ${found.errors[0]?.words ?? ''}`;
  }
  const { measures, findings, verdict } = found.report, inches = found.unit === 'in';
  const shown = value => String(inches ? Number((value / 25.4).toFixed(3)) : Number(value.toFixed(2))), unit = found.unit;
  const count = level => findings.filter(each => each.level === level).length;
  if (found.code === 1) return words.verdict_not.replace('{count}', count('error'));
  const outside = ['length', 'width', 'depth'].map(side => shown(measures[`folded_${side}`] ?? 0)).join(' × ');
  const form = verdict === 'watch' ? words.verdict_watch.replace('{count}', count('warning')) : words.verdict_fits;
  return form.replace('{outside}', `${outside} ${unit}`).replace('{clearance}', `${shown(measures.box_clearance_length ?? 0)} ${unit}`);
}

function sentence(words) {
  const plain = words.trim();
  return plain === '' ? '' : plain.charAt(0).toUpperCase() + plain.slice(1) + (/[.!?]$/.test(plain) ? '' : '.');
}

/** Errors of the text under the fields that they are about. */
function showPlaces(errors) {
  for (const { input, why } of me.fields.values()) {
    why.textContent = '';
    input.removeAttribute('aria-invalid');
  }
  at('rest-why').textContent = '';
  for (const fault of errors.flatMap(error => error.faults)) {
    const place = placeOf(me.places, fault), field = place && me.fields.get(fieldOf(place)), words = faultWords(fault);
    if (field) {
      field.why.textContent = words;
      field.input.setAttribute('aria-invalid', 'true');
    } else at('rest-why').textContent += `${words} `;
  }
}

/** The value that a fault of the text is about. */
function placeOf(places, fault) {
  return places.find(each => fault.start < each.end && each.start < Math.max(fault.end, fault.start + 1));
}

function faultWords({ message, label }) {
  return sentence(`${message}${label ? `: ${label}` : ''}`);
}

function fieldOf({ each, entry }) {
  return each.name === 'set' ? `set-${entry.key}` : idOf(me, each, entry.key);
}

/** Fixes become buttons: each was tried by the module, which gives the changed job with it. */
function showFixes(fixes) {
  const { words } = me, place = at('fixes'), undo = me.past.length > 0 ? [make('button', { type: 'button', className: 'undo', textContent: words.undo, onclick: back })] : [];
  place.removeAttribute('aria-busy');
  place.replaceChildren(...fixes.filter(fix => fix.job).map(fix => make('button', {
    type: 'button', className: 'fix', textContent: fixWords(fix, words),
    // A second click is none.
    onclick: ({ currentTarget: button }) => { button.disabled = true; me.past.push(me.job); take(fix.job); },
  })), ...undo);
}

/** A fix in words: each change with its item, its name and its value. */
function fixWords({ changes, leaves }, words) {
  const names = { fit: { box: 'fit_box', item: 'fit_item', play: 'fit_play' }, slot: { cut: 'slot_cut' }, tray: { height: 'tray_height', style: 'style' }, board: { name: 'card_list', caliper: 'thickness' } };
  const said = changes.map(({ node, item, key, to }) => {
    const name = words[names[node]?.[key] ?? key] ?? key, value = to.match(/^\((mm|in|deg)\)"?([^"]*)"?$/);
    const known = { '#true': '', '"open"': words.open_cut, '"cross"': words.cross, '"doors"': words.doors };
    const figure = value ? `${value[2]} ${value[1] === 'deg' ? '°' : value[1]}` : known[to] ?? to.replace(/^"|"$/g, '');
    const place = item ?? (node === 'box' ? words.box_name : '');
    return `${place ? `${place}: ` : ''}${name} ${figure}`.trim();
  }).join('; ');
  return leaves > 0 ? words.fix_helps.replace('{says}', () => said).replace('{count}', leaves) : said;
}

async function back({ currentTarget: button }) {
  if (me.past.length === 0) return;
  button.disabled = true;
  const job = me.past.pop();
  if (await take(job)) return;
  me.past.push(job);
  button.disabled = false;
}

/** Takes the text of a job as the new state. */
async function take(job, name = 'job.kdl', focus = true) {
  const found = await ask({ kind: 'check', name, job });
  if (!found.lines) {
    document.body.dataset.verdict = 'unread';
    at('verdict').textContent = found.code === 3 ? sentenceOf(found) : me.words.unreadable_file;
    at('report').textContent = found.errors?.map(error => error.words).join('\n') ?? '';
    at('report').closest('details').open = true;
    return false;
  }
  me.lines = found.lines;
  // A tray without a name has that of its file.
  const tray = lineOf(me.lines, 'tray');
  if (tray && !valueOf(tray, 'name') && name !== 'job.kdl') setIn(me.lines, 'tray', 'name', textEntry('name', name.replace(/\.kdl$/i, '')));
  await follow();
  fillForm(me);
  await judge();
  if (focus) at('verdict').focus();
  return true;
}

/** The drawing of the blank is the file's own, without its size. Names in it come from people: only shapes and words stay. */
function showBlank(svg) {
  const drawn = new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement;
  const known = new Set(['svg', 'g', 'path', 'text', 'tspan', 'title', 'desc', 'defs', 'polygon', 'rect', 'line', 'circle']);
  for (const each of [...drawn.querySelectorAll('*')]) if (!known.has(each.localName)) each.remove();
  drawn.removeAttribute('width');
  drawn.removeAttribute('height');
  drawn.setAttribute('role', 'img');
  drawn.setAttribute('aria-label', me.words.blank_of);
  at('blank').replaceChildren(document.importNode(drawn, true));
}

function fillFiles() {
  const { words } = me, button = (say, act, as) => {
    const made = make('button', { type: 'button', textContent: words[say] });
    if (as) made.dataset.as = as;
    made.addEventListener('click', act);
    return made;
  };
  at('files').replaceChildren(...FILES.map(as => button(`file_${as}`, () => hand(as), as)), button('open_job', openJob), button('link', copyLink), button('print', () => print()));
}

/** Makes the files of an exporter and hands them out. */
async function hand(as) {
  const stem = stemOf(me.lines);
  if (as === 'job') {
    save(`${stem}.kdl`, me.job);
    return;
  }
  me.tell(me.words.making);
  const { files = [], said = [], broken, late: isLate } = await ask({ kind: 'files', name: `${stem}.kdl`, job: me.job, exporter: as });
  for (const [suffix, bytes] of files) save(stem + suffix, bytes);
  const names = files.map(([suffix]) => stem + suffix).join(', ');
  me.tell([names && me.words.saved.replace('{name}', () => names), ...said, broken, isLate && me.words.verdict_late].filter(Boolean).join(' '));
}

function save(name, content) {
  const link = make('a', { href: URL.createObjectURL(new Blob([content])), download: name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 4000);
}

function pick(accept) {
  return new Promise(done => {
    const input = make('input', { type: 'file', accept });
    input.addEventListener('change', () => done(input.files[0] ?? null));
    input.click();
  });
}

async function openJob() {
  const file = await pick('.kdl');
  if (file) await load(file);
}

async function load(file) {
  if (file.size > 262144) {
    me.tell(me.words.too_large);
    return;
  }
  if (me.job) me.past.push(me.job);
  await take(await file.text(), file.name);
}

me.saveShelf = () => save('traywright-shelf.json', `${JSON.stringify(me.shelf, null, 1)}\n`);
me.loadShelf = async () => {
  const file = await pick('.json');
  if (!file) return;
  try {
    const read = soundShelf(JSON.parse(await file.text())), both = clashes(me.shelf, read);
    merged(me.shelf, read, both.length === 0 || confirm(me.words.shelf_clash.replace('{names}', () => both.join(', '))));
    me.tell(keepShelf(me.shelf) ? me.words.shelf_loaded : me.words.keeps_nothing);
    fillForm(me);
  } catch {
    me.tell(me.words.shelf_unread);
  }
};

// Another tab puts things on the shelf too. A text that is being typed stays.
watchShelf(() => {
  merged(me.shelf, readShelf(), true);
  if (me.view && document.activeElement?.id !== 'rest') fillForm(me);
});

async function remember(job) {
  if (!keepJob(job) && !me.told) {
    me.told = true;
    me.tell(me.words.keeps_nothing);
  }
  await putInAddress(job);
}

async function copyLink() {
  try {
    await navigator.clipboard.writeText(location.href);
    me.tell(me.words.link_copied);
  } catch {
    me.tell(location.href);
  }
}

/** The job to begin with: that of the address, else the last one, else the example. */
async function firstJob() {
  try {
    if (addressHasJob()) return await jobInAddress();
  } catch {
    me.tell(me.words.link_unread);
  }
  return lastJob();
}

for (const name of ['dragover', 'drop']) {
  document.addEventListener(name, event => {
    event.preventDefault();
    const file = name === 'drop' && event.dataTransfer.files[0];
    if (file) load(file);
  });
}

(async () => {
  const { library, broken = '' } = await openModule();
  if (!library) throw new Error(broken);
  me.library = library;
  const wished = navigator.language.slice(0, 2);
  if (!await speak(library.languages.includes(wished) ? wished : 'en')) throw new Error('words');
  // A damaged link is said in the words of the page.
  const job = await firstJob();
  if (!job && document.documentElement.lang !== 'en') setIn(me.lines, 'words', '', textEntry('', document.documentElement.lang));
  me.view = viewer(document, viewerWords());
  fillForm(me);
  if (!job || !await take(job, 'job.kdl', false)) {
    if (job && addressHasJob()) me.tell(me.words.link_unread);
    await judge();
  }
  me.ready = performance.now();
})().catch(fault => {
  // There may be no words of the page yet.
  document.body.dataset.verdict = 'broken';
  at('verdict').textContent = `This page cannot start. It needs a browser of 2023 or later, with WebAssembly and DecompressionStream. · Diese Seite kann nicht starten. Sie braucht einen Browser von 2023 oder später, mit WebAssembly und DecompressionStream. (${fault.message})`;
});

// The page: asks the module at every key, shows its verdict, its fixes and the picture, and hands out files. The job is the
// state: what the page shows, what it keeps and what "the job" saves is one text.
import { show, viewer } from './viewer.js';
import { addressHasJob, jobInAddress, putInAddress } from './address.js';
import { ask, openModule } from './asking.js';
import { keepPresent, measuresTable, showComparison, stopComparing } from './compare.js';
import { faultWords, placeOf, saidOf, sentence, showPlaces, stillMissing, withoutEmpty } from './faults.js';
import { showFixes } from './fixes.js';
import { empty, example, jobText, lineOf, setIn, shownLength, shownLines, stemOf, textEntry, unitOf, valueOf, withMore } from './job.js';
import { clashes, keepJob, keepShelf, lastJob, merged, readShelf, soundShelf, watchShelf } from './shelf.js';
import { make } from './fields.js';
import { fillForm, restLines } from './form.js';
import { sections } from './section.js';
import { drawStyles, fillSettings, markStyles } from './styles.js';

/** Milliseconds after the last key. */
const PAUSE_MS = 60;
/** Without a key for so long, nobody types, in milliseconds. */
const QUIET_MS = 600;
const FILES = ['pdf', 'booklet', 'svg', 'dxf', 'fold', 'html', 'solid', 'job'];

const me = { lines: example(), words: {}, settings: [], shelf: readShelf(), past: [], drawings: {}, kept: null, present: {}, asked: 0, touched: 0, told: false };
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
  me.touched = performance.now();
  warn('');
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
  remembered(me.words.more_lines);
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

/** Says what went wrong beside the verdict, until the next change. */
function warn(words) {
  at('notice').textContent = words;
}

/** The job as it is can be gone back to. */
function remembered(says) {
  if (me.job) me.past.push({ job: me.job, says });
}

async function judge() {
  const mine = me.asked += 1, { text: job, places } = jobText(me.lines), name = `${stemOf(me.lines)}.kdl`;
  at('job').textContent = job;
  me.job = job;
  me.places = places;
  remember(job);
  markStyles(me);
  const found = await ask({ kind: 'check', name, job }, 'judge');
  // Only the newest answer counts.
  if (mine !== me.asked) return;
  me.took = found.took;
  const all = found.errors ?? [], seen = withoutEmpty(me, all), missing = found.code === 2 && seen.length === 0 ? stillMissing(me) : '';
  // An empty value that no field asks for is an error like any other.
  found.errors = seen.length > 0 || missing ? seen : all;
  showVerdict({ ...found, job, missing });
  if (found.report && found.report.verdict !== 'fits') {
    at('fixes').setAttribute('aria-busy', 'true');
    const { fixes } = await ask({ kind: 'fixes', name, job }, 'judge');
    if (mine === me.asked) showFixes(me, fixes ?? []);
  }
}

function showVerdict(found) {
  const state = { 0: 'fits', 1: 'not', 2: 'unread', 3: 'broken' }[found.code];
  document.body.dataset.verdict = found.missing ? 'asks' : state === 'fits' && found.report.verdict === 'watch' ? 'watch' : state;
  at('findings').replaceChildren();
  showFixes(me, []);
  showPlaces(me, found.errors);
  const verdict = sentenceOf(found);
  if (at('verdict').textContent !== verdict) at('verdict').textContent = verdict;
  if (found.report) {
    me.settings = found.settings ?? [];
    fillSettings(me);
    showFindings(found);
  }
  for (const button of at('files').querySelectorAll('[data-as]')) button.disabled = found.code !== 0 && button.dataset.as !== 'job';
  at('old').hidden = found.code === 0 || !me.view.scene;
  document.body.classList.toggle('bare', found.code !== 0 && !me.view.scene);
  if (found.code === 0) {
    show(me.view, found.scene);
    showBlank(found.blank);
    at('compass').textContent = found.scene.outside ? me.words.compass_outside : me.words.compass;
    at('holds').replaceChildren(...sections(found, me.words));
  }
  at('measures').replaceChildren(measuresTable(found, me.words));
  showComparison(me, found);
}

/** Errors and warnings, a few; notes stand in full at the side. */
function showFindings({ report: { findings }, words }) {
  const entry = each => make('li', { className: each.level, textContent: `${sentence(each.message)}${each.fix ? ` ${me.words.fix}: ${sentence(each.fix)}` : ''}` });
  const isNote = each => each.level === 'note', notes = findings.filter(isNote);
  at('findings').replaceChildren(...findings.filter(each => !isNote(each)).slice(0, 4).map(entry));
  at('notes').replaceChildren(...notes.map(entry));
  at('notes').closest('details').hidden = notes.length === 0;
  at('report').textContent = words;
}

function sentenceOf(found) {
  const { words } = me;
  if (found.missing) return words.still_missing.replace('{names}', () => found.missing);
  if (found.late) return words.verdict_late;
  if (found.code === 3) return words.verdict_broken.replace('{why}', () => found.broken);
  if (found.code === 2) {
    const fault = found.errors[0]?.faults[0];
    return fault ? `${words.verdict_unread} ${saidOf(me, fault)}` : `${words.verdict_unread} ${found.errors[0]?.words ?? ''}`;
  }
  const { measures, findings, verdict } = found.report, unit = found.unit, shown = mm => String(shownLength(mm, unit));
  const count = level => findings.filter(each => each.level === level).length;
  if (found.code === 1) return words.verdict_not.replace('{count}', count('error'));
  const outside = ['length', 'width', 'depth'].map(side => shown(measures[`folded_${side}`] ?? 0)).join(' × ');
  const form = verdict === 'watch' ? words.verdict_watch.replace('{count}', count('warning')) : words.verdict_fits;
  return form.replace('{outside}', `${outside} ${unit}`).replace('{clearance}', `${shown(measures.box_clearance_length ?? 0)} ${unit}`);
}

/** Takes the text of a job as the new state: whether it is one. A text that is none changes nothing; a step with words can be undone. */
me.take = async (job, { name = 'job.kdl', focus = true, says = '' } = {}) => {
  const found = await ask({ kind: 'check', name, job });
  if (!found.lines) {
    const fault = found.errors?.[0]?.faults[0];
    warn(me.words.not_opened.replace('{name}', () => name).replace('{why}', () => fault ? faultWords(fault) : sentence(found.errors?.[0]?.words ?? sentenceOf(found))));
    return false;
  }
  if (says) remembered(says);
  me.lines = found.lines;
  // A tray without a name has that of its file.
  const tray = lineOf(me.lines, 'tray');
  if (tray && !valueOf(tray, 'name') && name !== 'job.kdl') setIn(me.lines, 'tray', 'name', textEntry('name', name.replace(/\.kdl$/i, '')));
  warn('');
  await follow();
  fillForm(me);
  await judge();
  if (focus) at('verdict').focus();
  return true;
};

/** A job that has all to be filled in; unit, paper and words stay. */
async function startEmpty() {
  warn('');
  remembered(me.words.start_empty);
  me.lines = [...empty(unitOf(me.lines)), ...me.lines.filter(({ name }) => name === 'page' || name === 'words')];
  fillForm(me);
  await judge();
  at('f-box-length').focus();
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
  at('files').replaceChildren(...FILES.map(as => button(`file_${as}`, () => hand(as), as)), button('open_job', openJob), button('start_empty', startEmpty), button('link', copyLink), button('print', () => print()));
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
  const kib = bytes => Math.ceil(bytes / 1024), most = me.library.largest, { words } = me;
  if (file.size > most) {
    const why = words.too_large.replace('{size}', kib(file.size)).replace('{most}', kib(most));
    warn(words.not_opened.replace('{name}', () => file.name).replace('{why}', why));
    return;
  }
  await me.take(await file.text(), { name: file.name, says: words.opened.replace('{name}', () => file.name) });
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
    warn(me.words.link_unread);
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

/** The drawings of the styles come last, while nobody types: a question of the form does not wait for one. */
async function fetchDrawings() {
  for (const { name } of me.library.styles) {
    while (performance.now() - me.touched < QUIET_MS) await new Promise(done => setTimeout(done, QUIET_MS));
    const { drawing } = await ask({ kind: 'drawing', style: name });
    if (drawing) me.drawings[name] = drawing;
    drawStyles(me);
  }
}

/** The buttons of the picture are its keys. */
for (const [id, key] of [['nearer', '+'], ['farther', '-'], ['straight', '0']]) {
  at(id).addEventListener('click', () => at('space').dispatchEvent(new KeyboardEvent('keydown', { key })));
}
at('keep').addEventListener('click', () => keepPresent(me));
at('stop-compare').addEventListener('click', () => stopComparing(me));
// Paper cannot be opened: what is folded away is printed too, but for the long texts.
addEventListener('beforeprint', () => {
  const closed = [...document.querySelectorAll('#side details:not(.long, [open])')];
  for (const each of closed) each.open = true;
  addEventListener('afterprint', () => closed.forEach(each => { each.open = false; }), { once: true });
});
// A field that gets the focus is not hidden by the verdict.
new ResizeObserver(() => document.documentElement.style.setProperty('--ribbon', `${at('ribbon').offsetHeight}px`)).observe(at('ribbon'));

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
  if (!job || !await me.take(job, { focus: false })) {
    if (job && addressHasJob()) warn(me.words.link_unread);
    fillForm(me);
    await judge();
  }
  me.ready = performance.now();
  // Drawings are ornaments: without them the page works.
  fetchDrawings().catch(() => {});
})().catch(fault => {
  // There may be no words of the page yet.
  document.body.dataset.verdict = 'broken';
  at('verdict').textContent = `This page cannot start. It needs a browser of 2023 or later, with WebAssembly and DecompressionStream. · Diese Seite kann nicht starten. Sie braucht einen Browser von 2023 oder später, mit WebAssembly und DecompressionStream. (${fault.message})`;
});

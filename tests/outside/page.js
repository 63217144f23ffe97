// Opens the page in a browser from its file, without a network, and uses it as a maker would.
// Outsiders: the browser; playwright-core, which moves it; axe-core, which judges what assistive technology gets.
// Arguments: the browser, the page, a folder with NAME.kdl and native files of the jobs, then the jobs' names; the first is
// used throughout. Prints what was seen.
'use strict';
const { readFileSync } = require('node:fs');
const { pathToFileURL } = require('node:url');
const { chromium } = require('playwright-core');

const AXE = readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa', 'best-practice'];
const SIZES = { desktop: { width: 1440, height: 900 }, phone: { width: 390, height: 844 } };
const [program, page, folder, ...names] = process.argv.slice(2);
const seen = { noise: [], axe: [], sideways: {} };

async function opened(browser, size, address, more = {}) {
  const context = await browser.newContext({ viewport: SIZES[size], offline: true, acceptDownloads: true, bypassCSP: true, locale: 'en-GB', ...more });
  const tab = await context.newPage();
  tab.on('console', message => seen.noise.push(message.text()));
  tab.on('pageerror', error => seen.noise.push(error.message));
  tab.on('request', request => { if (!/^(file|data|blob):/.test(request.url())) seen.noise.push(request.url()); });
  tab.setDefaultTimeout(90000);
  await tab.goto(address);
  await state(tab, ['fits', 'watch', 'not', 'unread']);
  return tab;
}

const state = (tab, wanted) => tab.waitForFunction(list => list.includes(document.body.dataset.verdict), wanted);
const verdict = tab => tab.textContent('#verdict');

async function judged(tab, name) {
  // At its end the page has nothing under the verdict that sticks to a phone's lower edge: no button is half covered.
  await tab.evaluate(() => scrollTo(0, document.documentElement.scrollHeight));
  await tab.evaluate(AXE);
  const found = await tab.evaluate(tags => axe.run(document, { runOnly: tags }), TAGS);
  for (const { id, nodes } of found.violations) seen.axe.push(`${name}: ${id} at ${nodes.map(node => node.target).slice(0, 3)}`);
  seen.rules = Math.max(seen.rules ?? 0, found.passes.length);
  const wide = await tab.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  seen.sideways[name] = wide;
}

/** Loads a job as a maker opens a file. */
async function load(tab, name, text) {
  const [chooser] = await Promise.all([tab.waitForEvent('filechooser'), tab.getByRole('button', { name: 'Open a job' }).click()]);
  await chooser.setFiles({ name, mimeType: 'text/plain', buffer: Buffer.from(text) });
}

async function downloaded(tab, as) {
  const [download] = await Promise.all([tab.waitForEvent('download'), tab.click(`[data-as=${as}]`)]);
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

async function files(tab) {
  seen.files = [];
  for (const name of names) {
    const job = readFileSync(`${folder}/${name}.kdl`, 'utf8');
    await load(tab, `${name}.kdl`, job);
    // With the verdict on the file comes the button that undoes its opening.
    await tab.waitForFunction(file => document.querySelector('.undo')?.textContent.includes(file), `${name}.kdl`);
    await state(tab, ['fits', 'watch']);
    for (const as of ['svg', 'pdf', 'dxf', 'booklet', 'fold', 'html', 'solid']) {
      const { name: saved, bytes } = await downloaded(tab, as);
      const suffix = { booklet: '-booklet.pdf', solid: '.glb' }[as] ?? `.${as}`;
      const native = readFileSync(`${folder}/${name}${suffix}`);
      seen.files.push({ saved, same: Buffer.compare(native, bytes) === 0 });
    }
  }
}

async function typing(tab) {
  // Field by field with the keyboard alone, from the first field on.
  await tab.focus('#f-box-length');
  for (const words of ['200', '130', '40']) {
    await tab.keyboard.press('Control+A');
    await tab.keyboard.type(words);
    await tab.keyboard.press('Tab');
  }
  await tab.waitForFunction(() => /198 × 128 × 38/.test(document.getElementById('verdict').textContent));
  seen.typed = await verdict(tab);
  await tab.fill('#f-box-depth', '26');
  await state(tab, ['not']);
  await tab.waitForSelector('.fix');
  seen.tight = { verdict: await verdict(tab), fixes: await tab.$$eval('.fix', all => all.map(each => each.textContent)), files: await tab.isDisabled('[data-as=pdf]'), old: await tab.isVisible('#old') };
  await judged(tab, `not ${tab.viewportSize().width}`);
  await tab.focus('.fix');
  await tab.keyboard.press('Enter');
  await state(tab, ['fits', 'watch']);
  seen.fixed = { verdict: await verdict(tab), focus: await tab.evaluate(() => document.activeElement.id) };
  await tab.fill('#f-box-depth', 'deep');
  await state(tab, ['unread']);
  seen.unread = { verdict: await verdict(tab), why: await tab.textContent('#f-box-depth-why'), marked: await tab.getAttribute('#f-box-depth', 'aria-invalid') };
  await judged(tab, `unread ${tab.viewportSize().width}`);
  await tab.fill('#f-box-depth', '1,240');
  await tab.waitForFunction(() => document.getElementById('f-box-depth-why').textContent.includes('1,240'));
  seen.grouped = await tab.textContent('#f-box-depth-why');
  await tab.fill('#f-box-depth', '3,6 cm');
  await state(tab, ['fits', 'watch']);
  seen.centimetres = await tab.evaluate(() => me.job);
  await tab.fill('#f-box-depth', '34,5');
  await tab.waitForFunction(() => me.job.includes('34.5'));
  await state(tab, ['fits', 'watch']);
  seen.comma = await tab.evaluate(() => me.job);
}

/** Keeps a tray, makes the box 10 mm deeper, and reads both from the table. */
async function comparing(tab) {
  const before = await tab.inputValue('#f-box-depth'), job = await tab.evaluate(() => me.job);
  await tab.waitForFunction(() => me.present.job === me.job);
  await tab.focus('#keep');
  await tab.keyboard.press('Enter');
  await tab.fill('#f-box-depth', String(Number(before.replace(',', '.')) + 10));
  await tab.waitForFunction(() => document.querySelectorAll('#compare .differs').length > 3 && me.present.job === me.job);
  const rows = await tab.$$eval('#compare tbody tr', all => all.map(row => [...row.children].map(cell => cell.textContent)));
  const blanks = await tab.$$eval('#compare svg g', all => all.map(group => group.getBBox().width));
  seen.compared = { rows: Object.fromEntries(rows.map(([name, ...cells]) => [name, cells])), blanks };
  await judged(tab, `compares ${tab.viewportSize().width}`);
  await tab.focus('#stop-compare');
  await tab.keyboard.press('Enter');
  seen.compared.ended = await tab.isHidden('#compare');
  seen.compared.focus = await tab.evaluate(() => document.activeElement.id);
  await tab.fill('#f-box-depth', before);
  await tab.waitForFunction(old => me.job === old, job);
  await state(tab, ['fits', 'watch']);
}

/** States that a phone shows too: a misfit, a text that is no number, a comparison, an empty form. */
async function onPhone(browser) {
  const tab = await opened(browser, 'phone', pathToFileURL(page).href);
  await tab.fill('#f-box-depth', '26');
  await state(tab, ['not']);
  await tab.waitForSelector('.fix');
  await judged(tab, 'not 390');
  await tab.focus('#f-board-name');
  seen.covered = await tab.evaluate(() => document.activeElement.getBoundingClientRect().bottom > document.getElementById('ribbon').getBoundingClientRect().top);
  await tab.fill('#f-box-depth', 'deep');
  await state(tab, ['unread']);
  await judged(tab, 'unread 390');
  await tab.fill('#f-box-depth', '34');
  await state(tab, ['fits']);
  await comparing(tab);
  await tab.getByRole('button', { name: 'Start empty', exact: true }).click();
  await state(tab, ['asks']);
  seen.empty = { verdict: await verdict(tab), length: await tab.inputValue('#f-box-length'), invalid: await tab.$$eval('[aria-invalid]', all => all.length) };
  await judged(tab, 'asks 390');
  await tab.click('.undo');
  await state(tab, ['fits']);
  seen.empty.undone = await tab.inputValue('#f-box-length');
  await tab.context().close();
}

async function keeping(browser, tab) {
  await tab.waitForTimeout(300);
  const link = await tab.evaluate(() => location.href);
  await tab.reload();
  await state(tab, ['fits', 'watch']);
  seen.reloaded = (await tab.evaluate(() => me.job)) === seen.comma;
  const other = await opened(browser, 'phone', link);
  seen.linked = (await other.evaluate(() => me.job)) === seen.comma;
  await judged(other, 'fits 390');
  await load(other, 'broken.kdl', 'tray style="single-slot"\nbx length=(mm)1\n');
  await state(other, ['unread']);
  seen.broken = { verdict: await verdict(other), rest: await other.inputValue('#rest') };
  await load(other, 'noise.kdl', 'a = { [ ] }');
  await other.waitForFunction(() => document.getElementById('notice').textContent.includes('noise.kdl'));
  seen.noiseFile = { notice: await other.textContent('#notice'), rest: await other.inputValue('#rest') };
  await load(other, 'photo.kdl', 'x'.repeat(20000));
  await other.waitForFunction(() => document.getElementById('notice').textContent.includes('photo.kdl'));
  seen.largeFile = await other.textContent('#notice');
  await other.context().close();
}

async function folding(browser) {
  const tab = await opened(browser, 'desktop', pathToFileURL(page).href, { reducedMotion: 'reduce' });
  const count = Number(await tab.getAttribute('#when', 'max'));
  await tab.focus('#when');
  await tab.keyboard.press('Home');
  const said = [await tab.getAttribute('#when', 'aria-valuetext')], stood = new Set();
  for (let step = 0; step < count; step++) {
    await tab.keyboard.press('ArrowRight');
    stood.add(await tab.inputValue('#when'));
    said.push(await tab.getAttribute('#when', 'aria-valuetext'));
  }
  seen.folded = { count, said, between: [...stood].filter(at => !Number.isInteger(Number(at))) };
  await tab.context().close();
}

(async () => {
  const browser = await chromium.launch({ executablePath: program, args: ['--no-sandbox'] });
  try {
    const tab = await opened(browser, 'desktop', pathToFileURL(page).href);
    seen.first = await verdict(tab);
    await tab.waitForFunction(() => document.querySelectorAll('.drawing svg').length === me.library.styles.length);
    await judged(tab, 'fits 1440');
    await typing(tab);
    await comparing(tab);
    await keeping(browser, tab);
    await files(tab);
    seen.took = await tab.evaluate(() => me.took);
    await folding(browser);
    await onPhone(browser);
    await tab.getByRole('button', { name: 'de', exact: true }).click();
    await tab.waitForFunction(() => document.documentElement.lang === 'de');
    await state(tab, ['fits', 'watch']);
    seen.german = await tab.textContent('#files button');
    console.log(JSON.stringify(seen));
  } finally {
    await browser.close();
  }
})().catch(error => {
  console.error(`${error.stack}\n${JSON.stringify(seen)}`);
  process.exit(1);
});

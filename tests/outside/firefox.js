// Opens the page in Firefox from its file and uses it as a maker would: another browser than that of page.js, with another
// engine for scripts, WebAssembly and pictures. Outsider: the browser, moved over its own socket, so that no package is needed.
// Source: firefox-source-docs.mozilla.org, "Marionette", protocol version 3: a length, a colon, and JSON.
// Arguments: the browser, the page, a folder with barometer.svg and barometer.pdf as the native program makes them, and one to
// work in. Prints what was seen.
'use strict';
const { spawn } = require('node:child_process');
const { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } = require('node:fs');
const { connect } = require('node:net');
const { pathToFileURL } = require('node:url');

const [program, page, folder, work] = process.argv.slice(2);
const profile = `${work}/profile`, downloads = `${work}/downloads`;
const PREFERENCES = {
  'marionette.port': 0, 'browser.download.folderList': 2, 'browser.download.dir': downloads, 'browser.download.alwaysOpenPanel': false,
  'browser.download.always_ask_before_handling_new_types': false, 'pdfjs.disabled': true, 'browser.shell.checkDefaultBrowser': false,
  'datareporting.policy.dataSubmissionEnabled': false, 'network.dns.disabled': true, 'app.update.disabledForTesting': true,
};
const ELEMENT = 'element-6066-11e4-a52e-4f735466cecf';
const pause = milliseconds => new Promise(done => setTimeout(done, milliseconds));

/** Waits until something is there. Ends with an error that names it. */
async function until(name, find) {
  for (let tries = 0; tries < 900; tries++) {
    const found = await find();
    if (found) return found;
    await pause(100);
  }
  throw new Error(`${name} did not come`);
}

/** A talk with the browser: `say(command, parameters)` gives its answer. */
function talk(port) {
  const socket = connect(port, '127.0.0.1'), waiting = new Map();
  let heard = Buffer.alloc(0), count = 0, greeted;
  const greeting = new Promise((done, fail) => { greeted = done; socket.on('error', fail); });
  socket.on('data', bytes => {
    heard = Buffer.concat([heard, bytes]);
    for (let colon = heard.indexOf(':'); colon > 0; colon = heard.indexOf(':')) {
      const end = colon + 1 + Number(heard.subarray(0, colon));
      if (heard.length < end) return;
      const message = JSON.parse(heard.subarray(colon + 1, end));
      heard = heard.subarray(end);
      if (!Array.isArray(message)) greeted();
      else waiting.get(message[1])(message);
    }
  });
  return async (command, parameters = {}) => {
    await greeting;
    const id = count += 1, words = Buffer.from(JSON.stringify([0, id, command, parameters]));
    const answer = new Promise(done => waiting.set(id, done));
    socket.write(Buffer.concat([Buffer.from(`${words.length}:`), words]));
    const [, , fault, result] = await answer;
    if (fault) throw new Error(`${command}: ${fault.message}`);
    return result?.value ?? result;
  };
}

async function use(say) {
  const seen = {}, run = script => say('WebDriver:ExecuteScript', { script, args: [] });
  const part = async selector => (await say('WebDriver:FindElement', { using: 'css selector', value: selector }))[ELEMENT];
  const click = async selector => say('WebDriver:ElementClick', { id: await part(selector) });
  const state = (...wanted) => until(wanted.join(' or '), async () => wanted.includes(await run('return document.body.dataset.verdict')));
  const verdict = () => run('return document.getElementById("verdict").textContent');
  await say('WebDriver:NewSession', { capabilities: { alwaysMatch: {} } });
  seen.browser = await run('return navigator.userAgent');
  await say('WebDriver:Navigate', { url: pathToFileURL(page).href });
  await state('fits', 'watch');
  seen.first = await verdict();
  seen.painted = await until('a picture', () => run('const it = document.getElementById("space"), { data } = it.getContext("2d").getImageData(0, 0, it.width, it.height); const all = new Set(); for (let i = 0; i < data.length; i += 4) all.add(data[i] << 16 | data[i + 1] << 8 | data[i + 2]); return all.size > 3 ? all.size : 0'));
  seen.same = {};
  for (const as of ['svg', 'pdf']) {
    await click(`[data-as=${as}]`);
    await until(`the file ${as}`, () => run(`return document.getElementById("made").textContent.includes(".${as}")`));
    const name = await until(`the ${as} on the disk`, () => readdirSync(downloads).find(file => file.endsWith(`.${as}`)));
    const native = readFileSync(`${folder}/barometer.${as}`);
    seen.same[as] = await until(`all of the ${as}`, () => readFileSync(`${downloads}/${name}`).length >= native.length).then(() => native.equals(readFileSync(`${downloads}/${name}`)));
  }
  const depth = await part('#f-box-depth');
  await say('WebDriver:ElementClear', { id: depth });
  await say('WebDriver:ElementSendKeys', { id: depth, text: '26' });
  await state('not');
  await until('a fix', () => run('return document.querySelectorAll(".fix").length'));
  await click('.fix');
  await state('fits', 'watch');
  seen.fixed = await verdict();
  return seen;
}

(async () => {
  mkdirSync(profile, { recursive: true });
  mkdirSync(downloads, { recursive: true });
  writeFileSync(`${profile}/user.js`, Object.entries(PREFERENCES).map(([name, value]) => `user_pref(${JSON.stringify(name)}, ${JSON.stringify(value)});\n`).join(''));
  const browser = spawn(program, ['--headless', '--no-remote', '--marionette', '--profile', profile], { stdio: 'ignore', env: { ...process.env, HOME: work } });
  const port = `${profile}/MarionetteActivePort`;
  try {
    await until('the socket of the browser', () => existsSync(port) && readFileSync(port, 'utf8').trim());
    const say = talk(Number(readFileSync(port, 'utf8'))), seen = await use(say);
    await say('Marionette:Quit', { flags: ['eForceQuit'] }).catch(() => {});
    console.log(JSON.stringify(seen));
  } finally {
    browser.kill();
  }
  process.exit(0);
})().catch(error => {
  console.error(error.stack);
  process.exit(1);
});

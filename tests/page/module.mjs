// Runs the module of the page and compares its files with those of the native program.
// Arguments: the module, a folder with jobs (NAME.kdl) and the native files of each, then the jobs' names.
import { existsSync, readFileSync } from 'node:fs';
import { open } from './open.mjs';

const EXPORTERS = ['svg', 'pdf', 'dxf', 'booklet', 'fold', 'html', 'solid'];
const [file, folder, ...names] = process.argv.slice(2);
const module = new WebAssembly.Module(readFileSync(file));
let page = open(module);
const found = { library: page.library(), files: [], differ: [], codes: {} };

function compare(name) {
  const code = page.check(`${name}.kdl`, readFileSync(`${folder}/${name}.kdl`));
  found.codes[name] = code;
  for (const exporter of EXPORTERS) {
    const { files, said } = page.exported(exporter);
    for (const [suffix, bytes] of files) {
      const native = `${folder}/${name}${suffix}`;
      found.files.push(`${name}${suffix}`);
      if (!existsSync(native) || Buffer.compare(readFileSync(native), bytes) !== 0) found.differ.push(`${name}${suffix}`);
    }
    if (files.length === 0) found.differ.push(`${name} ${exporter}: ${said}`);
  }
}

for (const name of names) compare(name);
found.memory = page.memory();

// What traps is thrown away, and the next one works.
try {
  page.file(99);
} catch (trap) {
  found.trap = { words: page.panicked(), kind: trap.constructor.name };
}
page = open(module);
const before = found.differ.length;
compare(names[0]);
found.afterTrap = found.differ.length === before;

// A text made to be tangled is refused or traps, and does nothing else.
found.tangled = ['a=', 'a {', '"', '(', '/*'].map(piece => {
  try {
    return page.check('tangled.kdl', Buffer.from(piece.repeat(8000)));
  } catch (trap) {
    page = open(module);
    // The stack of the module or that of its host is used up.
    return trap instanceof WebAssembly.RuntimeError || trap instanceof RangeError ? 'trap' : String(trap);
  }
});

const job = readFileSync(`${folder}/${names[0]}.kdl`, 'utf8');
const tight = job.replace(/(box .*depth=\(mm\))\d+/, '$126'), tightCode = page.check('tight.kdl', Buffer.from(tight));
const tightFixes = page.fixes();
found.tight = { code: tightCode, noFiles: page.exported('svg').files.length, fixes: tightFixes.fixes.length };
found.tight.mended = tightFixes.fixes.map(fix => page.check('mended.kdl', Buffer.from(fix.job)) === 0);
found.wrong = { code: page.check('wrong.kdl', Buffer.from(job.replace('\nbox ', '\nbx '))), answer: page.answer() };
found.font = { code: page.check('font.kdl', Buffer.from(`${job}\n`.replace(/^page.*$/m, '') + 'page "A4" font="mine.ttf"\n')), said: page.exported('pdf').said };
console.log(JSON.stringify(found));

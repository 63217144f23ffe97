// Lets `node --check` read the scripts that stand in a page, its worker among them.
// Argument: the page. Prints how many there are, and what was complained of.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const page = readFileSync(process.argv[2], 'utf8'), folder = mkdtempSync(join(tmpdir(), 'traywright-'));
// Read as modules: in those a function counts as a name that may stand once, too.
const scripts = [...page.matchAll(/<script(?: type="text\/plain" id="worker")?>([^]*?)<\/script>/g)].map(([, text]) => text);
const faults = scripts.flatMap((text, index) => {
  const file = join(folder, `${index}.mjs`);
  writeFileSync(file, text);
  const { status, stderr } = spawnSync(process.execPath, ['--check', file], { encoding: 'utf8' });
  return status === 0 ? [] : [stderr];
});
rmSync(folder, { recursive: true });
console.log(JSON.stringify({ scripts: scripts.length, faults }));

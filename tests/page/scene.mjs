// What stands in a page that the exporter `html` wrote.
import { readFileSync } from 'node:fs';

/** The scene of a page. */
export function sceneOf(file) {
  return embedded(file, 'scene');
}

/** The words of its scripts. */
export function wordsOf(file) {
  return embedded(file, 'words');
}

function embedded(file, id) {
  const text = readFileSync(file, 'utf8'), begin = `<script type="application/json" id="${id}">`;
  const from = text.indexOf(begin) + begin.length;
  return JSON.parse(text.slice(from, text.indexOf('</script>', from)));
}

// Runs the functions of `job.js` that need no page. Argument: its folder. Prints what they gave.
import { pathToFileURL } from 'node:url';

const { converted, figureEntry, jobLine, jobText, textEntry, withMore } = await import(pathToFileURL(`${process.argv[2]}/job.js`));
const found = {};

/** Figures that are others after they went to the other unit and back. */
function astray(from, to, figures) {
  return figures.filter(figure => {
    const lines = [jobLine('board', figureEntry('caliper', figure, from))];
    converted(lines, to);
    converted(lines, from);
    return lines[0].entries[0].text !== figure;
  });
}

const upTo = (count, part) => Array.from({ length: count }, (_, index) => String((index + 1) / part));
found.astray = [...astray('mm', 'in', upTo(20000, 1000)), ...astray('in', 'mm', upTo(20000, 10000)), ...astray('in', 'mm', upTo(640, 64))];
found.quoted = jobText([jobLine('item', textEntry('', 'a\u200e\u200fb\u202a\u202ec\u2066\u2069d\ufeffe\u0007"\\'))]).text;

const page = jobLine('page', textEntry('', 'A4')), set = jobLine('set', figureEntry('one', '1'), figureEntry('two', '2')), lens = jobLine('item', textEntry('', 'lens'));
const more = [
  jobLine('page', textEntry('', 'Letter'), figureEntry('margin', '8')), jobLine('set', figureEntry('two', '3')),
  jobLine('item', textEntry('', 'lens'), figureEntry('pad', '2')), jobLine('item', textEntry('', 'cap')), jobLine('fit', figureEntry('box', '2')),
];
const all = withMore([page, set, lens], more);
found.more = jobText(all.lines).text;
found.put = all.put.size;
found.untouched = jobText([page, set, lens]).text;
found.twice = [all.twice, withMore([page], [jobLine('page', textEntry('', 'A4'), textEntry('', 'margin'))]).twice];
console.log(JSON.stringify(found));

// Runs the functions of `job.js` that need no page. Argument: its folder. Prints what they gave.
import { pathToFileURL } from 'node:url';

const { converted, empty, figureEntry, jobLine, jobText, textEntry, typed, withMore } = await import(pathToFileURL(`${process.argv[2]}/job.js`));
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

const inMm = words => typed('depth', words, 'mm'), shownIn = (words, unit) => { const { text, quoted } = typed('depth', words, unit); return quoted ? `"${text}"` : text; };
found.typed = Object.fromEntries(['182', '18,2', '18.2', ',5', '24 cm', '1,5cm', '7 in', '7 3/16"', '182 mm', '1,240', '12,3456', '0,290', '1,240 mm', '-3', 'deep', '', '1/0"', '0x1f cm', '1e3 cm', '1,240 cm'].map(words => [words, shownIn(words, 'mm')]));
found.typedInInches = Object.fromEntries(['7 3/16', '7 3/16 in', '2.54 cm', '1,240'].map(words => [words, shownIn(words, 'in')]));
found.units = [...new Set(['182', '24 cm', '1 in', 'deep'].map(words => inMm(words).unit))];
const open = empty('mm');
converted(open, 'in');
found.emptyUnits = [...new Set(open.flatMap(each => each.entries.map(entry => entry.unit)).filter(Boolean))];
console.log(JSON.stringify(found));

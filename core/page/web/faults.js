// What is wrong with the text of a job, said of the fields that a maker sees: their labels and plain numbers.
import { idOf } from './form.js';
import { lineOf, TWO_MEANINGS, unitOf, valueOf } from './job.js';

const SIDES_ASKED = ['length', 'width', 'depth'];

/** Words as a sentence. */
export function sentence(words) {
  const plain = words.trim();
  return plain === '' ? '' : plain.charAt(0).toUpperCase() + plain.slice(1) + (/[.!?]$/.test(plain) ? '' : '.');
}

/** The value that a fault of the text is about. */
export function placeOf(places, fault) {
  return places.find(each => fault.start < each.end && each.start < Math.max(fault.end, fault.start + 1));
}

/** A fault in the words of the reader. */
export function faultWords({ message, label }) {
  return sentence(`${message}${label ? `: ${label}` : ''}`);
}

/** A fault in the words of its field, with the box or item that it is of; in those of the reader where no field has the value. */
export function saidOf(me, fault) {
  const place = placeOf(me.places, fault), field = place && me.fields.get(fieldOf(me, place));
  if (!field) return faultWords(fault);
  const of = { box: me.words.box_name, item: valueOf(place.each, '') }[place.each.name];
  return sentence(`${of ? `${of}: ` : ''}${fieldWords(me, place.entry, field.label, fault)}`);
}

/** The errors under the fields that they are about; others below the text box. */
export function showPlaces(me, errors) {
  for (const { input, why } of me.fields.values()) {
    why.textContent = '';
    input.removeAttribute('aria-invalid');
  }
  const rest = document.getElementById('rest-why');
  rest.textContent = '';
  for (const fault of errors.flatMap(error => error.faults)) {
    const place = placeOf(me.places, fault), field = place && me.fields.get(fieldOf(me, place));
    if (field) {
      field.why.textContent = `${field.why.textContent} ${sentence(fieldWords(me, place.entry, field.label, fault))}`.trim();
      field.input.setAttribute('aria-invalid', 'true');
      field.input.closest('details')?.setAttribute('open', '');
    } else rest.textContent += `${faultWords(fault)} `;
  }
}

function fieldOf(me, { each, entry }) {
  return each.name === 'set' ? `set-${entry.key}` : idOf(me, each, entry.key);
}

function fieldWords({ words, lines }, entry, label, fault) {
  const isFigure = entry.unit !== '' || entry.key === 'count', [, text, unit] = entry.text.trim().match(/^(.*?)\s*(mm|cm|in|"|″)?$/is), inches = unitOf(lines) === 'in';
  if (isFigure && entry.quoted && text === '') return words.missing.replace('{label}', label);
  // The reader says what is wrong with a fraction.
  if (isFigure && entry.quoted && !(inches && text.includes('/'))) {
    const [one, other] = [text.replace(',', ''), text.replace(',', '.')].map(figure => unit ? `${figure} ${unit}` : figure);
    const said = TWO_MEANINGS.test(text) ? words.two_meanings.replace('{one}', one).replace('{other}', other) : words.no_number.replace('{example}', inches ? '7.1875, 7 3/16' : '182, 182.5, 18.2 cm');
    return said.replace('{label}', label).replace('{text}', () => text);
  }
  return plainWords(fault, entry.key, label, words);
}

/** Words of the reader without the signs of a job: `length=(mm)182` is length 182 mm. */
function plainWords({ message, label: hint }, key, label, words) {
  const all = `${message}${hint ? `: ${hint}` : ''}`, named = all.includes(`\`${key}\``);
  const plain = all.replaceAll(`\`${key}\``, label)
    .replace(/([a-z-]+)=\((mm|in|deg)\)"?([\d. /-]+\d)"?/g, (_, name, unit, figure) => `${words[name] ?? name} ${figure} ${unit}`)
    .replace(/\((mm|in|deg)\)"?([\d. /-]+\d)"?/g, '$2 $1').replaceAll('`', '');
  return named || key === '' ? plain : `${label}: ${plain}`;
}

/** Errors that are not of empty fields, which need no error to be seen. */
export function withoutEmpty(me, errors) {
  const isOfEmpty = fault => placeOf(me.places, fault)?.entry.text.trim() === '';
  return errors.map(error => ({ ...error, faults: error.faults.filter(fault => !isOfEmpty(fault)), said: error.faults.length === 0 })).filter(error => error.said || error.faults.length > 0);
}

/** The names of the fields that a job cannot do without and that are empty. */
export function stillMissing({ lines, words }) {
  const names = (each, keys) => keys.filter(([key]) => valueOf(each, key).trim() === '').map(([, name]) => name);
  const sides = SIDES_ASKED.map(key => [key, words[key]]), board = lineOf(lines, 'board');
  const asked = [[words.box_name, names(lineOf(lines, 'box'), sides)]];
  lines.filter(each => each.name === 'item').forEach((each, index) => asked.push([valueOf(each, '').trim() || `${words.item} ${index + 1}`, names(each, [['', words.item_name], ...sides])]));
  if (board && valueOf(board, '') === '') asked.push([words.card, names(board, [['caliper', words.thickness]])]);
  return asked.filter(([, list]) => list.length > 0).map(([of, list]) => `${of}: ${list.join(', ')}`).join('; ');
}

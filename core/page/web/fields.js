// What a form is made of: elements, parts, folds, rows and fields with the reason of a refusal.

/** An element with properties and children. */
export function make(tag, properties = {}, ...children) {
  const element = Object.assign(document.createElement(tag), properties);
  element.append(...children.flat().filter(child => child !== null));
  return element;
}

/** A numbered part of the form. */
export function part(me, number, say, ...children) {
  return make('fieldset', {}, make('legend', {}, make('i', { textContent: number, ariaHidden: 'true' }), me.words[say]), ...children);
}

/** What is folded away under a summary. */
export function fold(id, summary, ...children) {
  return make('details', { id }, make('summary', { textContent: summary }), ...children);
}

/** Fields side by side. The reasons of refusals stand below all of them, so that none pushes a field out of its row. */
export function row(...fields) {
  const shown = fields.filter(Boolean);
  return make('div', { className: 'row' }, shown, shown.map(each => each.why ?? null));
}

/** A field of one value. The reason of a refusal goes with it; `row` places it. */
export function field(me, { id, label, value, write, wide, list, words: isWords }) {
  const input = list ? make('select', { id }, list.map(([key, name]) => make('option', { value: key, textContent: name })))
    : make('input', { id, type: 'text', inputMode: isWords ? 'text' : 'decimal', spellcheck: false });
  input.value = value;
  const why = make('span', { className: 'refused', id: `${id}-why` });
  input.setAttribute('aria-describedby', why.id);
  input.addEventListener(list ? 'change' : 'input', () => { write(input.value); me.changed(); });
  me.fields.set(id, { input, why, label });
  const made = make('label', { className: wide === 3 ? 'field whole' : wide ? 'field wide' : 'field' }, make('span', { textContent: label }), input);
  return Object.assign(made, { why });
}

// Fixes as buttons, and the way back. Each fix was tried by the module, which gives the changed job with it.
import { make } from './fields.js';

const MEASURED = ['length', 'width', 'depth'];
/** Where a name of a change has another field than its own. */
const FIELD_NAMES = { fit: { box: 'fit_box', item: 'fit_item', play: 'fit_play' }, slot: { cut: 'slot_cut' }, tray: { height: 'tray_height', style: 'style' }, board: { name: 'card_list', caliper: 'thickness' } };

/** Shows fixes, those that ask for another box or item last, and the undoing of the last change. */
export function showFixes(me, fixes) {
  const place = document.getElementById('fixes'), rank = fix => fix.leaves > 0 ? 2 : measuredOf(fix) ? 1 : 0;
  const sorted = fixes.filter(fix => fix.job).sort((one, other) => rank(one) - rank(other));
  place.removeAttribute('aria-busy');
  place.replaceChildren(...sorted.map(fix => make('button', {
    type: 'button', className: 'fix', textContent: fixWords(fix, me.words),
    // A second click is none.
    onclick: async ({ currentTarget: button }) => {
      button.disabled = true;
      if (!await me.take(fix.job, { says: fixWords(fix, me.words) })) button.disabled = false;
    },
  })), ...undoButton(me));
}

/** What a fix changes that was measured: the box, an item, or nothing. */
function measuredOf({ changes }) {
  const measured = changes.filter(({ key }) => MEASURED.includes(key));
  return ['box', 'item'].find(node => measured.some(change => change.node === node)) ?? '';
}

/** A fix in words: each change with its item, its name and its value. */
function fixWords(fix, words) {
  const said = fix.changes.map(change => changeSaid(change, words)).join('; '), measured = measuredOf(fix);
  const plain = measured ? words[measured === 'box' ? 'fix_box' : 'fix_item'].replace('{says}', () => said) : said;
  return fix.leaves > 0 ? words.fix_helps.replace('{says}', () => plain).replace('{count}', fix.leaves) : plain;
}

function changeSaid({ node, item, key, to }, words) {
  const name = words[FIELD_NAMES[node]?.[key] ?? key] ?? key, value = to.match(/^\((mm|in|deg)\)"?([^"]*)"?$/);
  const known = { '#true': '', '"open"': words.open_cut, '"cross"': words.cross, '"doors"': words.doors };
  const shown = value ? `${value[2]} ${value[1] === 'deg' ? '°' : value[1]}` : known[to] ?? to.replace(/^"|"$/g, '');
  const of = item ?? (node === 'box' ? words.box_name : '');
  return `${of ? `${of}: ` : ''}${name} ${shown}`.trim();
}

function undoButton(me) {
  const last = me.past.at(-1);
  if (!last) return [];
  const undo = make('button', { type: 'button', className: 'undo', textContent: me.words.undo_of.replace('{says}', () => last.says) });
  undo.addEventListener('click', async () => {
    undo.disabled = true;
    me.past.pop();
    if (await me.take(last.job)) return;
    me.past.push(last);
    undo.disabled = false;
  });
  return [undo];
}

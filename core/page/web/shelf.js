// What a maker measures once and uses again: boxes, cards and items, kept in this browser and in a file.
// A browser may refuse to keep anything; then the file is all there is, and the page says so.

const KEY = 'traywright.shelf', LAST = 'traywright.last', KINDS = ['boxes', 'cards', 'items'];

/** The shelf of this browser. */
export function readShelf() {
  try {
    return soundShelf(JSON.parse(localStorage.getItem(KEY) ?? '{}'));
  } catch {
    return soundShelf({});
  }
}

/** Keeps the shelf, with what another tab kept in the meantime: whether this browser lets it. */
export function keepShelf(shelf) {
  merged(shelf, readShelf(), false);
  return keep(KEY, JSON.stringify(shelf));
}

/** Calls when another tab of this browser changed the shelf. */
export function watchShelf(act) {
  addEventListener('storage', ({ key }) => { if (key === KEY) act(); });
}

/** The job that was shown last; none where the browser keeps none. */
export function lastJob() {
  try {
    return localStorage.getItem(LAST);
  } catch {
    return null;
  }
}

/** Keeps the job for the next time: whether this browser lets it. */
export function keepJob(job) {
  return keep(LAST, job);
}

function keep(key, words) {
  try {
    localStorage.setItem(key, words);
    return true;
  } catch {
    return false;
  }
}

/** A shelf of whatever was read: unknown things are left out. */
export function soundShelf(read) {
  const shelf = { traywright: 1 };
  for (const kind of KINDS) {
    const list = Array.isArray(read?.[kind]) ? read[kind] : [];
    shelf[kind] = list.filter(each => typeof each?.name === 'string' && Array.isArray(each.entries) && each.entries.every(isEntry)).slice(0, 500);
  }
  return shelf;
}

function isEntry(entry) {
  return ['key', 'unit', 'text'].every(part => typeof entry?.[part] === 'string') && typeof entry.quoted === 'boolean';
}

/** Puts a thing on the shelf; one of the same name gives way. */
export function shelve(shelf, kind, name, entries) {
  shelf[kind] = shelf[kind].filter(each => each.name !== name);
  shelf[kind].push({ name, entries: structuredClone(entries) });
  shelf[kind].sort((one, other) => one.name.localeCompare(other.name));
}

/** Names that two shelves have both, with other measures. */
export function clashes(shelf, other) {
  return KINDS.flatMap(kind => other[kind].filter(each => {
    const mine = shelf[kind].find(own => own.name === each.name);
    return mine && JSON.stringify(mine.entries) !== JSON.stringify(each.entries);
  }).map(each => each.name));
}

/** Both shelves in one; of two with one name the newer stays if it is wanted. */
export function merged(shelf, other, newerWins) {
  for (const kind of KINDS) {
    for (const each of other[kind]) {
      if (newerWins || !shelf[kind].some(own => own.name === each.name)) shelve(shelf, kind, each.name, each.entries);
    }
  }
}

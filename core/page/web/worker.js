// The module in a thread of its own, so that no job can stop the page. A trap throws the instance away and opens another.
let it, module, said = '', checked = null;
const reader = new TextDecoder(), writer = new TextEncoder();

function open() {
  const imports = { page: { panicked: (at, length) => { said = reader.decode(new Uint8Array(it.memory.buffer, at, length)); } } };
  // Libraries ask for time and dice, and what they get is taken off again.
  for (const { module: from, name } of WebAssembly.Module.imports(module)) {
    if (from !== 'page') (imports[from] ??= {})[name] = () => 0;
  }
  it = new WebAssembly.Instance(module, imports).exports;
  checked = null;
  it.tw_start();
}

/** Lends bytes for a call. Views of the memory are made anew each time: it grows. */
function lend(words, act) {
  const bytes = writer.encode(words), at = it.tw_room(bytes.length);
  new Uint8Array(it.memory.buffer, at, bytes.length).set(bytes);
  const done = act(at, bytes.length);
  it.tw_give_back(at, bytes.length);
  return done;
}

function bytes() {
  return new Uint8Array(it.memory.buffer, it.tw_answer_at(), it.tw_answer_length()).slice();
}

function answer() {
  return JSON.parse(reader.decode(bytes()));
}

function check({ name, job }) {
  const code = lend(name, (at, length) => lend(job, (jobAt, jobLength) => it.tw_check(at, length, jobAt, jobLength)));
  checked = name + '\n' + job;
  return { code, ...answer() };
}

const answers = {
  open(message) {
    module = message.module;
    open();
    it.tw_library();
    return { library: answer() };
  },
  words({ language }) {
    lend(language, (at, length) => it.tw_words(at, length));
    return { words: answer() };
  },
  drawing({ style }) {
    lend(style, (at, length) => it.tw_drawing(at, length));
    return { drawing: answer() };
  },
  check(message) {
    const found = check(message);
    if (found.code === 0) {
      it.tw_scene();
      Object.assign(found, answer());
      it.tw_blank();
      found.blank = reader.decode(bytes());
    }
    return found;
  },
  fixes(message) {
    if (checked !== message.name + '\n' + message.job) check(message);
    it.tw_fixes();
    return answer();
  },
  files(message) {
    if (checked !== message.name + '\n' + message.job) check(message);
    const count = lend(message.exporter, (at, length) => it.tw_export(at, length)), { suffixes, said: heard } = answer();
    const files = [];
    for (let index = 0; index < count; index++) {
      it.tw_file(index);
      files.push([suffixes[index], bytes()]);
    }
    return { files, said: heard };
  },
};

onmessage = ({ data }) => {
  const began = performance.now();
  try {
    const found = answers[data.kind](data);
    postMessage({ id: data.id, ...found, took: performance.now() - began });
  } catch (trap) {
    const words = said || String(trap);
    said = '';
    if (module) open();
    postMessage({ id: data.id, code: 3, broken: words });
  }
};

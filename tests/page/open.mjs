// An instance of the module, behind plain functions.

export function open(module) {
  let words = '';
  const imports = { page: { panicked: (at, length) => { words = new TextDecoder().decode(new Uint8Array(it.memory.buffer, at, length)); } } };
  // Libraries ask for time and dice, and what they get is taken off again.
  for (const { module: from, name } of WebAssembly.Module.imports(module)) {
    if (from !== 'page') (imports[from] ??= {})[name] = () => 0;
  }
  const it = new WebAssembly.Instance(module, imports).exports;
  it.tw_start();
  const lend = (bytes, act) => {
    const at = it.tw_room(bytes.length);
    new Uint8Array(it.memory.buffer, at, bytes.length).set(bytes);
    const done = act(at, bytes.length);
    it.tw_give_back(at, bytes.length);
    return done;
  };
  const bytes = () => new Uint8Array(it.memory.buffer, it.tw_answer_at(), it.tw_answer_length()).slice();
  const answer = () => JSON.parse(new TextDecoder().decode(bytes()));
  const file = index => { it.tw_file(index); return bytes(); };
  return {
    answer, file,
    panicked: () => words,
    memory: () => it.memory.buffer.byteLength,
    library: () => { it.tw_library(); return answer(); },
    check: (name, job) => lend(Buffer.from(name), (at, length) => lend(job, (jobAt, jobLength) => it.tw_check(at, length, jobAt, jobLength))),
    fixes: () => { it.tw_fixes(); return answer(); },
    scene: () => { it.tw_scene(); return answer(); },
    exported(name) {
      const count = lend(Buffer.from(name), (at, length) => it.tw_export(at, length)), { suffixes, said } = answer();
      return { said, files: count < 0 ? [] : suffixes.map((suffix, index) => [suffix, file(index)]) };
    },
  };
}

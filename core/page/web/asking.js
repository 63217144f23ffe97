// Questions to the module in its worker. They wait in a queue and are sent one at a time; what takes too long is ended with
// its thread.

/** Milliseconds after which a job is taken for one that never ends. */
const PATIENCE_MS = 20000;

let worker, opening, sent = null, queue = [], questions = 0;

/** Hires a worker that opens the module: what the module says of itself. */
export async function openModule() {
  hire();
  opening = { kind: 'open', module: await unpacked() };
  return ask(opening);
}

function hire() {
  worker = new Worker(URL.createObjectURL(new Blob([document.getElementById('worker').textContent], { type: 'text/javascript' })));
  worker.onmessage = ({ data: found }) => { if (found.id === sent?.id) answered(found); };
}

/** Asks the worker. A question with a `role` takes the place of those of the same role that still wait. */
export function ask(question, role = null) {
  return new Promise(done => {
    const old = queue.filter(each => role && each.role === role);
    queue = queue.filter(each => !old.includes(each));
    queue.push({ id: questions += 1, question, role, done });
    old.forEach(each => each.done({ replaced: true }));
    send();
  });
}

function send() {
  if (sent || queue.length === 0) return;
  sent = queue.shift();
  sent.timer = setTimeout(late, PATIENCE_MS);
  worker.postMessage({ ...sent.question, id: sent.id });
}

function answered(found) {
  const { timer, done } = sent;
  clearTimeout(timer);
  sent = null;
  done(found);
  send();
}

/** Ends the thread of the question that is sent. A new one opens the module, and the queue goes on. */
function late() {
  worker.terminate();
  hire();
  // Nobody waits for the answer to this.
  worker.postMessage({ ...opening, id: 0 });
  answered({ code: 3, late: true });
}

async function unpacked() {
  const packed = Uint8Array.from(atob(document.getElementById('module').textContent.trim()), letter => letter.charCodeAt(0));
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream('gzip'));
  return WebAssembly.compile(await new Response(stream).arrayBuffer());
}

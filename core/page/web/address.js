// A link or a bookmark is a tray: the job stands packed in the address.

const IN_ADDRESS = /job=(.*)$/;

/** Whether the address says that it has a job. */
export function addressHasJob() {
  return IN_ADDRESS.test(location.hash);
}

async function packedJob(job) {
  const stream = new Blob([job]).stream().pipeThrough(new CompressionStream('deflate-raw'));
  const bytes = new Uint8Array(await new Response(stream).arrayBuffer());
  return btoa(String.fromCharCode(...bytes)).replace(/\+/g, '-').replace(/\//g, '_').replace(/=+$/, '');
}

/** The job of the address. Throws where the address is damaged. */
export async function jobInAddress() {
  const packed = location.hash.match(IN_ADDRESS)[1], bytes = Uint8Array.from(atob(packed.replace(/-/g, '+').replace(/_/g, '/')), letter => letter.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
  return new Response(stream).text();
}

/** Puts a job into the address. */
export async function putInAddress(job) {
  try {
    history.replaceState(null, '', `#job=${await packedJob(job)}`);
  } catch {
    // An address may be refused; the job is kept elsewhere.
  }
}

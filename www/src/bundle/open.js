// Opens the package that stands in this script: in the page, and in its worker, which is given the same text.
async function openPackage() {
  const packed = Uint8Array.from(atob(packedWasm), (letter) => letter.charCodeAt(0));
  // Not of a blob: a worker of a page from a disk may read none in some browsers.
  const stream = new Response(packed).body.pipeThrough(new DecompressionStream('gzip'));
  return wasm_bindgen.initSync({ module: await new Response(stream).arrayBuffer() });
}

// The start of the one-file page: the wasm package is inside, and nothing is asked for.
(async () => {
  const packed = Uint8Array.from(atob(wasm), (letter) => letter.charCodeAt(0));
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream('gzip'));
  wasm_bindgen.initSync({ module: await new Response(stream).arrayBuffer() });
  wasm_bindgen.boot();
})();

// Makes the worker ready and boots the page, in its language.
Promise.all([beginLanguage(), openPackage()]).then(([language]) => {
  beginWorker(language);
  if (language) {
    wasm_bindgen.speak(language.code, language.catalogue);
  }
  wasm_bindgen.boot();
});

// Boot only: everything else is decided in the wasm package.
import init, { boot } from './halfbreadth.js';

await init();
boot();

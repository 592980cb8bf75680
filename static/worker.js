// Starts what works beside the page. Where it cannot start, the page hears of the error and says so.

import start from "./workshop.js";

await start({ module_or_path: "./workshop.wasm" });

// Starts the program, and says in plain words when it cannot start or has stopped.

import start from "./tailfirst.js";

function say(sentence) {
  const text = document.createElement("p");
  text.className = "plain";
  text.setAttribute("role", "alert");
  text.textContent = sentence;
  document.body.replaceChildren(text);
}

try {
  await start({ module_or_path: "./tailfirst.wasm" });
} catch (error) {
  console.error(error);
  say(
    typeof WebAssembly === "object"
      ? "Tailfirst could not start. What you have practised is still on this device. Reload the page to try again."
      : "This browser is too old for Tailfirst: it cannot run WebAssembly.",
  );
}

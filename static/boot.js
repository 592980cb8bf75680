// Starts the program, and sees to what it cannot see to itself: that it cannot start, has stopped, or is written over by
// a translator.

const STOPPED = "?stopped";

function say(sentence) {
  const text = document.createElement("p");
  text.className = "plain";
  text.setAttribute("role", "alert");
  text.textContent = sentence;
  document.body.replaceChildren(text);
}

function cannotStart(error) {
  console.error(error);
  say(
    typeof WebAssembly === "object"
      ? "Tailfirst could not start. What you have practised is still on this device. Reload the page to try again."
      : "This browser is too old for Tailfirst: it cannot run WebAssembly.",
  );
}

// A program that has broken down in the middle of something must not go on. A fresh one says so, on a screen that does not
// open the journal.
function stopIfBroken(error) {
  const broken = error instanceof WebAssembly.RuntimeError || /\.wasm/.test(error?.stack ?? "");
  if (!broken) return;
  if (location.search === STOPPED) cannotStart(error);
  else location.replace(`./${STOPPED}`);
}

// A translator puts an element of its own in the place of a text, and the program goes on writing to the text that is gone.
// The text is put back; but not for ever, should the translator insist.
function keepTexts() {
  let left = 1000;
  const observer = new MutationObserver((changes) => {
    for (const { removedNodes, addedNodes, previousSibling, nextSibling } of changes) {
      const text = [...removedNodes].find((node) => node.nodeType === Node.TEXT_NODE);
      const beside = [...addedNodes, previousSibling, nextSibling];
      const stranger = beside.find((node) => node?.nodeName === "FONT" && node.isConnected);
      if (!text || !stranger) continue;
      stranger.replaceWith(text);
      if (--left === 0) observer.disconnect();
    }
  });
  observer.observe(document.body, { childList: true, subtree: true });
}

try {
  const { default: start } = await import("./tailfirst.js");
  keepTexts();
  addEventListener("error", (event) => stopIfBroken(event.error));
  addEventListener("unhandledrejection", (event) => stopIfBroken(event.reason));
  await start({ module_or_path: "./tailfirst.wasm" });
} catch (error) {
  cannotStart(error);
}

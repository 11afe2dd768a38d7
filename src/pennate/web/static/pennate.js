// Small comforts on top of pages that work without any script.
import { startClock } from "./rest.js";
import { guardForms } from "./once.js";

// The page this phone keeps was drawn long ago; it takes the look she chose since.
const root = document.documentElement;
if (document.getElementById("stand")) root.dataset.look = localStorage.getItem("look") ?? root.dataset.look;
else localStorage.setItem("look", root.dataset.look);

startClock(document);
guardForms(document);

// Where this browser keeps the sessions, the Floor opens from its own store.
if (navigator.serviceWorker?.controller) {
  for (const link of document.querySelectorAll("a[data-kept]")) link.href = link.dataset.kept;
}

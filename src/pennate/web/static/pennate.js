// Small comforts on top of pages that work without any script.
import { startClock } from "./rest.js";
import { guardForms } from "./once.js";

startClock(document);
guardForms(document);

// Where this browser keeps the sessions, the Floor opens from its own store.
if (navigator.serviceWorker?.controller) {
  for (const link of document.querySelectorAll("a[data-kept]")) link.href = link.dataset.kept;
}

// A part of a page that is still being worked out is looked at again until it is done.
import { guardForms } from "./once.js";

const EVERY_MS = 1500;

/** Ask for the page once more and put the part's new state in its place. */
async function look(part) {
  let text;
  try {
    text = await (await fetch(location.href, { headers: { accept: "text/html" } })).text();
  } catch {
    return part; // No reception: the next look may have more luck.
  }
  const fresh = new DOMParser().parseFromString(text, "text/html").getElementById(part.id);
  if (!fresh) return part;
  if (fresh.dataset.again !== undefined) {
    // Still at it: only the words change, so that nothing moves under the thumb.
    const [now, then] = [part, fresh].map((one) => one.querySelector("[role=status]"));
    if (now && then) now.textContent = then.textContent;
    return part;
  }
  const focused = part.contains(document.activeElement);
  part.replaceWith(fresh);
  guardForms(fresh);
  if (focused) {
    fresh.tabIndex = -1;
    fresh.focus({ preventScroll: true });
  }
  return fresh;
}

async function lookAgain(part) {
  while (part.dataset.again !== undefined) {
    await new Promise((after) => setTimeout(after, EVERY_MS));
    part = await look(part);
  }
}

for (const part of document.querySelectorAll("[data-again]")) lookAgain(part);

// Elements as descriptions, and a page brought up to them by touching only what changed.

/** An element described: attributes, listeners (`on…`), children. Three attributes are ours:
 *  `key` (another key is another element), `html` (a drawing of ours), `live` (its words are
 *  written by somebody else once it is there). */
export function h(tag, attributes = {}, ...children) {
  return { tag, attributes, children: children.flat(Infinity) };
}

/** The element a description stands for. */
export function build(one) {
  if (one?.tag === undefined) return document.createTextNode(textOf(one));
  const element = document.createElement(one.tag);
  for (const [name, value] of Object.entries(one.attributes)) {
    if (name.startsWith("on")) element.addEventListener(name.slice(2), heard);
    else put(element, name, value);
  }
  element.acts = one.attributes;
  if (one.attributes.html === undefined) element.append(...one.children.map(build));
  return element;
}

const textOf = (one) => (one == null || one === false ? "" : String(one));
const heard = (event) => event.currentTarget.acts[`on${event.type}`](event);

function put(element, name, value) {
  if (name === "key" || name === "live") return;
  if (name === "html") element.innerHTML = value;
  else if (name === "checked") element.checked = Boolean(value);
  else if (value === true) element.setAttribute(name, "");
  else if (value === false || value == null) element.removeAttribute(name);
  else element.setAttribute(name, value);
}

/** Bring what is shown in a place up to these descriptions; what stays the same is not touched. */
export function render(place, children, key = "") {
  const now = children.flat(Infinity);
  if (place.shown?.key === key) patchChildren(place, place.shown.children, now);
  else place.replaceChildren(...now.map(build));
  place.shown = { key, children: now };
}

function patchChildren(parent, was, now) {
  let node = parent.firstChild;
  for (let i = 0; i < now.length; i += 1) {
    const next = node?.nextSibling ?? null;
    if (i >= was.length) parent.append(build(now[i]));
    else if (!alike(was[i], now[i])) node.replaceWith(build(now[i]));
    else patch(node, was[i], now[i]);
    node = next;
  }
  for (let i = now.length; i < was.length; i += 1) parent.lastChild.remove();
}

const alike = (a, b) => a?.tag === b?.tag && a?.attributes?.key === b?.attributes?.key;

function patch(node, was, now) {
  if (was === now) return;
  if (now?.tag === undefined) {
    if (textOf(was) !== textOf(now)) node.data = textOf(now);
    return;
  }
  const [before, after] = [was.attributes, now.attributes];
  node.acts = after;
  for (const name in after) {
    if (name === "checked") {
      if (node.checked !== Boolean(after.checked)) node.checked = Boolean(after.checked);
    } else if (after[name] !== before[name] && !name.startsWith("on")) put(node, name, after[name]);
  }
  for (const name in before) if (!(name in after)) put(node, name, null);
  if (after.html === undefined && !after.live) patchChildren(node, was.children, now.children);
}

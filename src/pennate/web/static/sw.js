// The service worker: keeps the phone's page and its parts, and answers with them out of reach.

const KEPT = "pennate-VERSION";
const SHELL = "/phone";

async function fill() {
  const shell = await fetch(SHELL, { cache: "reload" });
  if (!shell.ok) throw new Error(`the page to keep was refused: ${shell.status}`);
  const parts = [...(await shell.clone().text()).matchAll(/(?:href|src)="(\/static\/[^"]+|\/mark\.svg)"/g)];
  const cache = await caches.open(KEPT);
  await cache.put(SHELL, shell);
  await cache.addAll([...new Set(parts.map((part) => part[1]))]);
}

async function clean() {
  for (const name of await caches.keys()) if (name !== KEPT) await caches.delete(name);
  await self.clients.claim();
}

async function answer(request, url) {
  const cache = await caches.open(KEPT);
  if (url.pathname.startsWith("/static/") || url.pathname === "/mark.svg") {
    return (await cache.match(request, { ignoreVary: true })) ?? fetch(request);
  }
  if (url.pathname === SHELL) return (await cache.match(SHELL, { ignoreVary: true })) ?? fetch(request);
  try {
    return await fetch(request);
  } catch {
    return Response.redirect(SHELL, 302); // out of reach: the page that is kept
  }
}

self.addEventListener("install", (event) => event.waitUntil(fill().then(() => self.skipWaiting())));
self.addEventListener("activate", (event) => event.waitUntil(clean()));
self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  const page = event.request.mode === "navigate";
  const ours = url.origin === self.location.origin && event.request.method === "GET";
  if (ours && (page || url.pathname.startsWith("/static/") || url.pathname === "/mark.svg")) {
    event.respondWith(answer(event.request, url));
  }
});

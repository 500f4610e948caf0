// Answers what the pages ask for: files of this version from what was kept at the first visit, everything else from the
// program in the shell. After the first visit nothing is fetched from anywhere.
'use strict';
importScripts('files.js', 'words.js');

const { version, files, words } = self.tightcold;
// The list itself too: a page tells by it which version it is of.
const all = [...files, 'files.js'];
const ours = 'tightcold-phone-';
const kept = ours + version;
const here = new URL('./', self.location.href).pathname;
const shell = here + 'index.html';
// So long the shell may take to say that it heard; what it then needs is waited for.
const patience = 20000;

self.addEventListener('install', event => event.waitUntil((async () => {
  const cache = await caches.open(kept);
  // Past the browser's own cache: exactly these files belong together.
  await Promise.all(all.map(async file => {
    const answer = await fetch(here + file, { cache: 'reload' });
    if (!answer.ok) throw new Error(`${file}: ${answer.status}`);
    await cache.put(here + file, answer);
  }));
})()));

self.addEventListener('activate', event => event.waitUntil(self.clients.claim()));

// A new version begins on the person's word; files of the one before go once the program of this one has opened, and no newer
// one lies there waiting.
self.addEventListener('message', event => {
  if (event.data?.begin) self.skipWaiting();
  if (event.data?.opened === version && !self.registration.waiting && !self.registration.installing) event.waitUntil((async () => {
    for (const name of await caches.keys()) if (name.startsWith(ours) && name !== kept) await caches.delete(name);
  })());
});

self.addEventListener('fetch', event => {
  const { request } = event;
  const url = new URL(request.url);
  if (url.origin !== self.location.origin || !url.pathname.startsWith(here)) return;
  // The address bar opens the shell, whatever page is meant; its frame then asks for that page.
  if (request.mode === 'navigate' && request.destination === 'document')
    event.respondWith([here, shell].includes(url.pathname) ? file(shell) : Response.redirect(here + '#/' + (url.pathname + url.search).slice(here.length)));
  else if (all.includes(url.pathname.slice(here.length))) event.respondWith(file(url.pathname));
  else event.respondWith(answer(request, url));
});

// A timer's word is tapped: back to where it was, or open.
self.addEventListener('notificationclick', event => {
  event.notification.close();
  event.waitUntil((async () => {
    const open = (await self.clients.matchAll({ type: 'window', includeUncontrolled: true })).find(client => client.frameType === 'top-level');
    await (open ? open.focus() : self.clients.openWindow(shell));
  })());
});

async function file(path) {
  return await (await caches.open(kept)).match(path) ?? fetch(path);
}

async function answer(request, url) {
  const ask = {
    sent: request.method === 'POST',
    address: url.pathname + url.search,
    fields: [],
    kept: request.headers.has('X-Tightcold-Kept'),
    has: request.headers.get('If-None-Match'),
  };
  if (ask.sent) for (const [name, value] of await request.formData()) {
    if (typeof value === 'string') ask.fields.push([name, value]);
    else if (value.size > 0) { ask.field = name; ask.name = value.name; ask.file = new Uint8Array(await value.arrayBuffer()); }
  }
  const told = await asked(ask);
  if (!told) return new Response(words('Tightcold is not open: open it again from its icon.'), { status: 503, headers: { 'Content-Type': 'text/plain; charset=utf-8' } });
  if (told.failed) return new Response(told.failed, { status: 500, headers: { 'Content-Type': 'text/plain; charset=utf-8' } });
  if (told.status === 303) return Response.redirect(new URL(told.headers.Location, self.location.origin), 303);
  const body = Uint8Array.from(atob(told.body), letter => letter.charCodeAt(0));
  return new Response([204, 304].includes(told.status) ? null : body, { status: told.status, headers: told.headers });
}

// The shell that holds the journal says at once that it heard, then answers. Between two tabs of which one is just closed nobody
// hears: then it is asked again, under the same id, so that nothing is done twice.
function asked(ask) {
  const began = Date.now();
  const named = { ...ask, id: crypto.randomUUID() };
  return new Promise(done => {
    let heard = false;
    const again = async () => {
      const shells = (await self.clients.matchAll({ type: 'window', includeUncontrolled: true })).filter(client => client.frameType === 'top-level');
      if (heard) return;
      if (shells.length === 0 || Date.now() - began > patience) { done(null); return; }
      for (const client of shells) {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = ({ data }) => { if (data.heard) heard = true; else done(data); };
        client.postMessage({ ask: named }, [port2]);
      }
      setTimeout(again, 1000);
    };
    again();
  });
}

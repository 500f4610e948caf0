// Keeps pages that were seen, so that they open again without network. Always the network first: a page from here is only
// shown when none comes. Entries are not kept here but in the page's own queue.
'use strict';
const pages = 'tightcold-pages-1';
// Longer than this nobody waits beside a car; the kept page is shown instead, and says that it is one.
const patience = 6000;
// After something was written only the page that shows it will do, however slowly it comes.
let writtenAt = 0;
const afterWriting = 120000;
// Forms are looked at again once they are older than this, not with every page.
const stale = 10 * 60000;

// The start is kept from the first moment, so that the icon on the home screen opens something without network too.
self.addEventListener('install', event => { self.skipWaiting(); event.waitUntil(fresh(new Request('/', { credentials: 'same-origin' })).catch(() => { /* Kept with the next page. */ })); });
self.addEventListener('activate', event => event.waitUntil((async () => {
  // Only our own: what runs in the phone itself keeps its files under the same address.
  for (const name of await caches.keys()) if (name.startsWith('tightcold-pages-') && name !== pages) await caches.delete(name);
  await self.clients.claim();
})()));

const ours = request => new URL(request.url).origin === self.location.origin;
const lasting = path => /\.[0-9a-f]{12}\.(css|js)$/.test(path) || path === '/icon.svg' || path === '/icon-192.png';

// Addresses with a note of what was just written are the same page; so is the search, whichever spot is chosen.
const plain = address => {
  const url = new URL(address);
  for (const word of url.pathname.endsWith('/search') ? ['wrote', 'spot', 'test'] : ['wrote']) url.searchParams.delete(word);
  url.hash = '';
  return url.href;
};

async function fresh(request) {
  const answer = await fetch(request);
  const cache = await caches.open(pages);
  // No longer let in: nothing of what was seen stays readable here.
  if (answer.status === 401 || answer.status === 403) await caches.delete(pages);
  else if (answer.ok && !answer.redirected && (answer.headers.get('Content-Type') ?? '').startsWith('text/html')) await cache.put(plain(request.url), answer.clone());
  else if (answer.ok && lasting(new URL(request.url).pathname)) await cache.put(request.url, answer.clone());
  return answer;
}

async function page(request) {
  const kept = await (await caches.open(pages)).match(plain(request.url));
  let timer;
  const late = new Promise(done => { if (kept && Date.now() - writtenAt > afterWriting) timer = setTimeout(() => done(null), patience); });
  try {
    const answer = await Promise.race([fresh(request), late]);
    if (answer) return answer;
  } catch { /* No network. */ } finally { clearTimeout(timer); }
  return kept ? copy(kept) : nothing();
}

// What this script says in the language of a kept page: the page brings the texts along, in English none.
function wordsOf(page) {
  const data = /<script type="application\/json" id="words">(.*?)<\/script>/s.exec(page)?.[1];
  let texts = {};
  try { texts = JSON.parse(data); } catch { /* then English */ }
  return { lang: /<html lang="([a-z-]+)"/i.exec(page)?.[1] ?? 'en', said: (text, ...places) => plainly((texts[text] ?? text).replace(/\{(\d)\}/g, (_, place) => places[place])) };
}
const plainly = text => text.replace(/[&<>"]/g, sign => `&#${sign.charCodeAt(0)};`);

// A kept page tells from when it is: what it shows may have moved on.
async function copy(kept) {
  const from = new Date(kept.headers.get('Date') ?? Date.now());
  const page = await kept.text();
  const told = wordsOf(page).said('No network: this is how the page was at {0}.', from.toLocaleTimeString([], { hour: '2-digit', minute: '2-digit' }));
  const headers = new Headers();
  for (const name of ['Content-Type', 'Content-Security-Policy', 'Referrer-Policy']) if (kept.headers.has(name)) headers.set(name, kept.headers.get(name));
  return new Response(page.replace('<main id="main">', () => `<main id="main"><p class="told mind" role="status">${told}</p>`), { headers });
}

async function nothing() {
  const kept = [];
  // The start is kept from the first moment, in the language of this device.
  const start = await (await caches.open(pages)).match(plain(self.location.origin + '/'));
  const { lang, said } = wordsOf(start ? await start.text() : '');
  for (const request of await (await caches.open(pages)).keys()) {
    const { pathname } = new URL(request.url);
    if (/^\/jobs\/\d+$/.test(pathname)) kept.push(`<li><p><a href="${pathname}">${said('Job {0}', pathname.slice(6))}</a></p></li>`);
  }
  const others = kept.length ? `<h2>${said('Kept here')}</h2><ul>${kept.slice(-20).join('')}</ul>` : '';
  const why = said('This page was not opened before on this device, so it is not kept. What you wrote down is kept in this browser and is sent when the network is back.');
  return new Response(`<!DOCTYPE html><html lang="${lang}"><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>${said('No network')} · Tightcold</title><h1>${said('No network here')}</h1><p>${why}</p><p><a href="/">${said('To the start')}</a></p>${others}</html>`,
    { status: 503, headers: { 'Content-Type': 'text/html; charset=utf-8', 'Content-Security-Policy': "default-src 'none'" } });
}

self.addEventListener('fetch', event => {
  const { request } = event;
  if (request.method !== 'GET' || !ours(request)) return;
  const path = new URL(request.url).pathname;
  // The program for the phone itself keeps its own.
  if (path.startsWith('/phone')) return;
  if (lasting(path)) event.respondWith(caches.match(request.url).then(kept => kept ?? fresh(request)));
  else if (request.mode === 'navigate') event.respondWith(page(request));
});

// How long nobody has asked for anything before what may be wanted later is looked up: beside the page itself it would
// only be in the way.
const quiet = 4000;
let told = 0;

async function keep(paths) {
  const cache = await caches.open(pages);
  for (const path of paths) {
    const address = new URL(path, self.location.origin);
    if (address.origin !== self.location.origin) continue;
    const kept = await cache.match(plain(address.href));
    if (kept && lasting(address.pathname)) continue;
    if (kept && Date.now() - Date.parse(kept.headers.get('Date') ?? 0) < stale) continue;
    try { await fresh(new Request(address.href, { credentials: 'same-origin' })); } catch { return; }
  }
}

self.addEventListener('message', event => {
  if (event.data?.written) writtenAt = Date.now();
  if (event.data?.near) told++;
  const mine = told;
  event.waitUntil((async () => {
    await keep((event.data?.near ?? []).slice(0, 32));
    const later = (event.data?.later ?? []).slice(0, 48);
    if (!later.length) return;
    await new Promise(done => setTimeout(done, quiet));
    for (const path of later) {
      // Another page is open now, and told what it needs.
      if (mine !== told) return;
      await keep([path]);
    }
  })());
});

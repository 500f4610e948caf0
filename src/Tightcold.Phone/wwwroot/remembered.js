// Pages of the last sitting, for the moments in which the program still starts: a page is shown again when nothing was written
// since, to the same choices, on the same day, and the same program told it. Then all of it is still true but how long ago
// things were.
'use strict';
import { version } from './files.js';

const kept = 'tightcold-pages';
const most = 12;
const worth = /^\/(?:$|jobs\/\d+(?:$|\/steps\/[^/]+$))/;
const key = address => new URL('kept-page?' + encodeURIComponent(address), location.href).href;

/** Whether a page is kept at all. */
export const isWorth = (request, here) => !request.sent && !request.has && worth.test('/' + request.address.split(/[?#]/)[0].slice(here.length));

/** What must be the same for a page to be still true; null before anything was written. */
export async function stamp() {
  try {
    const folder = await navigator.storage.getDirectory();
    const file = async name => (await folder.getFileHandle(name)).getFile();
    const journal = await file('tightcold.log');
    const choices = await file('tightcold-choices.json').then(found => found.text()).catch(() => '');
    return encodeURIComponent([version, journal.size, choices, navigator.languages, new Date().toDateString()].join('|'));
  } catch { return null; }
}

/** The page of that address as it was told; null where it is not true any more. */
export async function recall(request) {
  const [now, found] = [await stamp(), await (await caches.open(kept)).match(key(request.address))];
  return now && found?.headers.get('X-Stamp') === now ? await found.json() : null;
}

/** Keeps a page that was told under that stamp. */
export async function remember(request, told, under) {
  const pages = await caches.open(kept);
  await pages.put(key(request.address), new Response(JSON.stringify(told), { headers: { 'X-Stamp': under } }));
  const all = await pages.keys();
  for (const old of all.slice(0, Math.max(0, all.length - most))) await pages.delete(old);
}

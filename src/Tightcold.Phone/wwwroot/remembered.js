// Pages of the last sitting, for the moments in which the program still starts: a page is shown again when nothing was written
// since, to the same choices, and the same program told it. On the same day all of it is still true but how long ago things were;
// a page of another day says from when it is, and is worked out anew behind it.
'use strict';
import './files.js';
import './words.js';

const { version, language, words } = self.tightcold;
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
    return encodeURIComponent([version, journal.size, choices, navigator.languages].join('|'));
  } catch { return null; }
}

/** The page of that address as it was told, and whether it is of another day; null where it is not true any more. */
export async function recall(request) {
  const [now, found] = [await stamp(), await (await caches.open(kept)).match(key(request.address))];
  if (!now || found?.headers.get('X-Stamp') !== now) return null;
  const [told, at] = [await found.json(), new Date(Number(found.headers.get('X-At')))];
  return at.toDateString() === new Date().toDateString() ? { told, isOld: false } : { told: dated(told, at), isOld: true };
}

// With a line above that says from when it is.
function dated(told, at) {
  const page = new TextDecoder().decode(Uint8Array.from(atob(told.body), letter => letter.charCodeAt(0)));
  const when = at.toLocaleString(language, { dateStyle: 'medium', timeStyle: 'short' });
  const line = words('This is how it stood on {0}. It is being worked out anew.', when);
  const begin = '<main id="main">';
  const bytes = new TextEncoder().encode(page.replace(begin, () => `${begin}<p class="told mind" role="status">${line}</p>`));
  let letters = '';
  for (const byte of bytes) letters += String.fromCharCode(byte);
  return { ...told, body: btoa(letters) };
}

/** Keeps a page that was told under that stamp. */
export async function remember(request, told, under) {
  const pages = await caches.open(kept);
  const headers = { 'X-Stamp': under, 'X-At': String(Date.now()) };
  await pages.put(key(request.address), new Response(JSON.stringify(told), { headers }));
  const all = await pages.keys();
  for (const old of all.slice(0, Math.max(0, all.length - most))) await pages.delete(old);
}

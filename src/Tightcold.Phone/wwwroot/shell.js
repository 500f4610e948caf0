// The shell: it starts the worker in which the whole program runs, and shows its pages in a frame. What a page asks for goes
// to the service worker, from there to this shell, and from here to the program; nothing leaves the phone.
'use strict';
import './words.js';
import './files.js';
import { isWorth, recall, remember, stamp } from './remembered.js';

const { language, words, version } = self.tightcold;

const said = document.getElementById('said');
const page = document.getElementById('page');
const here = new URL('./', location.href).pathname;

document.documentElement.lang = language;

const say = (sentence, press) => {
  said.textContent = sentence;
  document.querySelector('.press')?.remove();
  if (!press) return;
  const button = document.createElement('button');
  button.className = 'press';
  button.textContent = press[0];
  button.addEventListener('click', press[1]);
  said.after(button);
};

if (!('serviceWorker' in navigator) || !navigator.locks || !self.indexedDB)
  say(words('This browser cannot keep a journal here: it needs a page over https or from this very machine, and a browser of 2023 or later. Nothing was changed.'));
else start().catch(trouble => {
  const sentence = words('It did not open: {0}. Nothing that was written down is lost.', trouble.message);
  // A page that was left stays to be read.
  if (page.hidden) say(sentence, [words('Try again'), () => location.reload()]);
  else tellAbove([sentence], words('Try again'), () => location.reload());
});

async function start() {
  say(words('Opening the journal on this phone'));
  const opened = performance.now();
  // Whether there is a newer version is asked of the folder itself, past the browser's own cache.
  watch(await navigator.serviceWorker.register('service.js', { updateViaCache: 'none' }));
  await navigator.serviceWorker.ready;
  // The first time the worker comes after the page.
  if (!navigator.serviceWorker.controller) await new Promise(done => navigator.serviceWorker.addEventListener('controllerchange', done, { once: true }));
  // Of several tabs one holds the journal's file; the others show what it answers, and take over when it is closed.
  const held = new Promise(holds => navigator.locks.request('tightcold-journal', () => new Promise(() => holds({ opened: hold() }))));
  const first = await Promise.race([held, new Promise(done => setTimeout(done, 300))]);
  await (first ? first.opened : another());
  // Asked once the journal is there: a browser that grants it never clears it by itself.
  navigator.storage?.persist?.().catch(() => { /* The page says so. */ });
  document.documentElement.dataset.ready = String(Math.round(performance.now() - opened));
  navigator.serviceWorker.controller?.postMessage({ opened: version });
  show();
}

// A newer version lies there once all its files do. It begins when the person says so, never in the middle of something.
function watch(registration) {
  const offer = () => {
    const newer = document.getElementById('newer');
    if (!registration.waiting || !navigator.serviceWorker.controller || !newer.hidden) return;
    const [sentence, begin, later] = [newer.querySelector('p'), ...newer.querySelectorAll('button')];
    sentence.textContent = words('A new version is here. What is written down stays; what stands in a form and was not sent does not.');
    begin.textContent = words('Begin with it');
    later.textContent = words('Later');
    begin.onclick = () => {
      navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
      registration.waiting?.postMessage({ begin: true });
    };
    later.onclick = () => { newer.hidden = true; };
    newer.hidden = false;
  };
  offer();
  registration.addEventListener('updatefound', () => registration.installing?.addEventListener('statechange', offer));
}

// How long the journal was, apart from it: a browser that is short of room, or a person in its settings, may clear the one and
// leave the other.
const length = 'tightcold-journal';
function mark(size) {
  try { localStorage.setItem(length, JSON.stringify({ size, at: new Date().toISOString() })); } catch { /* nobody can tell then */ }
}
function lost(size) {
  let was = null;
  try { was = JSON.parse(localStorage.getItem(length)); } catch { /* as if never marked */ }
  if (!(was?.size > size)) { mark(size); return; }
  const what = `${Math.ceil(was.size / 1000)} kB, ${new Date(was.at).toLocaleString(language)}`;
  const sentence = words('The browser cleared the journal that was here ({0}). Take in your last copy, or exchange with the laptop; '
    + 'what is written down now comes to it.', what);
  tellAbove([sentence], words('Understood'), () => mark(size));
}

// What the person must know of the journal, above every page until it is understood.
function tellAbove(sentences, press, then) {
  const told = document.getElementById('of-the-journal');
  const button = told.querySelector('button');
  button.before(...sentences.map(text => Object.assign(document.createElement('p'), { textContent: text })));
  button.textContent = press;
  button.addEventListener('click', () => { told.hidden = true; then?.(); });
  told.hidden = false;
}

// The page that the person had, or the first; once.
function show() {
  if (!page.hidden) return;
  page.hidden = false;
  document.getElementById('opens').hidden = true;
  page.src = meant();
}

const meant = () => here + location.hash.slice(1).replace(/^\//, '');

// Another tab has the journal: it is asked through the service worker like any page.
async function another() {
  for (let tries = 0; tries < 40; tries++) {
    const answer = await fetch(here + 'timers', { cache: 'no-store' }).catch(() => null);
    if (answer?.ok) return;
    await new Promise(done => setTimeout(done, 500));
  }
  throw new Error(words('another tab holds the journal and does not answer; close it'));
}

// A worker in which the program runs; what it says goes to the one who listens, once it is open.
async function program(name, hear) {
  const worker = new Worker('desk.js', { type: 'module', name });
  await new Promise((done, failed) => {
    worker.addEventListener('error', trouble => failed(new Error(trouble.message || words('the program did not load'))));
    worker.addEventListener('message', ({ data }) => {
      if (data.open !== undefined) {
        if (data.open) tellAbove(data.open.split('\n'), words('Understood'));
        if (data.size !== undefined) lost(data.size);
        done();
      }
      else if (data.failed) failed(new Error(data.failed));
      else hear(data);
    });
  });
  return worker;
}

// This tab holds the journal: the program is started, and asked whatever the service worker passes on. One worker writes and
// draws; the other follows it and weighs, so that a tap never waits for odds.
async function hold() {
  const waiting = new Map(), asked = new Map();
  let next = 0;
  // How much was written down in this sitting; and for each job how much that was when its faults were weighed.
  let written = 0;
  let beside = null;
  const weighed = new Map();
  const answered = ({ id, answer }) => { waiting.get(id)?.(answer); waiting.delete(id); };
  const ask = (worker, request) => new Promise(done => { const id = next++; waiting.set(id, done); worker.postMessage({ id, ask: request }); });

  let whole = null;
  const begun = program('holds', data => {
    if (data.added) { written++; mark(data.size); beside?.postMessage({ added: data.added }, [data.added.buffer]); }
    else if (data.whole) whole(data);
    else if (data.chosen) beside?.postMessage({ chosen: data.chosen });
    else answered(data);
  });
  let desk = null;

  // Which of the two answers: what takes long, and pages of a job whose faults the other has weighed as it stands now.
  const jobOf = path => /^\/jobs\/(\d+)(?:$|\/)/.exec(path)?.[1];
  const asksForOdds = request => request.address.includes('/news?weighing=');
  const within = request => '/' + request.address.split(/[?#]/)[0].slice(here.length);
  function place(request) {
    const path = within(request);
    if (!beside || request.sent || !jobOf(path)) return desk;
    if (/\/(card|card\.html|ways|expect)$/.test(path) || asksForOdds(request)) return beside;
    return weighed.get(jobOf(path)) === written && /^\/jobs\/\d+(\/steps\/[^/]+)?$/.test(path) ? beside : desk;
  }
  async function answer(request) {
    const keeps = isWorth(request, here);
    // What was shown in the last sitting and is still true comes at once; the rest waits for the program.
    if (!desk) {
      const page = keeps ? await recall(request) : null;
      if (page) return page.told;
      desk ??= await begun;
    }
    const [before, under] = [written, keeps ? await stamp() : null];
    const told = await ask(place(request), request);
    if (under && told.status === 200 && before === written) remember(request, told, under).catch(() => { /* It is told anew. */ });
    if (asksForOdds(request) && told.status === 200 && before === written && JSON.parse(atob(told.body)).weighed)
      weighed.set(jobOf(within(request)), written);
    return told;
  }
  navigator.serviceWorker.addEventListener('message', ({ data, ports: [port] }) => {
    if (!data?.ask) return;
    // At once: so that who asks knows that somebody is at it, however long it takes.
    port.postMessage({ heard: true });
    // The same asking once more has the same answer.
    const { id, ...request } = data.ask;
    if (!asked.has(id)) asked.set(id, answer(request).finally(() => setTimeout(() => asked.delete(id), 60000)));
    asked.get(id).then(told => port.postMessage(told));
  });
  navigator.serviceWorker.startMessages();

  const remembered = await recall({ address: meant() });
  if (remembered) show();
  desk ??= await begun;

  // The other one begins when the first page is there: it may not be in its way. A page that is shown already is worked out all
  // the same, so that the next tap does not wait for it.
  const first = remembered
    ? ask(desk, { sent: false, address: meant(), fields: [], kept: false, has: null })
    : new Promise(done => page.addEventListener('load', done, { once: true }));
  const stands = () => page.contentWindow.location.href === new URL(meant(), location.href).href;
  if (remembered?.isOld) first.then(() => { if (stands()) page.contentWindow.location.reload(); });
  first.then(() => program('beside', answered)).then(async other => {
    const all = new Promise(done => { whole = done; });
    desk.postMessage({ whole: true });
    const { whole: begin, chosen } = await all;
    other.postMessage({ begin, chosen }, [begin.buffer]);
    beside = other;
  }).catch(trouble => console.warn(`faults are weighed beside the pages: ${trouble.message}`));
}

// The address shows behind its mark where the person is, so that a reload comes back there.
page.addEventListener('load', () => {
  const at = page.contentWindow?.location;
  if (!at || at.origin !== location.origin || !page.src) return;
  history.replaceState(null, '', here + '#/' + (at.pathname + at.search + at.hash).slice(here.length));
  document.title = page.contentDocument?.title || 'Tightcold';
  document.documentElement.lang = page.contentDocument?.documentElement.lang || language;
  document.querySelector('meta[name=theme-color]').content = page.contentDocument?.querySelector('meta[name=theme-color]')?.content ?? '#ffffff';
});

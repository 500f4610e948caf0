// The shell: it starts the worker in which the whole program runs, and shows its pages in a frame. What a page asks for goes
// to the service worker, from there to this shell, and from here to the program; nothing leaves the phone.
'use strict';
const said = document.getElementById('said');
const page = document.getElementById('page');
const here = new URL('./', location.href).pathname;

const say = (words, press) => {
  said.textContent = words;
  document.querySelector('.press')?.remove();
  if (!press) return;
  const button = document.createElement('button');
  button.className = 'press';
  button.textContent = press[0];
  button.addEventListener('click', press[1]);
  said.after(button);
};

if (!('serviceWorker' in navigator) || !navigator.storage?.getDirectory)
  say('This browser cannot keep a journal here: it needs a page over https or from this very machine, and a browser of 2023 or later. Nothing was changed.');
else start().catch(trouble => say(`It did not open: ${trouble.message}. Nothing that was written down is lost.`, ['Try again', () => location.reload()]));

async function start() {
  const opened = performance.now();
  await navigator.serviceWorker.register('service.js', { type: 'module' });
  await navigator.serviceWorker.ready;
  // The first time the worker comes after the page.
  if (!navigator.serviceWorker.controller) await new Promise(done => navigator.serviceWorker.addEventListener('controllerchange', done, { once: true }));
  // Of several tabs one holds the journal's file; the others show what it answers, and take over when it is closed.
  const held = new Promise(holds => navigator.locks.request('tightcold-journal', () => new Promise(() => holds({ opened: hold() }))));
  const first = await Promise.race([held, new Promise(done => setTimeout(done, 300))]);
  await (first ? first.opened : another());
  // Asked once the journal is there: a browser that grants it never clears it by itself.
  navigator.storage.persist?.().catch(() => { /* The page says so. */ });
  document.documentElement.dataset.ready = String(Math.round(performance.now() - opened));
  page.hidden = false;
  document.getElementById('opens').hidden = true;
  page.src = location.pathname + location.search + location.hash;
}

// Another tab has the journal: it is asked through the service worker like any page.
async function another() {
  for (let tries = 0; tries < 40; tries++) {
    const answer = await fetch(here + 'timers', { cache: 'no-store' }).catch(() => null);
    if (answer?.ok) return;
    await new Promise(done => setTimeout(done, 500));
  }
  throw new Error('another tab holds the journal and does not answer; close it');
}

// This tab holds the journal: the program is started, and asked whatever the service worker passes on.
async function hold() {
  const desk = new Worker('desk.js', { type: 'module' });
  const waiting = new Map();
  let next = 0;
  await new Promise((done, failed) => {
    desk.addEventListener('error', trouble => failed(new Error(trouble.message || 'the program did not load')));
    desk.addEventListener('message', ({ data }) => {
      if (data.open !== undefined) { if (data.open) console.warn(data.open); done(); }
      else if (data.failed) failed(new Error(data.failed));
      else { waiting.get(data.id)?.postMessage(data.answer); waiting.delete(data.id); }
    });
  });
  navigator.serviceWorker.addEventListener('message', ({ data, ports }) => {
    if (!data?.ask) return;
    const id = next++;
    waiting.set(id, ports[0]);
    // At once: so that who asks knows that somebody is at it, however long it takes.
    ports[0].postMessage({ heard: true });
    desk.postMessage({ id, ask: data.ask });
  });
  navigator.serviceWorker.startMessages();
}

// The address shows where the person is, so that a reload comes back there.
page.addEventListener('load', () => {
  const at = page.contentWindow?.location;
  if (!at || at.origin !== location.origin || !page.src) return;
  history.replaceState(null, '', at.pathname + at.search + at.hash);
  document.title = page.contentDocument?.title || 'Tightcold';
  document.querySelector('meta[name=theme-color]').content = page.contentDocument?.querySelector('meta[name=theme-color]')?.content ?? '#ffffff';
});

// On every page: sends forms in the background, keeps in this browser what could not be sent, and sends it once later.
// Every form works without this file; it is then sent as any other.
(() => {
  'use strict';
  // The folder under which all addresses are, where the site is not one of its own; another program may have the site above it.
  const under = document.documentElement.dataset.under ?? '';
  const key = 'tightcold-kept' + under;
  const read = () => { try { return JSON.parse(localStorage.getItem(key)) ?? []; } catch { return []; } };
  const keep = list => { try { localStorage.setItem(key, JSON.stringify(list)); return true; } catch { return false; } };
  // A text in the page's language; in English where it holds no other.
  const texts = (() => { try { return JSON.parse(document.getElementById('words').textContent); } catch { return {}; } })();
  const said = (text, ...places) => (texts[text] ?? text).replace(/\{(\d)\}/g, (_, place) => places[place]);
  const newId = () => crypto.randomUUID ? crypto.randomUUID()
    : '10000000-1000-4000-8000-100000000000'.replace(/[018]/g, c => (c ^ crypto.getRandomValues(new Uint8Array(1))[0] & 15 >> c / 4).toString(16));
  // What a machine that answers, and cannot keep anything just now, says by its status. Empty: it did not answer.
  const reasons = { 503: said('the data are busy or do not answer just now'), 507: said('the disk that holds the data is full') };
  let why = '';
  let token = document.querySelector('input[name=token]')?.value ?? '';

  // One sending. Tells where to go when it was taken, the refused page's words when it was not; throws without network.
  async function send(item) {
    for (let tries = 0; ; tries++) {
      const body = new URLSearchParams(item.fields);
      body.set('token', token);
      body.set('ago', String(Math.max(0, Math.round((Date.now() - item.at) / 1000))));
      const stop = new AbortController();
      const timer = setTimeout(() => stop.abort(), 25000);
      let answer;
      try {
        answer = await fetch(item.action, { method: 'POST', body, headers: { 'X-Tightcold-Kept': '1' }, redirect: 'error', signal: stop.signal });
      } finally { clearTimeout(timer); }
      if (answer.status === 204) return { go: answer.headers.get('X-Tightcold-Go') };
      // A page from the cache may carry a token from before: ask for a new one, once.
      if (answer.status === 400 && tries === 0 && await renew()) continue;
      if (answer.status >= 500) throw Object.assign(new Error(String(answer.status)), { why: reasons[answer.status] });
      const page = new DOMParser().parseFromString(await answer.text(), 'text/html');
      const told = page.querySelector('[data-asks]') ?? page.querySelector('[role=alert]');
      const lines = [...(told ? told.querySelectorAll('p, li') : []), ...page.querySelectorAll('.problem')].map(line => line.textContent.trim()).filter(line => line);
      return { said: [...new Set(lines)].join(' ') || said('answer {0}', answer.status), asks: page.querySelector('[data-asks]')?.dataset.asks };
    }
  }
  async function renew() {
    const page = new DOMParser().parseFromString(await (await fetch(under + '/', { cache: 'no-store' })).text(), 'text/html');
    const fresh = page.querySelector('input[name=token]')?.value;
    if (!fresh) return false;
    token = fresh;
    return true;
  }

  // What a person reads for a choice or a unit of a form, in the page's language; else what was sent.
  function reads(form, name, value) {
    const box = [...form.elements].find(one => one.name === name && one.value === value), label = box?.closest('label');
    const words = box?.tagName === 'SELECT' ? box.selectedOptions[0]
      : box?.tagName === 'BUTTON' ? box
      : box?.type === 'radio' || box?.type === 'checkbox' ? label?.querySelector('strong') ?? label?.querySelector('span') : null;
    return words?.textContent.trim() || value || '';
  }

  // A form that may wait: entries, cars, jobs, kit.
  document.addEventListener('submit', event => {
    const form = event.target;
    const label = form.dataset.keep;
    if (label === undefined || event.defaultPrevented) return;
    // A switch of units is no sending: the page comes back with what is typed.
    if (event.submitter?.name === 'units') {
      if (navigator.onLine) return;
      event.preventDefault();
      say(said('No network: the units can be switched when it is back. What is typed stays.'));
      return;
    }
    const data = new FormData(form, event.submitter ?? undefined);
    if ([...data.values()].some(value => typeof value !== 'string')) return;
    event.preventDefault();
    const fields = [...data.entries()].filter(([name]) => name !== 'token');
    const typed = fields.filter(([name, value]) => name.startsWith('f.') && value).map(([name, value]) =>
      `${reads(form, name, value)} ${reads(form, 'u.' + name.slice(2), fields.find(([unit]) => unit === 'u.' + name.slice(2))?.[1])}`.trim()).slice(0, 4).join(', ');
    // A page from the cache carries an id that may be spent: each sending has its own, and keeps it however often it is sent.
    const item = { action: form.action || location.href, at: Date.now(), id: newId(), label, typed, back: form.dataset.back ?? document.querySelector('.crumb')?.getAttribute('href') ?? under + '/' };
    item.fields = fields.map(([name, value]) => name === 'id' ? ['id', item.id] : [name, value]);
    const button = event.submitter;
    if (button) { button.disabled = true; button.dataset.was = button.textContent; button.textContent = said('Sending'); }
    const again = () => { if (button) { button.disabled = false; button.textContent = button.dataset.was; } };
    send(item).then(answer => {
      if (answer.go) {
        navigator.serviceWorker?.controller?.postMessage({ written: true });
        location.assign(answer.go);
      }
      else {
        // Refused: let the browser send it as any other form, so that the page with the reasons comes.
        again();
        if (event.submitter?.name) { const more = document.createElement('input'); more.type = 'hidden'; more.name = event.submitter.name; more.value = event.submitter.value; form.append(more); }
        form.submit();
      }
    }).catch(() => {
      again();
      if (keep([...read(), item])) location.assign(item.back);
      else form.submit();
    });
  });

  let busy = false;
  async function flush() {
    if (busy || !read().some(item => !item.said)) return;
    busy = true;
    let sent = 0;
    try {
      for (const item of read().filter(waiting => !waiting.said)) {
        const answer = await send(item);
        // What another tab has sent meanwhile is gone from the list; the id makes a second sending harmless.
        keep(read().flatMap(waiting => waiting.id !== item.id ? [waiting] : answer.said ? [{ ...waiting, said: answer.said, asks: answer.asks }] : []));
        if (answer.said) continue;
        sent++;
        navigator.serviceWorker?.controller?.postMessage({ written: true });
      }
      why = '';
    } catch (trouble) {
      // Not kept there: everything stays here and is sent later.
      why = trouble.why ?? '';
    }
    busy = false;
    show();
    // A page that only shows is loaded again with what was sent; one where somebody types is left alone.
    if (sent > 0 && !document.querySelector('form[data-keep]')) location.reload();
  }

  function press(words, action) {
    const button = document.createElement('button');
    button.type = 'button';
    button.className = 'press';
    button.textContent = words;
    button.addEventListener('click', action);
    return button;
  }
  function show() {
    const box = document.getElementById('kept');
    if (!box) return;
    const all = read();
    box.hidden = all.length === 0;
    if (all.length === 0) return;
    const waits = all.filter(item => !item.said).length;
    box.querySelector('h2').textContent = waits === 0 ? said('Sent, and not taken')
      : why ? said('{0} waiting, kept in this browser: {1}', waits, why) : said('{0} waiting for the network, kept in this browser', waits);
    // What was refused is shown whole; of what waits the last three, and how many more.
    const shown = [...all.filter(item => item.said), ...all.filter(item => !item.said).slice(-3)];
    box.querySelector('ul').replaceChildren(...shown.map(item => {
      const line = document.createElement('li');
      const words = document.createElement('p');
      const minutes = Math.round((Date.now() - item.at) / 60000);
      const what = item.label + (item.typed ? ': ' + item.typed : '');
      words.textContent = minutes < 1
        ? item.said ? said('{0}, just now. Not taken: {1}', what, item.said) : said('{0}, just now', what)
        : item.said ? said('{0}, {1} min ago. Not taken: {2}', what, minutes, item.said) : said('{0}, {1} min ago', what, minutes);
      line.append(words);
      if (item.asks) line.append(press(said('Yes, it is right'), () => {
        keep(read().map(other => other.id !== item.id ? other : { ...other, said: undefined, asks: undefined, fields: [...other.fields.filter(([name]) => name !== 'really'), ['really', item.asks]] }));
        show();
        flush();
      }));
      if (!item.said && item === shown[shown.length - 1] && waits > 3) words.textContent = said('{0}; and {1} more', words.textContent, waits - 3);
      if (item.said) line.append(press(said('Throw it away'), () => { keep(read().filter(other => other.id !== item.id)); show(); }));
      return line;
    }));
  }
  show();
  flush();
  addEventListener('online', flush);
  addEventListener('storage', show);
  document.addEventListener('visibilitychange', () => { if (document.visibilityState === 'visible') flush(); });
  setInterval(flush, 10000);

  // A line above the page, heard by a screen reader, with a way there and a way to be rid of it.
  let bar = null;
  function say(words, go) {
    bar ??= document.getElementById('main')?.parentNode.insertBefore(Object.assign(document.createElement('div'), { className: 'news alarm' }), document.getElementById('main'));
    if (!bar) return;
    bar.setAttribute('role', 'alert');
    const text = document.createElement('p');
    text.textContent = words;
    const row = document.createElement('div');
    row.className = 'alarm-row';
    if (go && go !== location.pathname) {
      const link = document.createElement('a');
      link.className = 'press hand';
      link.href = go;
      link.textContent = said('Go there');
      row.append(link);
    }
    row.append(press(said('Heard'), () => { bar.replaceChildren(); navigator.vibrate?.(0); }));
    bar.replaceChildren(text, row);
  }

  // Sound: a browser lets a page sound after one touch of it, so the first touch opens it.
  let audio = null;
  const quiet = () => { try { return localStorage.getItem('tightcold-quiet') === 'yes'; } catch { return false; } };
  const open = () => { try { audio ??= new AudioContext(); audio.resume(); } catch { /* then it shakes and shows */ } };
  addEventListener('pointerdown', open, { once: true });
  addEventListener('keydown', open, { once: true });
  function sound() {
    if (quiet()) return;
    navigator.vibrate?.([400, 200, 400, 200, 400]);
    if (audio?.state !== 'running') return;
    for (let i = 0; i < 3; i++) {
      const tone = audio.createOscillator(), loud = audio.createGain();
      tone.frequency.value = 880;
      loud.gain.value = 0.3;
      tone.connect(loud).connect(audio.destination);
      tone.start(audio.currentTime + 0.5 * i);
      tone.stop(audio.currentTime + 0.5 * i + 0.3);
    }
  }
  document.addEventListener('tightcold-sound', event => { say(event.detail); sound(); });

  // What runs in any job sounds on any page: the moments live in the journal, the last ones heard of in this browser, so
  // that they are known without network too.
  const timersKey = 'tightcold-timers' + under, toldKey = 'tightcold-told' + under;
  const get = key => { try { return JSON.parse(localStorage.getItem(key)) ?? {}; } catch { return {}; } };
  const put = (key, value) => { try { localStorage.setItem(key, JSON.stringify(value)); } catch { /* heard again then */ } };
  async function ask() {
    try {
      const answer = await fetch(under + '/timers', { cache: 'no-store' });
      // A phone's clock may run wrong; its difference to the site's does not.
      if (answer.ok) { const told = await answer.json(); put(timersKey, { timers: told.timers, ahead: Date.now() - told.now }); }
    } catch { /* What was heard of before stays true. */ }
  }
  function due() {
    const { timers = [], ahead = 0 } = get(timersKey), now = Date.now() - ahead, told = get(toldKey);
    for (const line of document.querySelectorAll('[data-due]')) {
      const left = Math.round((Number(line.dataset.due) - now) / 1000), size = Math.abs(left);
      const text = `${Math.floor(size / 60)}:${String(size % 60).padStart(2, '0')}`;
      line.textContent = left >= 0 ? said('{0} left', text) : said('due since {0}', text);
    }
    const heard = {};
    for (const timer of timers.filter(one => one.due <= now)) {
      // When due, and every five minutes after it, until the next reading is written down.
      const name = `${timer.what} ${timer.due}`, times = 1 + Math.floor((now - timer.due) / 300000);
      heard[name] = times;
      // Due since long is no news: somebody comes back the next morning.
      if ((told[name] ?? 0) >= times || times > 6) continue;
      say(`${timer.what}. ${timer.then}.`, under + timer.go);
      sound();
      if (document.hidden && globalThis.Notification?.permission === 'granted')
        navigator.serviceWorker?.ready.then(ready => ready.showNotification(timer.what, { body: timer.then, tag: name, vibrate: [400, 200, 400] })).catch(() => {});
    }
    if (JSON.stringify(heard) !== JSON.stringify(told)) put(toldKey, heard);
  }
  const tryIt = document.querySelector('[data-sound]'), hush = document.querySelector('[data-quiet]');
  if (tryIt && hush) {
    for (const part of document.querySelectorAll('[data-sound], [data-quiet], [data-sound-says]')) part.hidden = false;
    const shown = () => { hush.textContent = said(quiet() ? 'Sound is off: sound again' : 'Sound is on: be quiet'); };
    tryIt.addEventListener('click', () => { open(); Promise.resolve(audio?.resume()).finally(sound); globalThis.Notification?.requestPermission?.(); });
    hush.addEventListener('click', () => { try { localStorage.setItem('tightcold-quiet', quiet() ? 'no' : 'yes'); } catch { /* stays as it is */ } shown(); });
    shown();
  }
  ask().then(due);
  setInterval(due, 1000);
  setInterval(ask, 60000);

  // Pages seen once open again without network, where the browser allows it (on this machine, or over TLS).
  // In the phone itself every page is there, and a worker of its own looks after them.
  if (document.documentElement.dataset.host !== 'phone') navigator.serviceWorker?.register('/worker.js').then(() => navigator.serviceWorker.ready).then(ready => {
    // The page that was open before the worker ran, the start, and of a job the forms that the step of now leads to; every
    // other form of it later, so that anything can be written without network.
    const told = name => (document.querySelector('.bar')?.dataset[name] ?? '').split(' ').filter(href => href.startsWith('/jobs/'));
    const near = [...document.querySelectorAll('.bar a[href], .meanwhile a[href], .walk .now a[href]')]
      .map(link => link.getAttribute('href')).filter(href => href.startsWith('/jobs/')).concat(told('near'));
    // The looks and scripts of this page came before the worker did.
    const looks = [...document.querySelectorAll('link[href], script[src]')].map(part => part.getAttribute('href') ?? part.getAttribute('src'));
    ready.active?.postMessage({ near: [...new Set([...looks, location.pathname + location.search, '/', ...near])], later: told('later') });
  }).catch(() => { /* Then only an open page keeps what is typed. */ });
})();

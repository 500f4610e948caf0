// In the phone, on the page of the exchange: gives the laptop's site what it lacks and takes what this phone lacks, by the same
// files that a person may carry (docs/exchange.md). The site is at the root of the address that this phone has its program from.
(() => {
  'use strict';
  const part = document.getElementById('laptop');
  const under = document.documentElement.dataset.under ?? '';
  if (!part || !under) return;
  const at = part.dataset;
  const [button, told, list, pair] = ['button', '[role=status]', 'ul', 'a'].map(name => part.querySelector(name));
  const texts = (() => { try { return JSON.parse(document.getElementById('words').textContent); } catch { return {}; } })();
  const said = (text, ...places) => (texts[text] ?? text).replace(/\{(\d)\}/g, (_, place) => places[place]);
  // Longer than this the other side is not waited for: its network is gone, or it sleeps.
  const patience = 60000;

  const say = (sentence, isTrouble) => {
    told.textContent = sentence;
    told.classList.toggle('mind', isTrouble === true);
    told.hidden = false;
  };

  async function ask(address, options) {
    const stop = new AbortController();
    const timer = setTimeout(() => stop.abort(), patience);
    try {
      return await fetch(address, { cache: 'no-store', redirect: 'error', signal: stop.signal, ...options });
    } catch {
      throw new Error(said('It was broken off: no answer. What came over stays; press again for the rest.'));
    } finally { clearTimeout(timer); }
  }
  const broken = answer =>
    new Error(said('It was broken off: the answer was {0}. What came over stays; press again for the rest.', answer.status));

  // A text from either side; what is no plain answer ends the exchange, with what there was to read.
  async function textOf(address, options) {
    const answer = await ask(address, options);
    if (answer.status === 403) {
      [pair.href, pair.hidden] = [at.pair, false];
      throw new Error(said('The laptop does not know this phone: pair it, then press again.'));
    }
    if (!answer.ok) throw broken(answer);
    return answer.text();
  }
  function form(text, fields) {
    const body = new FormData();
    for (const [name, value] of Object.entries(fields)) body.set(name, value);
    body.set('file', new File([text], 'exchange.json', { type: 'application/json' }));
    return { method: 'POST', body, headers: { 'X-Tightcold-Kept': '1' } };
  }
  const read = page => new DOMParser().parseFromString(page, 'text/html');
  const tokenOf = page => read(page).querySelector('input[name=token]')?.value ?? '';

  // What the one lacks of the other's, in parts, until nothing is lacking; what the taker leaves out, it says.
  async function carry(from, to) {
    let [came, before] = [0, null];
    const left = new Set();
    for (;;) {
      const tally = await textOf(to.base + at.tally);
      // The same tally once more: what is still lacking was left out, and would be again.
      if (tally === before) break;
      before = tally;
      const file = await textOf(from.base + at.lacking, form(tally, { token: from.token, parts: 'yes' }));
      const { cars, kits, jobs } = JSON.parse(file);
      if (cars.length + kits.length + jobs.length === 0) break;
      const answer = await ask(to.base + at.import, form(file, { token: to.token }));
      if (answer.status === 422) {
        for (const line of read(await answer.text()).querySelectorAll('main [role=alert] li')) left.add(line.textContent.trim());
      } else if (answer.status !== 204) throw broken(answer);
      came += jobs.length;
      say(said('Jobs that came over: {0}', came));
    }
    return { came, left };
  }

  async function exchange() {
    say(said('Asking what each side holds'));
    [pair.hidden, list.hidden] = [true, true];
    // The laptop's forms carry a token, the phone's none.
    const laptop = { base: '', token: tokenOf(await textOf(at.exchange)) };
    const phone = { base: under, token: '' };
    const given = await carry(phone, laptop);
    const taken = await carry(laptop, phone);
    const left = [...given.left, ...taken.left];
    list.replaceChildren(...left.map(words => Object.assign(document.createElement('li'), { textContent: words })));
    list.hidden = left.length === 0;
    const sums = said('Jobs given: {0}, taken: {1}.', given.came, taken.came);
    if (left.length > 0) say(said('{0} Not all could be taken:', sums), true);
    else if (given.came + taken.came > 0) say(said('{0} Both hold the same now.', sums));
    else say(said('Both held the same already.'));
  }

  button.addEventListener('click', async () => {
    button.disabled = true;
    try { await exchange(); } catch (trouble) { say(trouble.message, true); } finally { button.disabled = false; }
  });

  // Whether there is a laptop's site at all: a plain web server has none, and then a file is the way.
  fetch(at.exchange, { cache: 'no-store', redirect: 'error' }).then(async answer => {
    part.hidden = answer.status !== 403 && !(answer.ok && tokenOf(await answer.text()));
  }).catch(() => {
    part.hidden = false;
    say(said('The laptop does not answer: in the workshop’s network it would. By file it goes anywhere.'), true);
  });
})();

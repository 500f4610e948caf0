// Shows what another device wrote into the same job, within seconds and without a reload. The page works without this
// file; what is new is then there at the next look. Nothing that somebody is typing, reading or has unfolded is lost.
(() => {
  'use strict';
  const { news, entries } = document.currentScript.dataset;
  // The page came before its faults were weighed: the job whose odds it waits for.
  let weighing = document.currentScript.dataset.weighing;
  const main = document.getElementById('main');
  // A text in the page's language; in English where it holds no other. Of a number of things as the number asks for.
  const texts = (() => { try { return JSON.parse(document.getElementById('words').textContent); } catch { return {}; } })();
  const filled = (text, places) => text.replace(/\{(\d)\}/g, (_, place) => places[place]);
  const said = (text, ...places) => filled(texts[text] ?? text, places);
  const counted = (count, one, many) => {
    const forms = texts[many];
    return filled(forms ? forms[new Intl.PluralRules(document.documentElement.lang).select(count)] ?? forms.other : count === 1 ? one : many, [count]);
  };
  let shown = Number(entries), waiting = 0, busy = false, pause = weighing ? 700 : 3000, timer = 0;

  // What is said stands outside the part that is swapped, so that a screen reader hears it.
  const bar = document.createElement('div');
  bar.className = 'news';
  bar.setAttribute('role', 'status');
  main.before(bar);
  const say = (words, press) => {
    bar.replaceChildren();
    if (!words) return;
    const text = document.createElement('p');
    text.textContent = words;
    bar.append(text);
    if (!press) return;
    const button = document.createElement('button');
    button.type = 'button';
    button.className = 'press hand';
    button.textContent = said('Show');
    button.addEventListener('click', () => swap(true));
    bar.append(button);
  };

  // Somebody is at it: the cursor stands in a field, a field was changed, or words are marked.
  const changed = field => field.type === 'hidden' ? false
    : field.type === 'checkbox' || field.type === 'radio' ? field.checked !== field.defaultChecked
    : field.tagName === 'SELECT' ? [...field.options].some(option => option.defaultSelected !== option.selected && (option.defaultSelected || field.selectedIndex > 0))
    : field.value !== field.defaultValue;
  const typing = () => {
    const fields = [...main.querySelectorAll('input, textarea, select')];
    return fields.includes(document.activeElement) || fields.some(changed) || getSelection().toString().length > 0;
  };

  // What the page said was open, to tell it from what a finger opened or shut.
  const folds = part => [...part.querySelectorAll('details')];
  const nameOf = fold => {
    const home = fold.closest('[id]') ?? main;
    return home.id + ' ' + folds(home).indexOf(fold);
  };
  let open = new Map(folds(main).map(fold => [fold, fold.open]));
  const press = element => element.tagName + ' ' + (element.getAttribute('href') ?? '') + ' ' + element.textContent.trim();

  async function swap(asked) {
    if (busy) return;
    busy = true;
    try {
      const answer = await fetch(location.pathname + location.search, { headers: { accept: 'text/html' } });
      const page = answer.ok ? new DOMParser().parseFromString(await answer.text(), 'text/html') : null;
      const fresh = page?.getElementById('main'), mark = fresh?.querySelector('script[data-entries]');
      if (!mark || (!asked && typing())) return;
      const byHand = new Map(folds(main).filter(fold => fold.open !== open.get(fold)).map(fold => [nameOf(fold), fold.open]));
      // The step at the upper edge of the screen stays where it is.
      const edge = [...main.querySelectorAll('[id]')].find(place => place.getBoundingClientRect().bottom > 0);
      const top = edge?.getBoundingClientRect().top;
      const focus = main.contains(document.activeElement) ? press(document.activeElement) : null;
      const more = Number(mark.dataset.entries) - shown;
      shown = Number(mark.dataset.entries);
      weighing = mark.dataset.weighing;
      fresh.querySelectorAll('script').forEach(script => script.remove());
      main.replaceChildren(...fresh.childNodes);
      open = new Map(folds(main).map(fold => [fold, fold.open]));
      for (const fold of folds(main)) fold.open = byHand.get(nameOf(fold)) ?? fold.open;
      if (focus) [...main.querySelectorAll('a, button, summary')].find(other => press(other) === focus)?.focus({ preventScroll: true });
      const now = edge && document.getElementById(edge.id);
      if (now) scrollBy({ top: now.getBoundingClientRect().top - top, behavior: 'instant' });
      waiting = 0;
      say(more > 0 ? counted(more, '{0} new entry from another device, shown below.', '{0} new entries from another device, shown below.') : '');
      document.dispatchEvent(new Event('job-shown-anew'));
    } finally {
      busy = false;
    }
  }

  async function ask() {
    clearTimeout(timer);
    if (document.visibilityState !== 'visible') return;
    try {
      const version = `"${shown + waiting}${weighing ? '-weighing' : ''}"`;
      const answer = await fetch(news + (weighing ? `?weighing=${weighing}` : ''), { headers: { 'if-none-match': version }, cache: 'no-store' });
      if (answer.status === 403 || answer.status === 404) {
        say(said(answer.status === 403 ? 'This device is no longer paired; what is shown may be old.' : 'This job is no longer here.'));
        return;
      }
      const told = answer.ok ? await answer.json() : null;
      if (told) waiting = Math.max(0, told.entries - shown);
      if ((waiting > 0 || (weighing && told?.weighed)) && !typing()) await swap(false);
      pause = !answer.ok && answer.status !== 304 ? 15000 : weighing ? 700 : 3000;
      if (waiting > 0) say(counted(waiting, '{0} new entry from another device.', '{0} new entries from another device.'), true);
    } catch {
      // No network: asked again later, more slowly.
      pause = 15000;
    }
    timer = setTimeout(ask, pause);
  }

  document.addEventListener('visibilitychange', ask);
  addEventListener('online', ask);
  timer = setTimeout(ask, pause);
})();

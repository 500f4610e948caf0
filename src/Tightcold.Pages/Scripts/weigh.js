// The weigh-in page: big keys, what would be to go while a number is typed, a draft that survives a reload, a sound before
// the mark, ticks that stay. The page works without this file; what cannot be sent is kept by the script of every page.
(() => {
  'use strict';
  // A text in the page's language; in English where it holds no other.
  const texts = (() => { try { return JSON.parse(document.getElementById('words').textContent); } catch { return {}; } })();
  const said = (text, ...places) => (texts[text] ?? text).replace(/\{(\d)\}/g, (_, place) => places[place]);
  // How the language writes a number: the sign before its decimals.
  const point = (1.1).toLocaleString(document.documentElement.lang || 'en').charAt(1);
  const read = key => { try { return JSON.parse(localStorage.getItem(key)); } catch { return null; } };
  const keep = (key, value) => { try { localStorage.setItem(key, JSON.stringify(value)); } catch { /* then it is not kept */ } };
  const toGo = document.getElementById('to-go');
  const form = document.getElementById('weigh');
  const sound = words => document.dispatchEvent(new CustomEvent('tightcold-sound', { detail: words }));

  // Ticks of what was closed stay on this device, for this job.
  const ticks = document.querySelectorAll('[data-tick]');
  const ticksKey = 'tightcold-ticks ' + location.pathname;
  const ticked = read(ticksKey) ?? {};
  for (const tick of ticks) {
    tick.checked = ticked[tick.dataset.tick] === true;
    tick.addEventListener('change', () => { ticked[tick.dataset.tick] = tick.checked; keep(ticksKey, ticked); });
  }
  if (!form) return;
  const field = form.elements['f.gross'], unit = form.elements['u.gross'], can = form.elements['f.container'].value;
  const draftKey = 'tightcold-weigh-' + form.dataset.job + '-draft';
  const step = () => Number(unit.selectedOptions[0].dataset.step);
  const typedKg = () => parseFloat(field.value.replace(',', '.')) * step();
  const warnAtKg = 0.020;

  // Big keys: shown only where they can work.
  document.querySelectorAll('.needs-script').forEach(part => { part.hidden = false; });
  form.addEventListener('click', event => {
    const key = event.target.closest('button[data-key]');
    if (!key) return;
    event.preventDefault();
    field.value = key.dataset.key === 'back' ? field.value.slice(0, -1) : field.value + key.dataset.key.replace('.', point);
    typed();
  });

  // What would be to go, as it is typed.
  const shown = toGo?.textContent;
  function live() {
    if (!toGo?.dataset.gross || !shown) return;
    const fell = Number(toGo.dataset.gross) - typedKg();
    // Half a number is no reading: only one that a can could show moves the figure.
    const plausible = Number.isFinite(fell) && fell > -0.01 && fell < 1.2 * Math.max(0.05, Number(toGo.dataset.kg));
    const left = Number(toGo.dataset.kg) - fell;
    toGo.textContent = plausible ? `${(left / step()).toFixed(unit.value === 'g' ? 0 : 2).replace('.', point)} ${unit.selectedOptions[0].textContent.trim()}` : shown;
    if (plausible && toGo.dataset.stop && typedKg() <= Number(toGo.dataset.stop) + warnAtKg) before();
  }
  let told = false;
  function before() {
    if (told) return;
    told = true;
    sound(said('{0}: 20 g to its mark. Hand on the valve.', can));
  }
  function typed() { keep(draftKey, { gross: field.value, unit: unit.value, can, system: form.dataset.system }); live(); }
  form.addEventListener('input', typed);
  form.addEventListener('submit', () => { try { localStorage.removeItem(draftKey); } catch { /* it stays */ } });

  // A draft belongs to its can; after a switch of units it comes in the units of now.
  const old = read(draftKey);
  if (old?.gross && old.can === can && !field.value) {
    const was = [...unit.options].find(option => option.value === old.unit);
    if (was && old.system !== form.dataset.system) field.value = String(Math.round(parseFloat(old.gross.replace(',', '.')) * Number(was.dataset.step) / step() * 100) / 100).replace('.', point);
    else { field.value = old.gross; if (was) unit.value = old.unit; }
    live();
  }

  // By the rate of the last two readings: twenty grams before the mark it calls.
  const { rate, stop, gross, read: readAt } = toGo?.dataset ?? {};
  const left = document.getElementById('time-left');
  const opened = Date.now();
  const tick = () => {
    if (rate && stop && gross && readAt && Number(gross) - Number(rate) * (Date.now() - Number(readAt)) / 1000 <= Number(stop) + warnAtKg) before();
    if (!left?.dataset.seconds) return;
    const seconds = Math.max(0, Number(left.dataset.seconds) - (Date.now() - opened) / 1000);
    left.textContent = seconds >= 60 ? said('{0} min {1} s', Math.floor(seconds / 60), String(Math.floor(seconds % 60)).padStart(2, '0')) : said('{0} s', Math.floor(seconds));
  };
  tick();
  setInterval(tick, 1000);

  // The screen stays on while it fills, where the browser can.
  const awake = async () => { try { await navigator.wakeLock?.request('screen'); } catch { /* then it sleeps */ } };
  awake();
  document.addEventListener('visibilitychange', () => { if (document.visibilityState === 'visible') awake(); });
})();

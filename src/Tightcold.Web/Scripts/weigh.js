// The weigh-in page: big keys, a draft that survives a reload, and a queue for readings that could not be sent. The page
// works without this file; the form is then sent as any other.
(() => {
  'use strict';
  const form = document.getElementById('weigh');
  if (!form) return;
  const field = form.elements.gross;
  const queueKey = 'tightcold-weigh-' + form.dataset.job;
  const draftKey = queueKey + '-draft';
  const read = (key, otherwise) => { try { return JSON.parse(localStorage.getItem(key)) ?? otherwise; } catch { return otherwise; } };
  const keep = (key, value) => { try { localStorage.setItem(key, JSON.stringify(value)); return true; } catch { return false; } };
  const queue = () => read(queueKey, []);

  // Big keys and steps: shown only where they can work.
  document.querySelectorAll('.needs-script').forEach(part => { part.hidden = false; });
  const typed = () => parseFloat(field.value.replace(',', '.'));
  form.addEventListener('click', event => {
    const key = event.target.closest('button[data-key]');
    const step = event.target.closest('button[data-step]');
    if (key) field.value = key.dataset.key === 'back' ? field.value.slice(0, -1) : field.value + key.dataset.key;
    else if (step) {
      const start = Number.isFinite(typed()) ? typed() : parseFloat(form.dataset.last);
      if (Number.isFinite(start)) field.value = String(Math.max(0, Math.round((start + Number(step.dataset.step)) * 100) / 100));
    } else return;
    event.preventDefault();
    draft();
  });

  // A draft survives a reload and a sleeping phone.
  function draft() { keep(draftKey, { gross: field.value, unit: form.elements.unit.value, container: form.elements.container.value }); }
  form.addEventListener('input', draft);
  const old = read(draftKey, null);
  if (old && !field.value) {
    field.value = old.gross || '';
    if (old.unit) form.elements.unit.value = old.unit;
    if (old.container && [...form.elements.container.options].some(option => option.value === old.container)) form.elements.container.value = old.container;
  }

  const newId = () => crypto.randomUUID ? crypto.randomUUID()
    : '10000000-1000-4000-8000-100000000000'.replace(/[018]/g, c => (c ^ crypto.getRandomValues(new Uint8Array(1))[0] & 15 >> c / 4).toString(16));

  form.addEventListener('submit', event => {
    if (!field.value.trim()) return;
    const entry = { id: newId(), container: form.elements.container.value, gross: field.value, unit: form.elements.unit.value, at: Date.now() };
    // Without room in the browser the form is sent as any other.
    if (!keep(queueKey, [...queue(), entry])) return;
    event.preventDefault();
    field.value = '';
    localStorage.removeItem(draftKey);
    flush();
  });

  // Why readings wait: nobody answers, or who answers cannot keep them just now.
  const reasons = {
    503: 'waits: the data are busy or do not answer just now', 507: 'waits: the disk that holds the data is full',
  };
  const network = 'waits for the network';
  let why = network;
  let busy = false;
  async function flush() {
    if (busy) return;
    busy = true;
    let sent = 0;
    try {
      for (const entry of queue().filter(waiting => !waiting.refused)) {
        const body = new URLSearchParams({ token: form.elements.token.value, id: entry.id, container: entry.container, gross: entry.gross, unit: entry.unit,
          ago: String(Math.max(0, Math.round((Date.now() - entry.at) / 1000))) });
        const answer = await fetch(form.action, { method: 'POST', body, headers: { accept: 'application/json' }, redirect: 'manual' });
        if (answer.status === 422) {
          const said = await answer.json();
          keep(queueKey, queue().map(waiting => waiting.id === entry.id ? { ...waiting, refused: said.refused.join(' ') } : waiting));
        } else if (answer.ok) {
          keep(queueKey, queue().filter(waiting => waiting.id !== entry.id));
          sent++;
        } else throw Object.assign(new Error(String(answer.status)), { why: reasons[answer.status] });
      }
      why = network;
    } catch (trouble) {
      // What is typed stays here and is sent later.
      why = trouble.why ?? network;
    }
    busy = false;
    show();
    if (sent > 0 && queue().every(waiting => waiting.refused)) location.reload();
  }

  const waitingList = document.getElementById('waiting');
  function show() {
    const all = queue();
    waitingList.hidden = all.length === 0;
    const list = waitingList.querySelector('ul');
    list.replaceChildren(...all.map(entry => {
      const line = document.createElement('li');
      const words = document.createElement('span');
      words.textContent = `${entry.container}: ${entry.gross} ${entry.unit}, `
        + (entry.refused ? `not taken: ${entry.refused}` : `${why}, kept in this browser`);
      line.append(words);
      if (entry.refused) {
        const drop = document.createElement('button');
        drop.type = 'button';
        drop.className = 'press';
        drop.textContent = 'Throw this reading away';
        drop.addEventListener('click', () => { keep(queueKey, queue().filter(other => other.id !== entry.id)); show(); });
        line.append(drop);
      }
      return line;
    }));
  }

  // Time left counts down between readings.
  const left = document.getElementById('time-left');
  if (left && left.dataset.seconds) {
    const opened = Date.now();
    const tick = () => {
      const seconds = Math.max(0, Number(left.dataset.seconds) - (Date.now() - opened) / 1000);
      left.textContent = seconds >= 60 ? `${Math.floor(seconds / 60)} min ${String(Math.floor(seconds % 60)).padStart(2, '0')} s` : `${Math.floor(seconds)} s`;
    };
    tick();
    setInterval(tick, 1000);
  }

  // The screen stays on while it fills, where the browser can.
  const awake = async () => { try { await navigator.wakeLock?.request('screen'); } catch { /* then it sleeps */ } };
  awake();
  document.addEventListener('visibilitychange', () => { if (document.visibilityState === 'visible') { awake(); flush(); } });
  addEventListener('online', flush);
  setInterval(() => { if (queue().some(waiting => !waiting.refused)) flush(); }, 10000);
  show();
  flush();
})();

// On forms: a mark moves on the expected range while somebody types, usual words are tapped instead of typed, and Enter
// leads to the next empty number. Every form works without this file.
(() => {
  'use strict';
  const form = document.getElementById('entry');
  if (!form) return;

  // Where the number that stands in the box lies on the drawn range, in the unit that is chosen.
  function mark(field) {
    const bar = field.querySelector('svg.expect'), box = field.querySelector('.amount input'), unit = field.querySelector('.amount select');
    if (!bar || !box || !unit) return;
    const live = bar.querySelector('.live'), chosen = unit.selectedOptions[0];
    const si = parseFloat(box.value.replace(',', '.')) * Number(chosen.dataset.step) + Number(chosen.dataset.zero);
    live.setAttribute('visibility', Number.isFinite(si) ? 'visible' : 'hidden');
    if (!Number.isFinite(si)) return;
    const from = Number(bar.dataset.from), to = Number(bar.dataset.to);
    // What lies off the drawing stands at its edge.
    live.setAttribute('transform', `translate(${Math.min(298, Math.max(2, 300 * (si - from) / (to - from))).toFixed(1)} 0)`);
  }
  const marked = event => { const field = event.target.closest('.field'); if (field) mark(field); };
  form.addEventListener('input', marked);
  form.addEventListener('change', marked);
  form.querySelectorAll('.field').forEach(mark);

  for (const words of form.querySelectorAll('[data-fills]')) {
    words.hidden = false;
    words.addEventListener('click', event => {
      const word = event.target.closest('button');
      if (word) document.getElementById(words.dataset.fills).value = word.textContent.trim();
    });
  }

  // What usually goes together: into the fields, and a fold says what it holds.
  for (const rows of form.querySelectorAll('[data-presets]')) {
    rows.hidden = false;
    rows.addEventListener('click', event => {
      const button = event.target.closest('button');
      if (!button) return;
      for (const other of rows.querySelectorAll('button')) {
        // Of two that set the same, the last one counts.
        const same = Object.keys(JSON.parse(other.dataset.sets)).some(name => name in JSON.parse(button.dataset.sets));
        if (same) other.setAttribute('aria-pressed', other === button);
      }
      for (const [name, [text, unit]] of Object.entries(JSON.parse(button.dataset.sets))) {
        const boxes = [...form.querySelectorAll(`[name="f.${name}"]`)];
        for (const box of boxes) if (box.type === 'radio') box.checked = box.value === text; else box.value = text;
        const units = form.querySelector(`[name="u.${name}"]`);
        if (units && unit) units.value = unit;
        const fold = boxes[0]?.closest('details');
        if (fold && !fold.open) says(fold);
      }
    });
  }

  function says(fold) {
    // A choice and a unit as they are read, in the page's language.
    const reads = box => box.type === 'radio' ? box.closest('label')?.textContent.trim() || box.value : box.value;
    const held = [...fold.querySelectorAll('[name^="f."]')].filter(box => box.value && (box.type !== 'radio' || box.checked))
      .map(box => `${reads(box)} ${form.querySelector(`[name="u.${box.name.slice(2)}"]`)?.selectedOptions?.[0]?.textContent.trim() ?? ''}`.trim());
    let words = fold.querySelector('.holds');
    if (!words) { words = document.createElement('span'); words.className = 'holds'; fold.querySelector('summary').append(words); }
    words.textContent = held.join(', ');
  }

  // The next empty number in the open; from the last one Enter sends, as it always does.
  form.addEventListener('keydown', event => {
    if (event.key !== 'Enter' || !event.target.matches('.amount input')) return;
    const boxes = [...form.querySelectorAll('.amount input')].filter(box => box.offsetParent !== null);
    const next = boxes.slice(boxes.indexOf(event.target) + 1).find(box => !box.value);
    if (!next) return;
    event.preventDefault();
    next.focus();
  });
})();

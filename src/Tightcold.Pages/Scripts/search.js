// The search: a tap on the map chooses the spot without another page, and the bar says which one is chosen. Without this
// file the map leads to the same page with the spot chosen.
(() => {
  'use strict';
  const form = document.getElementById('look');
  if (!form) return;
  const chosen = document.querySelector('[data-chosen]');
  const say = () => {
    const spot = form.querySelector('input[name="f.spot"]:checked');
    if (chosen && spot) chosen.textContent = spot.closest('label')?.querySelector('strong')?.textContent.trim() || spot.value;
  };
  form.addEventListener('change', event => {
    say();
  });
  form.querySelector('[data-picks]')?.addEventListener('click', event => {
    const link = event.target.closest('a');
    const name = link && new URL(link.getAttribute('href'), location.href).searchParams.get('spot');
    const radio = [...form.querySelectorAll('input[name="f.spot"]')].find(one => one.value === name);
    if (!radio) return;
    event.preventDefault();
    radio.checked = true;
    say();
  });

  // Without network the kept page comes back, whichever spot it was made for: the next one is chosen here.
  const nextKey = 'tightcold-next ' + location.pathname;
  form.addEventListener('submit', event => {
    const spots = [...form.querySelectorAll('input[name="f.spot"]')];
    const ticked = event.submitter?.name === 'nothing-at' ? event.submitter.value : null;
    const next = spots[spots.findIndex(one => ticked ? one.value === ticked : one.checked) + 1];
    const by = form.querySelector('input[name="f.test"]:checked');
    try { sessionStorage.setItem(nextKey, JSON.stringify({ spot: next?.value, test: by?.value })); } catch { /* then it is tapped */ }
  });
  if (!new URLSearchParams(location.search).has('spot')) {
    let next = null;
    try { next = JSON.parse(sessionStorage.getItem(nextKey)); } catch { /* then it is tapped */ }
    for (const one of form.querySelectorAll('input[name="f.spot"], input[name="f.test"]'))
      if (next && (one.value === next.spot || one.value === next.test)) one.checked = true;
  }
  say();
})();

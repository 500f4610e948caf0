// Shrinks a photo on this device before it is sent: drawn anew it is small, and carries nothing of where and when it was
// taken. Without this file a photo is sent as it is, and refused where it is too large.
(() => {
  'use strict';
  // A text in the page's language; in English where it holds no other.
  const texts = (() => { try { return JSON.parse(document.getElementById('words').textContent); } catch { return {}; } })();
  const said = (text, ...places) => (texts[text] ?? text).replace(/\{(\d)\}/g, (_, place) => places[place]);
  for (const field of document.querySelectorAll('input[type=file][data-shrink]')) field.addEventListener('change', async () => {
    const [file] = field.files, told = field.closest('.field').querySelector('.shrunk'), button = field.form.querySelector('button');
    if (!file) return;
    button.disabled = true;
    told.textContent = said('Shrinking');
    try {
      const picture = await createImageBitmap(file);
      const most = Number(field.dataset.shrink);
      let small = null;
      // Smaller and coarser until it fits; the first already does for nearly every photo.
      for (const [side, quality] of [[1280, .72], [1280, .5], [960, .5], [640, .4]]) {
        const scale = Math.min(1, side / Math.max(picture.width, picture.height));
        const canvas = document.createElement('canvas');
        canvas.width = Math.max(1, Math.round(picture.width * scale));
        canvas.height = Math.max(1, Math.round(picture.height * scale));
        canvas.getContext('2d').drawImage(picture, 0, 0, canvas.width, canvas.height);
        small = await new Promise(done => canvas.toBlob(done, 'image/jpeg', quality));
        if (small && small.size <= most) break;
      }
      if (!small || small.size > most) throw new Error('too large');
      const list = new DataTransfer();
      list.items.add(new File([small], 'photo.jpg', { type: 'image/jpeg' }));
      field.files = list.files;
      told.textContent = said('Ready: {0} kB.', Math.round(small.size / 1000));
    } catch {
      told.textContent = said('This browser cannot shrink it; it is sent as it is.');
    }
    button.disabled = false;
  });
})();

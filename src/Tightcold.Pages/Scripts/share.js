// On the card: hands it to the phone's own sharing as a file. Without this file, or where a browser cannot share files,
// the link saves it, as any download.
(() => {
  'use strict';
  for (const link of document.querySelectorAll('a[data-share]')) link.addEventListener('click', async event => {
    if (!navigator.canShare) return;
    event.preventDefault();
    try {
      const answer = await fetch(link.href);
      if (!answer.ok) throw new Error(String(answer.status));
      const file = new File([await answer.blob()], link.dataset.file, { type: 'text/html' });
      if (!navigator.canShare({ files: [file] })) throw new Error('no files');
      await navigator.share({ files: [file], title: link.dataset.share });
    } catch (trouble) {
      // Who closes the phone's own choice wanted nothing; all else is saved instead.
      if (trouble.name !== 'AbortError') location.assign(link.href);
    }
  });
})();

// Counts each timer down from the moment in its data and sounds when one is due. The moments live in the journal; this
// only reads them. Browsers let a page sound after one press of a person, so there is a button for it.
(() => {
  'use strict';
  const lines = [...document.querySelectorAll('[data-due]')];
  const button = document.querySelector('[data-sound]');
  let audio = null;
  const beep = () => {
    if (!audio) return;
    for (let i = 0; i < 3; i++) {
      const tone = audio.createOscillator(), loud = audio.createGain();
      tone.frequency.value = 880;
      loud.gain.value = 0.2;
      tone.connect(loud).connect(audio.destination);
      tone.start(audio.currentTime + 0.5 * i);
      tone.stop(audio.currentTime + 0.5 * i + 0.3);
    }
  };
  if (button) {
    button.hidden = false;
    button.addEventListener('click', () => {
      audio = new AudioContext();
      beep();
      button.textContent = 'Sound is on';
      button.disabled = true;
    });
  }
  const told = new Map();
  const tick = () => {
    const now = Date.now();
    for (const line of lines) {
      const left = Math.round((Number(line.dataset.due) - now) / 1000);
      const size = Math.abs(left);
      const text = `${Math.floor(size / 60)}:${String(size % 60).padStart(2, '0')}`;
      line.textContent = left >= 0 ? `${text} left` : `due since ${text}`;
      // When due, and each minute after, until the next reading is written down.
      const minute = left < 0 ? Math.floor(size / 60) : -1;
      if (minute >= 0 && minute !== told.get(line)) {
        told.set(line, minute);
        beep();
      }
    }
  };
  tick();
  setInterval(tick, 1000);
})();

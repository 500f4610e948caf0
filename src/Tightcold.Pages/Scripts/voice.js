// Where somebody switched it on: a number is said instead of typed, and what a page found is read out. The browser does
// both; nothing of the sound comes to this site. Without this file, or where the browser cannot, everything is typed.
(() => {
  'use strict';
  const Hearing = window.SpeechRecognition ?? window.webkitSpeechRecognition;
  const words = { zero: 0, oh: 0, one: 1, two: 2, three: 3, four: 4, five: 5, six: 6, seven: 7, eight: 8, nine: 9, ten: 10, eleven: 11, twelve: 12, thirteen: 13, fourteen: 14, fifteen: 15, sixteen: 16, seventeen: 17, eighteen: 18, nineteen: 19, twenty: 20, thirty: 30, forty: 40, fifty: 50, sixty: 60, seventy: 70, eighty: 80, ninety: 90 };

  // "28.5", "28 point 5", "minus twelve", "two hundred and five": one number, or null where it is not clear which.
  function number(said) {
    const parts = said.toLowerCase().replace(/(\d),(\d{3})\b/g, '$1$2').replace(/,/g, '.').replace(/-(?=[a-z])/g, ' ').match(/[a-z]+|-?\d+(?:\.\d+)?/g) ?? [];
    let whole = null, decimals = null, below = false;
    for (const part of parts) {
      if (part === 'minus' || part === 'negative') { if (whole !== null) return null; below = true; continue; }
      if (part === 'point' || part === 'dot') { if (decimals !== null) return null; decimals = ''; continue; }
      if (part === 'and' || part === 'a') continue;
      const value = part in words ? words[part] : /^-?\d/.test(part) ? Number(part) : part === 'hundred' || part === 'thousand' ? part : null;
      // What follows a number is its unit, which stands beside the field already.
      if (value === null) { if (whole !== null || decimals !== null) break; continue; }
      if (decimals !== null) { if (typeof value !== 'number' || !Number.isInteger(value) || value < 0) return null; decimals += value; continue; }
      if (value === 'hundred') whole = (whole ?? 1) * 100;
      else if (value === 'thousand') whole = (whole ?? 1) * 1000;
      else if (whole === null) whole = value;
      // Twenty-eight and two hundred five are one number; “28 30” are two.
      else if (part in words && (whole % 100 === 0 || (whole % 10 === 0 && value < 10))) whole += value;
      else return null;
    }
    if (whole === null && !decimals) return null;
    const text = String(whole ?? 0) + (decimals ? '.' + decimals : '');
    return below ? '-' + text.replace(/^-/, '') : text;
  }

  function button(name, label) {
    const press = document.createElement('button');
    press.type = 'button';
    press.className = 'press ' + name;
    press.textContent = label;
    return press;
  }

  function hear(field) {
    const press = button('say', 'Say it');
    const label = document.querySelector(`label[for="${CSS.escape(field.id)}"]`);
    if (label) press.setAttribute('aria-label', 'Say it: ' + label.textContent.trim());
    const told = document.createElement('p');
    told.className = 'hint';
    told.setAttribute('role', 'status');
    press.addEventListener('click', () => {
      const ear = new Hearing();
      ear.lang = 'en-US';
      ear.maxAlternatives = 3;
      ear.onresult = event => {
        const heard = [...event.results[0]].map(one => one.transcript.trim());
        const got = heard.map(number).find(one => one !== null);
        told.textContent = got === undefined ? `Heard “${heard[0]}”: no number in it. Say it again, or type it.` : `Heard ${got}. Look at it before you write it down.`;
        if (got === undefined) return;
        field.value = got;
        field.dispatchEvent(new Event('input', { bubbles: true }));
        field.dispatchEvent(new Event('change', { bubbles: true }));
      };
      ear.onerror = event => { told.textContent = event.error === 'not-allowed' ? 'The browser may not listen here; its settings allow it.' : 'Nothing was heard. Say it again, or type it.'; };
      ear.onend = () => { press.disabled = false; };
      press.disabled = true;
      told.textContent = 'Listening. Where the sound goes stands on the kit page.';
      ear.start();
    });
    (field.closest('.amount') ?? field).after(press, told);
  }

  function speak() {
    const found = document.querySelector('.now-line, .verdict');
    if (!found || !window.speechSynthesis) return;
    const press = button('read-out', 'Read it out');
    press.addEventListener('click', () => {
      speechSynthesis.cancel();
      const voice = new SpeechSynthesisUtterance(found.innerText.replace(/\s+/g, ' '));
      voice.lang = 'en';
      speechSynthesis.speak(voice);
    });
    found.after(press);
  }

  if (Hearing) for (const field of document.querySelectorAll('input[inputmode="decimal"]')) hear(field);
  speak();
  document.addEventListener('job-shown-anew', speak);
  window.tightcoldNumber = number;
})();

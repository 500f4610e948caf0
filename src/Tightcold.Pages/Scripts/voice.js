// Where somebody switched it on: a number is said instead of typed, and what a page found is read out. The browser does
// both; nothing of the sound comes to this site. Without this file, or where the browser cannot, everything is typed.
(() => {
  'use strict';
  // A text in the page's language; in English where it holds no other.
  const texts = (() => { try { return JSON.parse(document.getElementById('words').textContent); } catch { return {}; } })();
  const said = (text, ...places) => (texts[text] ?? text).replace(/\{(\d)\}/g, (_, place) => places[place]);
  const lang = document.documentElement.lang || 'en', english = lang === 'en';
  // How the language writes a number: the sign before its decimals.
  const point = (1.1).toLocaleString(lang).charAt(1);
  const Hearing = window.SpeechRecognition ?? window.webkitSpeechRecognition;
  const words = { zero: 0, oh: 0, one: 1, two: 2, three: 3, four: 4, five: 5, six: 6, seven: 7, eight: 8, nine: 9, ten: 10, eleven: 11, twelve: 12, thirteen: 13, fourteen: 14, fifteen: 15, sixteen: 16, seventeen: 17, eighteen: 18, nineteen: 19, twenty: 20, thirty: 30, forty: 40, fifty: 50, sixty: 60, seventy: 70, eighty: 80, ninety: 90 };

  // Signs as they are heard in the languages of the pages; numbers in words are known in English only, the hearing writes
  // most of them as digits.
  const minus = ['minus', 'negative', 'menos', 'moins'], dots = ['point', 'dot', 'komma', 'coma', 'virgule', 'przecinek'];

  // "28.5", "28 point 5", "minus twelve", "two hundred and five": one number, or null where it is not clear which.
  function number(heard) {
    // Thousands: after a comma in English, elsewhere after a point or a blank, and the comma is the decimal sign.
    const plain = heard.toLowerCase().replace(english ? /(\d),(\d{3})\b/g : /(\d)[.\u00a0\u202f](\d{3})\b/g, '$1$2');
    const parts = plain.replace(/,/g, '.').replace(/-(?=[a-z])/g, ' ').match(/[a-z]+|-?\d+(?:\.\d+)?/g) ?? [];
    let whole = null, decimals = null, below = false;
    for (const part of parts) {
      if (minus.includes(part)) { if (whole !== null) return null; below = true; continue; }
      if (dots.includes(part)) { if (decimals !== null) return null; decimals = ''; continue; }
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
    const press = button('say', said('Say it'));
    const label = document.querySelector(`label[for="${CSS.escape(field.id)}"]`);
    if (label) press.setAttribute('aria-label', said('Say it: {0}', label.textContent.trim()));
    const told = document.createElement('p');
    told.className = 'hint';
    told.setAttribute('role', 'status');
    press.addEventListener('click', () => {
      const ear = new Hearing();
      ear.lang = english ? 'en-US' : lang;
      ear.maxAlternatives = 3;
      ear.onresult = event => {
        const heard = [...event.results[0]].map(one => one.transcript.trim());
        const got = heard.map(number).find(one => one !== null);
        told.textContent = got === undefined ? said('Heard “{0}”: no number in it. Say it again, or type it.', heard[0]) : said('Heard {0}. Look at it before you write it down.', got);
        if (got === undefined) return;
        field.value = got.replace('.', point);
        field.dispatchEvent(new Event('input', { bubbles: true }));
        field.dispatchEvent(new Event('change', { bubbles: true }));
      };
      ear.onerror = event => { told.textContent = said(event.error === 'not-allowed' ? 'The browser may not listen here; its settings allow it.' : 'Nothing was heard. Say it again, or type it.'); };
      ear.onend = () => { press.disabled = false; };
      press.disabled = true;
      told.textContent = said('Listening. Where the sound goes stands on the kit page.');
      ear.start();
    });
    (field.closest('.amount') ?? field).after(press, told);
  }

  function speak() {
    const found = document.querySelector('.now-line, .verdict');
    if (!found || !window.speechSynthesis) return;
    const press = button('read-out', said('Read it out'));
    press.addEventListener('click', () => {
      speechSynthesis.cancel();
      const voice = new SpeechSynthesisUtterance(found.innerText.replace(/\s+/g, ' '));
      voice.lang = lang;
      speechSynthesis.speak(voice);
    });
    found.after(press);
  }

  if (Hearing) for (const field of document.querySelectorAll('input[inputmode="decimal"]')) hear(field);
  speak();
  document.addEventListener('job-shown-anew', speak);
  window.tightcoldNumber = number;
})();

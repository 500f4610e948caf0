// The worker in which the program runs. Two of them are started: one holds the journal, on one file of the browser's own
// storage that only grows, and writes and draws; the other follows it in memory and weighs what takes long.
import { dotnet } from './_framework/dotnet.js';
import { openStorage } from './storage.js';

const tell = (message, moved) => self.postMessage(message, moved ?? []);
const holds = self.name !== 'beside';
const home = new URL('./', self.location.href).href;
// The choices of the person, as both know them.
let kept = {};

// What was added and not yet told to the one that follows.
const fresh = [];

// What the program knows of the disk.
function disk(journal, choices) {
  return {
    size: () => journal.getSize(),
    read: (at, view) => {
      const bytes = new Uint8Array(view.length);
      const count = journal.read(bytes, at);
      view.set(bytes.subarray(0, count));
      return count;
    },
    append: view => {
      const bytes = view.slice();
      if (!journal.add(bytes)) return false;
      fresh.push(bytes);
      return true;
    },
    cut: length => journal.cut(length),
    recall: name => kept[name] ?? null,
    languages: () => (self.navigator.languages ?? []).join(","),
    remember: (name, value) => {
      kept[name] = value;
      tell({ chosen: kept });
      if (!choices) return;
      const bytes = new TextEncoder().encode(JSON.stringify(kept));
      try { choices.cut(0); choices.add(bytes); } catch { /* Chosen until the next start. */ }
    },
  };
}

async function opened() {
  if (!holds) return {};
  const storage = await openStorage();
  try {
    const bytes = new Uint8Array(storage.choices.getSize());
    storage.choices.read(bytes, 0);
    kept = JSON.parse(new TextDecoder().decode(bytes) || '{}');
  } catch { /* Choices that cannot be read are the usual ones. */ }
  return storage;
}

try {
  const { journal, choices, settled } = await opened();
  const { setModuleImports, getAssemblyExports, getConfig } = await dotnet.create();
  setModuleImports('disk', disk(journal, choices));
  const { Tightcold: { Phone: { Doorway } } } = await getAssemblyExports(getConfig().mainAssemblyName);

  // An answer means: what it tells of is on the disk. Where that turns out not to be so, the program begins again from what is
  // there, and the form comes back.
  async function answer({ file, ...rest }) {
    const [asked, body] = [JSON.stringify(rest), file ?? new Uint8Array()];
    const told = await Doorway.AnswerAsync(asked, body);
    if (holds && !await settled()) {
      fresh.length = 0;
      Doorway.Open(home);
      return JSON.parse(await Doorway.FullAsync(asked, body));
    }
    for (const bytes of fresh.splice(0)) tell({ added: bytes, size: journal.getSize() }, [bytes.buffer]);
    return JSON.parse(told);
  }
  const reply = (id, ask) => answer(ask)
    .catch(trouble => ({ failed: String(trouble?.message ?? trouble) })).then(told => tell({ id, answer: told }));
  // All of the journal, for the one that will follow it.
  const give = () => {
    const bytes = new Uint8Array(journal.getSize());
    journal.read(bytes, 0);
    tell({ whole: bytes, chosen: kept }, [bytes.buffer]);
  };
  // One after the other where the journal is written: nobody is shown what may not be on the disk yet, and who follows gets
  // nothing twice.
  let before = Promise.resolve();

  // In the order in which they came: what was added is known before what is asked after it.
  self.addEventListener('message', ({ data: { id, ask, whole, begin, added, chosen } }) => {
    if (whole) before = before.then(give);
    else if (begin) { kept = chosen; Doorway.OpenBeside(home, begin); }
    else if (added) { Doorway.Follow(added); }
    else if (chosen) kept = chosen;
    else if (ask && holds) before = before.then(() => reply(id, ask));
    else if (ask) reply(id, ask);
  });
  const trouble = holds ? Doorway.Open(home) : '';
  if (holds) await settled();
  tell({ open: trouble, size: journal?.getSize() });
} catch (trouble) {
  tell({ failed: String(trouble?.message ?? trouble) });
}

// The worker in which the program runs. Two of them are started: one holds the journal, on one file of the browser's own
// storage that only grows, and writes and draws; the other follows it in memory and weighs what takes long.
import { dotnet } from './_framework/dotnet.js';

const tell = (message, moved) => self.postMessage(message, moved ?? []);
const holds = self.name !== 'beside';
const home = new URL('./', self.location.href).href;
// The choices of the person, as both know them.
let kept = {};

// What the program knows of the disk. An answer means: it is on the disk.
function disk(journal, choices) {
  return {
    size: () => journal.getSize(),
    read: (at, view) => {
      const bytes = new Uint8Array(view.length);
      const count = journal.read(bytes, { at });
      view.set(bytes.subarray(0, count));
      return count;
    },
    append: view => {
      const bytes = view.slice();
      try {
        const count = journal.write(bytes, { at: journal.getSize() });
        journal.flush();
        if (count !== bytes.length) return false;
      } catch { return false; }
      tell({ added: bytes }, [bytes.buffer]);
      return true;
    },
    cut: length => { journal.truncate(length); journal.flush(); },
    recall: name => kept[name] ?? null,
    languages: () => (self.navigator.languages ?? []).join(","),
    remember: (name, value) => {
      kept[name] = value;
      tell({ chosen: kept });
      if (!choices) return;
      const bytes = new TextEncoder().encode(JSON.stringify(kept));
      try { choices.truncate(0); choices.write(bytes, { at: 0 }); choices.flush(); } catch { /* Chosen until the next start. */ }
    },
  };
}

async function opened() {
  if (!holds) return [null, null];
  const folder = await navigator.storage.getDirectory();
  const open = async name => (await folder.getFileHandle(name, { create: true })).createSyncAccessHandle();
  const [journal, choices] = [await open('tightcold.log'), await open('tightcold-choices.json')];
  try {
    const bytes = new Uint8Array(choices.getSize());
    choices.read(bytes, { at: 0 });
    kept = JSON.parse(new TextDecoder().decode(bytes) || '{}');
  } catch { /* Choices that cannot be read are the usual ones. */ }
  return [journal, choices];
}

try {
  const [journal, choices] = await opened();
  const { setModuleImports, getAssemblyExports, getConfig } = await dotnet.create();
  setModuleImports('disk', disk(journal, choices));
  const { Tightcold: { Phone: { Doorway } } } = await getAssemblyExports(getConfig().mainAssemblyName);
  // In the order in which they came: what was added is known before what is asked after it.
  self.addEventListener('message', async ({ data: { id, ask, whole, begin, added, chosen } }) => {
    if (whole) {
      const bytes = new Uint8Array(journal.getSize());
      journal.read(bytes, { at: 0 });
      tell({ whole: bytes, chosen: kept }, [bytes.buffer]);
    } else if (begin) { kept = chosen; Doorway.OpenBeside(home, begin); }
    else if (added) { Doorway.Follow(added); }
    else if (chosen) kept = chosen;
    else if (ask) {
      const { file, ...rest } = ask;
      try { tell({ id, answer: JSON.parse(await Doorway.AnswerAsync(JSON.stringify(rest), file ?? new Uint8Array())) }); }
      catch (trouble) { tell({ id, answer: { failed: String(trouble?.message ?? trouble) } }); }
    }
  });
  tell({ open: holds ? Doorway.Open(home) : '' });
} catch (trouble) {
  tell({ failed: String(trouble?.message ?? trouble) });
}

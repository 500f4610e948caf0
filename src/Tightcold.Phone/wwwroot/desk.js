// The worker in which the program runs, and the disk under it: one file that only grows, in the browser's own storage.
import { dotnet } from './_framework/dotnet.js';

const folder = await navigator.storage.getDirectory();
const open = async name => (await folder.getFileHandle(name, { create: true })).createSyncAccessHandle();

// What the program knows of the disk. An answer means: it is on the disk.
function disk(journal, choices) {
  let kept = {};
  try {
    const bytes = new Uint8Array(choices.getSize());
    choices.read(bytes, { at: 0 });
    kept = JSON.parse(new TextDecoder().decode(bytes) || '{}');
  } catch { /* Choices that cannot be read are the usual ones. */ }
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
      const at = journal.getSize();
      try {
        const count = journal.write(bytes, { at });
        journal.flush();
        return count === bytes.length;
      } catch { return false; }
    },
    cut: length => { journal.truncate(length); journal.flush(); },
    recall: name => kept[name] ?? null,
    remember: (name, value) => {
      kept[name] = value;
      const bytes = new TextEncoder().encode(JSON.stringify(kept));
      try { choices.truncate(0); choices.write(bytes, { at: 0 }); choices.flush(); } catch { /* Chosen until the next start. */ }
    },
  };
}

try {
  const [journal, choices] = [await open('tightcold.log'), await open('tightcold-choices.json')];
  const { setModuleImports, getAssemblyExports, getConfig } = await dotnet.create();
  setModuleImports('disk', disk(journal, choices));
  const { Tightcold: { Phone: { Doorway } } } = await getAssemblyExports(getConfig().mainAssemblyName);
  const said = Doorway.Open(self.location.origin);
  self.addEventListener('message', async ({ data: { id, ask } }) => {
    try {
      const { file, ...rest } = ask;
      const answer = JSON.parse(await Doorway.AnswerAsync(JSON.stringify(rest), file ?? new Uint8Array()));
      self.postMessage({ id, answer });
    } catch (trouble) {
      self.postMessage({ id, answer: { failed: String(trouble?.message ?? trouble) } });
    }
  });
  self.postMessage({ open: said });
} catch (trouble) {
  self.postMessage({ failed: String(trouble?.message ?? trouble) });
}

// Where the journal is on this phone: one file of the browser's own that only grows (File System Standard, synchronous access),
// or, in a browser without it, the same bytes in pieces in its database (Indexed Database API). Both are seen as one file; an
// answer that tells of something written waits for `settled`.
const names = { journal: 'tightcold.log', choices: 'tightcold-choices.json' };

/** Both files, whichever way this browser keeps them: `{ journal, choices, settled }`. */
export async function openStorage() {
  const found = await ofFiles();
  const pieces = found && found.journal.getSize() > 0 ? null : await ofPieces(!found);
  // A journal that was begun in the database goes on there, whatever the browser has learned since.
  if (found && !(pieces?.journal.getSize() > 0)) return found;
  found?.journal.close();
  found?.choices.close();
  if (!pieces) throw new Error('no storage');
  return pieces;
}

// Null in a browser that has no such files. One that has them and does not give them is a trouble to be told.
async function ofFiles() {
  if (!navigator.storage?.getDirectory || !self.FileSystemFileHandle?.prototype.createSyncAccessHandle) return null;
  let folder;
  try { folder = await navigator.storage.getDirectory(); } catch (trouble) {
    // A private window of some browsers.
    if (['SecurityError', 'NotSupportedError'].includes(trouble.name)) return null;
    throw trouble;
  }
  const open = async name => (await folder.getFileHandle(name, { create: true })).createSyncAccessHandle();
  const file = handle => ({
    getSize: () => handle.getSize(),
    read: (bytes, at) => handle.read(bytes, { at }),
    add: bytes => {
      try {
        const count = handle.write(bytes, { at: handle.getSize() });
        handle.flush();
        return count === bytes.length;
      } catch { return false; }
    },
    cut: length => { handle.truncate(length); handle.flush(); },
    close: () => handle.close(),
  });
  return { journal: file(await open(names.journal)), choices: file(await open(names.choices)), settled: async () => true };
}

const done = request => new Promise((good, bad) => { request.onsuccess = () => good(request.result); request.onerror = () => bad(request.error); });

async function ofPieces(make) {
  if (!self.indexedDB) return null;
  // Not made where there are files.
  if (!make && !(await indexedDB.databases?.())?.some(one => one.name === 'tightcold')) return null;
  const opening = indexedDB.open('tightcold', 1);
  opening.onupgradeneeded = () => { for (const name of Object.keys(names)) opening.result.createObjectStore(name); };
  const database = await done(opening);
  const [journal, choices] = [await pieceFile(database, 'journal'), await pieceFile(database, 'choices')];
  return { journal, choices, settled: journal.settled };
}

// A file in pieces, each under the place where it begins. All of it is in memory too, since the program asks for bytes and
// cannot wait.
async function pieceFile(database, name) {
  const kept = database.transaction(name).objectStore(name);
  const [places, pieces] = await Promise.all([done(kept.getAllKeys()), done(kept.getAll())]);
  let size = 0;
  // What lies behind a gap was never acknowledged.
  const whole = pieces.filter((piece, at) => { const fits = places[at] === size; if (fits) size += piece.length; return fits; });
  let bytes = new Uint8Array(await new Blob(whole).arrayBuffer()), sure = size, waiting = [];
  const write = change => new Promise(good => {
    try {
      const all = database.transaction(name, 'readwrite', { durability: 'strict' });
      all.oncomplete = () => good(true);
      all.onabort = () => good(false);
      change(all.objectStore(name));
    } catch { good(false); }
  });
  return {
    getSize: () => size,
    read: (into, at) => { const part = bytes.subarray(at, Math.min(at + into.length, size)); into.set(part); return part.length; },
    add: more => {
      if (size + more.length > bytes.length) { const larger = new Uint8Array(2 * (size + more.length)); larger.set(bytes); bytes = larger; }
      bytes.set(more, size);
      const [piece, at] = [more.slice(), size];
      size += more.length;
      waiting.push(write(all => all.put(piece, at)));
      return true;
    },
    cut: length => {
      size = length;
      const piece = bytes.slice(0, length);
      // The cut may lie within a piece: what stays becomes one.
      waiting.push(write(all => { all.clear(); if (length > 0) all.put(piece, 0); }));
    },
    close: () => database.close(),
    // Whether all that was added is on the disk; where it is not, the file is as it was before.
    settled: async () => {
      if (waiting.length === 0) return true;
      const all = await Promise.all(waiting.splice(0));
      if (all.every(good => good)) { sure = size; return true; }
      size = sure;
      await write(rest => rest.delete(IDBKeyRange.lowerBound(sure)));
      return false;
    },
  };
}

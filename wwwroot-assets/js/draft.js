// Keeps what is typed into a field with data-draft in this browser until the server has it: a reload or a lost connection loses nothing.
const key = name => `plate-room.draft.${name}`;

export function startDrafts() {
  document.addEventListener('input', e => {
    const name = e.target.dataset?.draft;
    if (name) {
      localStorage.setItem(key(name), e.target.value);
    }
  }, true);
}

export const draftOf = name => localStorage.getItem(key(name));

// Only what was saved is let go: somebody may have typed on meanwhile.
export function draftSaved(name, saved) {
  if (saved === null || localStorage.getItem(key(name)) === saved) {
    localStorage.removeItem(key(name));
  }
}

// Keeps what is typed into a field with data-draft in this browser until the server has it: a reload or a lost connection loses nothing.
// A whole form (data-form) is kept for its tab: the page says what it holds, and what is typed into a field with data-typed is added at once, also while
// the server is gone.
const key = name => `plate-room.draft.${name}`;
const formKey = name => `plate-room.form.${name}`;
const formAround = field => (field?.dataset?.typed ? field.closest('[data-form]')?.dataset.form : undefined);

export function startDrafts() {
  document.addEventListener('input', e => {
    const name = e.target.dataset?.draft;
    if (name) {
      localStorage.setItem(key(name), e.target.value);
    }
    const form = formAround(e.target);
    if (form) {
      const kept = JSON.parse(sessionStorage.getItem(formKey(form)) ?? '{}');
      sessionStorage.setItem(formKey(form), JSON.stringify({ ...kept, [e.target.dataset.typed]: e.target.value }));
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

export const formOf = name => sessionStorage.getItem(formKey(name));

export function keepForm(name, json) {
  if (json === null) {
    sessionStorage.removeItem(formKey(name));
    return;
  }
  const held = JSON.parse(json);
  // What stands in a field is newer than what the page was told of it: it is told only when the field is left, and a moment passes until then.
  for (const field of document.querySelectorAll('[data-typed]')) {
    if (formAround(field) === name) {
      held[field.dataset.typed] = field.value;
    }
  }
  sessionStorage.setItem(formKey(name), JSON.stringify(held));
}

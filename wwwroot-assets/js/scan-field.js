// A handheld scanner is a fast keyboard that ends with Enter or Tab. The field is read here, in the browser,
// so that no character depends on the way to the server; each reading gets its id and its time where it is made.
const repeatWithinMs = 2000;
const watched = new Map();

export function watchScanField(field, page) {
  let last = { code: '', at: 0 };

  const send = () => {
    const code = field.value.trim();
    field.value = '';
    const now = Date.now();
    if (code === '' || (code === last.code && now - last.at < repeatWithinMs)) {
      return;
    }
    last = { code, at: now };
    // Without a connection the reading stays in the field, marked: it was not taken, and the next scan replaces it.
    page.invokeMethodAsync('Scanned', code, newId()).catch(() => {
      last = { code: '', at: 0 };
      field.value = code;
      field.select();
    });
  };

  const onKey = event => {
    if (event.key === 'Enter' || (event.key === 'Tab' && !event.shiftKey && field.value.trim() !== '')) {
      event.preventDefault();
      send();
    }
  };

  // A reading made while nothing has the focus still reaches the field.
  const onPageKey = event => {
    const active = document.activeElement;
    const busy = active && active !== document.body && /^(INPUT|TEXTAREA|SELECT)$/.test(active.tagName);
    if (!busy && event.key.length === 1 && !event.ctrlKey && !event.altKey && !event.metaKey && active?.tagName !== 'BUTTON') {
      field.focus();
    }
  };

  field.addEventListener('keydown', onKey);
  document.addEventListener('keydown', onPageKey, true);
  field.focus();
  watched.set(field, () => {
    field.removeEventListener('keydown', onKey);
    document.removeEventListener('keydown', onPageKey, true);
  });
}

export function forgetScanField(field) {
  watched.get(field)?.();
  watched.delete(field);
}

function newId() {
  if (crypto.randomUUID) {
    return crypto.randomUUID();
  }
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = [...bytes].map(b => b.toString(16).padStart(2, '0')).join('');
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}

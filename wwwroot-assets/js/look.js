// The look of this browser: light, dark, yellow, or as the device says. The server reads the cookie and writes data-look on <html>, so that
// nothing flashes; a choice takes effect here at once, without asking it, and what is typed stays.
const cookie = 'plate-look';
const looks = new Set(['light', 'dark', 'yellow']);
const root = document.documentElement;

export function startLook() {
  document.addEventListener('change', event => {
    if (event.target.matches('[data-look-choice]')) {
      choose(event.target.value);
    }
  });
  // The menu may have been drawn anew since: it says what is so whenever it opens.
  document.addEventListener('toggle', event => show(event.target), true);
  show(document);
}

function choose(look) {
  const kept = looks.has(look);
  if (kept) {
    root.dataset.look = look;
  } else {
    delete root.dataset.look;
  }
  document.cookie = `${cookie}=${kept ? look : ''}; path=/; samesite=lax; max-age=${kept ? 31536000 : 0}`;
}

function show(within) {
  for (const radio of within.querySelectorAll?.('[data-look-choice]') ?? []) {
    radio.checked = radio.value === (root.dataset.look ?? 'device');
  }
}

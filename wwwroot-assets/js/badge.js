// A badge read at a machine's page changes the person there: the sign-in takes it and asks for its PIN.
const held = 'plate-room.badge';

export function isBadge(number) {
  return /^B[0-9A-HJKMNP-TV-X]{8}$/.test(number);
}

export function changePerson(badge) {
  sessionStorage.setItem(held, badge);
  location.href = `/sign-in?badge=true&back=${encodeURIComponent(location.pathname + location.search)}`;
}

// Puts the badge into the sign-in's form. It is held for this one page only.
export function fillBadge() {
  const badge = sessionStorage.getItem(held);
  sessionStorage.removeItem(held);
  const form = document.querySelector('input[name="Badge.Number"]')?.form;
  if (badge && form) {
    form.elements['Badge.Number'].value = badge;
    form.elements['Badge.Pin'].focus();
  }
}

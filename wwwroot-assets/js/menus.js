// The bar's menus close by a touch elsewhere and by Escape, and so does a panel over the page:
// wherever the focus is, for a button that has gone takes it along.
const open = () => document.querySelectorAll('.bar details[open]');

export function startMenus() {
  document.addEventListener('pointerdown', event => {
    for (const menu of open()) {
      menu.open = menu.contains(event.target);
    }
  });
  document.addEventListener('keydown', event => {
    if (event.key !== 'Escape') {
      return;
    }
    const menus = [...open()];
    for (const menu of menus) {
      menu.open = false;
      menu.querySelector('summary').focus();
    }
    if (menus.length === 0) {
      document.querySelector('[data-closes-by=Escape]')?.click();
    }
  });
}

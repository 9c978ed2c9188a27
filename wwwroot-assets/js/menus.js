// The bar's menus close by a touch elsewhere and by Escape.
const open = () => document.querySelectorAll('.bar details[open]');

export function startMenus() {
  document.addEventListener('pointerdown', event => {
    for (const menu of open()) {
      menu.open = menu.contains(event.target);
    }
  });
  document.addEventListener('keydown', event => {
    if (event.key === 'Escape') {
      for (const menu of open()) {
        menu.open = false;
        menu.querySelector('summary').focus();
      }
    }
  });
}

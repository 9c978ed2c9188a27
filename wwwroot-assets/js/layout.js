// The layout page in the browser: drags plates between sheets and the list, and passes keys on. While a plate is dragged
// the server is not asked; it hears where the plate was dropped.
const leastPx = 4;
const keys = new Set(['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown', 'PageUp', 'PageDown', 'Delete', 'Backspace', 'Enter', ' ', 't', 'T', 'l', 'L']);
const watched = new WeakMap();

export function watchLayout(root, page) {
  const stop = new AbortController();
  const on = (name, handler) => root.addEventListener(name, handler, { signal: stop.signal });
  let drag = null;
  watched.set(root, stop);

  on('pointerdown', event => {
    const plate = event.target.closest('[data-plate]');
    if (!plate || event.button !== 0 || event.target.closest('button, a, input, select')) {
      return;
    }
    plate.focus({ preventScroll: true });
    drag = { plate, id: Number(plate.dataset.plate), pointer: event.pointerId, x: event.clientX, y: event.clientY, moved: false, grip: gripOf(plate, event), ghost: null };
  });
  on('pointermove', event => {
    if (!drag || event.pointerId !== drag.pointer || drag.plate.dataset.locked !== undefined) {
      return;
    }
    const [dx, dy] = [event.clientX - drag.x, event.clientY - drag.y];
    if (!drag.moved && Math.hypot(dx, dy) > leastPx) {
      drag.moved = true;
      drag.ghost = ghostOf(drag.plate);
      drag.plate.classList.add('dragged');
      root.setPointerCapture(event.pointerId);
    }
    if (drag.moved) {
      drag.ghost.style.translate = `${event.clientX - drag.grip.x}px ${event.clientY - drag.grip.y}px`;
    }
  });
  on('pointerup', event => {
    const was = drag;
    end();
    if (!was) {
      return;
    }
    if (!was.moved) {
      page.invokeMethodAsync('Choose', was.id);
      return;
    }
    const under = document.elementFromPoint(event.clientX, event.clientY);
    const sheet = under?.closest('[data-sheet]');
    if (sheet) {
      const at = toSheet(sheet, event.clientX - was.grip.x, event.clientY - was.grip.y);
      page.invokeMethodAsync('Drop', was.id, Number(sheet.dataset.sheet), at.x, at.y);
    } else if (under?.closest('[data-tray]')) {
      page.invokeMethodAsync('TakeOff', was.id);
    }
  });
  on('pointercancel', end);
  on('selectstart', event => {
    if (drag) {
      event.preventDefault();
    }
  });
  // A plate that was just drawn anew has lost the focus: undoing listens on the whole page, but not while somebody types.
  document.addEventListener('keydown', event => {
    if ((event.ctrlKey || event.metaKey) && ['z', 'y'].includes(event.key.toLowerCase()) && !event.target.closest?.('input, select, textarea')) {
      event.preventDefault();
      page.invokeMethodAsync('UndoKey', event.key.toLowerCase() === 'y' || event.shiftKey);
    }
  }, { signal: stop.signal });
  on('keydown', async event => {
    const plate = event.target.closest?.('[data-plate]');
    if (!plate || event.target !== plate || !keys.has(event.key) || event.ctrlKey || event.altKey || event.metaKey) {
      return;
    }
    event.preventDefault();
    const id = plate.dataset.plate;
    await page.invokeMethodAsync('Key', Number(id), event.key, event.shiftKey);
    // The plate may have come to another sheet, where it is drawn anew.
    requestAnimationFrame(() => (root.querySelector(`svg [data-plate="${id}"]`) ?? root.querySelector(`[data-plate="${id}"]`))?.focus({ preventScroll: false }));
  });

  function end() {
    drag?.ghost?.remove();
    drag?.plate.classList.remove('dragged');
    drag = null;
  }
}

export function forgetLayout(root) {
  watched.get(root)?.abort();
}

// Where in the plate it was taken, in pixels from its corner; a plate of the list is held in its middle.
function gripOf(plate, event) {
  const box = plate.querySelector('rect.plate')?.getBoundingClientRect();
  const size = pixels(plate);
  return box ? { x: event.clientX - box.left, y: event.clientY - box.top } : { x: size.width / 2, y: size.height / 2 };
}

function ghostOf(plate) {
  const ghost = document.createElement('div');
  const size = pixels(plate);
  ghost.className = 'plate-ghost';
  ghost.style.width = `${size.width}px`;
  ghost.style.height = `${size.height}px`;
  ghost.textContent = plate.querySelector('text, strong')?.textContent ?? '';
  document.body.append(ghost);
  return ghost;
}

function pixels(plate) {
  const sheet = plate.closest('[data-sheet]') ?? document.querySelector('[data-sheet]');
  const scale = sheet ? sheet.getBoundingClientRect().width / sheet.viewBox.baseVal.width : 0.3;
  return { width: Number(plate.dataset.w) * scale, height: Number(plate.dataset.l) * scale };
}

function toSheet(sheet, x, y) {
  const point = new DOMPoint(x, y).matrixTransform(sheet.getScreenCTM().inverse());
  return { x: point.x, y: point.y };
}

// Drags what scrolls with the mouse. Fingers and pens scroll by themselves.
const leastPx = 5;

export function dragToScroll(scroller, on) {
  let grip = null;
  on(scroller, 'pointerdown', event => {
    if (event.pointerType === 'mouse' && event.button === 0) {
      grip = { x: event.clientX, y: event.clientY, left: scroller.scrollLeft, top: scroller.scrollTop, moved: false };
    }
  });
  on(scroller, 'pointermove', event => {
    if (!grip || event.buttons === 0) {
      grip = null;
      return;
    }
    const [dx, dy] = [event.clientX - grip.x, event.clientY - grip.y];
    if (!grip.moved && Math.hypot(dx, dy) > leastPx) {
      grip.moved = true;
      scroller.setPointerCapture(event.pointerId);
      scroller.classList.add('dragged');
    }
    if (grip.moved) {
      scroller.scrollTo(grip.left - dx, grip.top - dy);
    }
  });
  const end = () => {
    if (grip?.moved) {
      // The click that ends a drag chooses nothing.
      addEventListener('click', event => event.stopPropagation(), { capture: true, once: true });
      setTimeout(() => scroller.classList.remove('dragged'));
    }
    grip = null;
  };
  on(scroller, 'pointerup', end);
  on(scroller, 'pointercancel', end);
}

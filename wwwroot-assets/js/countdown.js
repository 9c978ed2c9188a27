// Counts down in the browser: <time data-ends="epoch ms" data-now="server's epoch ms when rendered">.
// The server's clock counts, so the offset between the two clocks is taken when the element is first seen.
const offsets = new WeakMap();

export function startCountdowns() {
  const tick = () => {
    for (const element of document.querySelectorAll('time[data-ends]')) {
      const key = element.dataset.now;
      const known = offsets.get(element);
      const offset = known?.key === key ? known.offset : Number(key) - Date.now();
      offsets.set(element, { key, offset });
      show(element, Math.round((Number(element.dataset.ends) - (Date.now() + offset)) / 1000));
    }
  };
  tick();
  // Four times a second: a countdown that has just come on the page must not stay empty for long.
  setInterval(tick, 250);
}

function show(element, seconds) {
  const over = seconds <= 0;
  const left = Math.abs(seconds);
  const hours = Math.floor(left / 3600);
  const minutes = Math.floor(left % 3600 / 60);
  const two = n => String(n).padStart(2, '0');
  const text = hours > 0 ? `${hours}:${two(minutes)}:${two(left % 60)}` : `${minutes}:${two(left % 60)}`;
  const shown = over ? `over for ${text}` : text;
  if (element.textContent !== shown) {
    element.textContent = shown;
  }
  element.classList.toggle('over', over);
}

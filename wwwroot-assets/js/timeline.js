// The timeline in the browser: scrolling, walking from bar to bar and reading about one ask the server nothing.
// What a bar tells stands in its data-* attributes.
import { fillDetails, clearDetails, focusTicket } from './timeline-details.js';
import { dragToScroll } from './drag-scroll.js';

const hourMs = 3600000;
const watched = new WeakMap();

export function widthOf(element) {
  return element.clientWidth;
}

export function watchTimeline(scroller, page, headPx) {
  const stop = new AbortController();
  const on = (target, name, handler, options = {}) => target.addEventListener(name, handler, { ...options, signal: stop.signal });
  const state = { headPx, current: null, pinned: null, anchor: null, stop };
  watched.set(scroller, state);

  on(scroller, 'scroll', () => keepAnchor(scroller, state), { passive: true });
  on(scroller, 'pointerover', event => {
    const bar = event.target.closest('.tl-bar');
    if (bar && !state.pinned) {
      fillDetails(bar);
    }
  });
  on(scroller, 'focusin', event => {
    const bar = event.target.closest('.tl-bar');
    if (bar) {
      setCurrent(state, bar);
      if (!state.pinned) {
        fillDetails(bar);
      }
    }
  });
  on(scroller, 'click', event => {
    const bar = event.target.closest('.tl-bar');
    pin(state, bar);
    if (bar) {
      bar.focus({ preventScroll: true });
    }
  });
  on(scroller.closest('.timeline'), 'keydown', event => onKey(event, scroller, state));
  dragToScroll(scroller, on);

  // A new zoom level or a later begin moves everything: what was under the eye stays there.
  const drawn = new MutationObserver(changes => {
    if (changes.some(c => c.target === scroller)) {
      moveToAnchor(scroller, state);
    }
    keepTabStop(scroller, state);
    const shown = state.pinned ?? (document.activeElement?.closest('.tl-bar') || null);
    if (shown?.isConnected) {
      fillDetails(shown);
    }
  });
  drawn.observe(scroller, { subtree: true, childList: true, attributes: true, attributeFilter: ['data-from', 'data-scale', 'data-when', 'data-what', 'data-lateness'] });

  let told = scroller.clientWidth;
  let wait = 0;
  const size = new ResizeObserver(() => {
    clearTimeout(wait);
    wait = setTimeout(() => {
      // A scroll bar that comes or goes is not worth another drawing.
      if (Math.abs(scroller.clientWidth - told) > 24) {
        told = scroller.clientWidth;
        page.invokeMethodAsync('Resized', told);
      }
    }, 300);
  });
  size.observe(scroller);
  stop.signal.addEventListener('abort', () => { drawn.disconnect(); size.disconnect(); clearTimeout(wait); });

  scrollToNow(scroller);
  keepTabStop(scroller, state);
}

export function forgetTimeline(scroller) {
  watched.get(scroller)?.stop.abort();
  watched.delete(scroller);
}

/** Brings the present to the first fifth of the window: what comes is of more use than what was. */
export function scrollToNow(scroller) {
  const state = watched.get(scroller);
  scroller.scrollLeft = xOf(scroller, Number(scroller.dataset.now)) - (scroller.clientWidth - state.headPx) / 5;
  keepAnchor(scroller, state);
}

/** Brings a bar into sight and tells about it, but leaves the focus where it is. */
export function showBar(scroller, stageId) {
  const state = watched.get(scroller);
  const bar = scroller.querySelector(`.tl-bar[data-stage="${stageId}"]`);
  if (bar) {
    pin(state, null);
    setCurrent(state, bar);
    reveal(scroller, state, bar);
    fillDetails(bar);
  }
}

function onKey(event, scroller, state) {
  if (event.ctrlKey || event.altKey || event.metaKey || /^(INPUT|TEXTAREA|SELECT)$/.test(event.target.tagName)) {
    return;
  }
  const bar = event.target.closest('.tl-bar');
  const acts = {
    '+': () => document.getElementById('tl-closer').click(),
    '=': () => document.getElementById('tl-closer').click(),
    '-': () => document.getElementById('tl-wider').click(),
    Home: () => scrollToNow(scroller),
    Escape: () => { pin(state, null); bar ? fillDetails(bar) : clearDetails(); },
  };
  if (bar) {
    acts.ArrowLeft = () => go(scroller, state, bar.previousElementSibling);
    acts.ArrowRight = () => go(scroller, state, bar.nextElementSibling);
    acts.ArrowUp = () => go(scroller, state, nearest(bar, -1));
    acts.ArrowDown = () => go(scroller, state, nearest(bar, 1));
    acts.Enter = acts[' '] = () => { pin(state, bar); focusTicket(); };
  } else if (event.target !== scroller && !event.target.closest('a, button')) {
    // The region scrolls by itself when it has the focus; the heading has it when the page opens.
    acts.ArrowLeft = () => { scroller.scrollLeft -= 120; };
    acts.ArrowRight = () => { scroller.scrollLeft += 120; };
  }
  if (acts[event.key]) {
    event.preventDefault();
    acts[event.key]();
  }
}

function go(scroller, state, bar) {
  if (bar) {
    setCurrent(state, bar);
    reveal(scroller, state, bar);
    bar.focus({ preventScroll: true });
  }
}

/** The bar of the next row with any whose middle is nearest in time. */
function nearest(bar, step) {
  const middle = b => { const r = b.firstElementChild; return r.x.baseVal.value + r.width.baseVal.value / 2; };
  const at = middle(bar);
  const rows = [...bar.closest('.tl-canvas').querySelectorAll('.tl-row')];
  for (let i = rows.indexOf(bar.closest('.tl-row')) + step; rows[i]; i += step) {
    const bars = [...rows[i].querySelectorAll('.tl-bar')];
    if (bars.length > 0) {
      return bars.reduce((best, b) => Math.abs(middle(b) - at) < Math.abs(middle(best) - at) ? b : best);
    }
  }
  return null;
}

/** Scrolls no more than needed, clear of the heads that stay in place. */
function reveal(scroller, state, bar) {
  const box = bar.firstElementChild.getBoundingClientRect();
  const window = scroller.getBoundingClientRect();
  const left = window.left + state.headPx + 8;
  const right = window.left + scroller.clientWidth - 8;
  const top = window.top + scroller.querySelector('.tl-axis').offsetHeight + 8;
  const bottom = window.top + scroller.clientHeight - 8;
  if (box.left < left || box.right > right) {
    scroller.scrollLeft += box.right - box.left > right - left || box.left < left ? box.left - left : box.right - right;
  }
  if (box.top < top || box.bottom > bottom) {
    scroller.scrollTop += box.top < top ? box.top - top : box.bottom - bottom;
  }
}

function pin(state, bar) {
  state.pinned?.removeAttribute('aria-current');
  state.pinned = bar;
  if (bar) {
    bar.setAttribute('aria-current', 'true');
    fillDetails(bar);
  }
}

/** One bar of all can be reached by Tab; the arrow keys lead to the others. */
function setCurrent(state, bar) {
  state.current?.setAttribute('tabindex', '-1');
  state.current = bar;
  bar?.setAttribute('tabindex', '0');
}

function keepTabStop(scroller, state) {
  if (state.pinned && !state.pinned.isConnected) {
    state.pinned = null;
  }
  if (!state.current?.isConnected) {
    setCurrent(state, scroller.querySelector('.tl-bar.running') ?? scroller.querySelector('.tl-bar'));
  }
}

function xOf(scroller, ms) {
  return (ms - Number(scroller.dataset.from)) / hourMs * Number(scroller.dataset.scale);
}

/** Remembers what stays in its place at the next drawing: the present when it is in sight, else the middle. */
function keepAnchor(scroller, state) {
  const width = scroller.clientWidth - state.headPx;
  const nowMs = Number(scroller.dataset.now);
  const nowX = xOf(scroller, nowMs) - scroller.scrollLeft;
  const middleMs = Number(scroller.dataset.from) + (scroller.scrollLeft + width / 2) / Number(scroller.dataset.scale) * hourMs;
  state.anchor = nowX >= 0 && nowX <= width ? { ms: nowMs, x: nowX } : { ms: middleMs, x: width / 2 };
}

function moveToAnchor(scroller, state) {
  scroller.scrollLeft = xOf(scroller, state.anchor.ms) - state.anchor.x;
}

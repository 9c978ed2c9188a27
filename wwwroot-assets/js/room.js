// The few things that only the browser can do. No framework, no build step.
import { watchScanField, forgetScanField } from './scan-field.js';
import { startCountdowns } from './countdown.js';
import { widthOf, watchTimeline, forgetTimeline, showBar, scrollToNow } from './timeline.js';
import { watchLayout, forgetLayout } from './layout.js';

window.plateRoom = {
  recall: name => window.localStorage.getItem(`plate-room.${name}`),
  keep: (name, value) => window.localStorage.setItem(`plate-room.${name}`, value),
  keepCookie: (name, value) => { document.cookie = `${name}=${value}; path=/; samesite=lax; max-age=${value ? 31536000 : 0}`; },
  watchScanField,
  forgetScanField,
  widthOf,
  watchTimeline,
  forgetTimeline,
  showBar,
  scrollToNow,
  watchLayout,
  forgetLayout,
};

startCountdowns();

const lost = document.getElementById('connection-lost');
Blazor.start({
  circuit: {
    reconnectionHandler: {
      onConnectionDown: () => { lost.classList.add('shown'); comeBack(); },
      onConnectionUp: () => lost.classList.remove('shown'),
    },
  },
});

// Tries to take up the old circuit; when the server has forgotten it, a fresh page is loaded.
async function comeBack() {
  for (;;) {
    try {
      const resumed = await Blazor.reconnect();
      if (resumed) {
        lost.classList.remove('shown');
        return;
      }
      location.reload();
      return;
    } catch {
      await new Promise(done => setTimeout(done, 1000));
    }
  }
}

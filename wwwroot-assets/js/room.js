// The few things that only the browser can do. No framework, no build step.
import { watchStation, forgetStation, tell, mayLeave } from './station.js';
import { startCountdowns } from './countdown.js';
import { widthOf, watchTimeline, forgetTimeline, showBar, scrollToNow } from './timeline.js';
import { fillBadge } from './badge.js';
import { watchLayout, forgetLayout } from './layout.js';
import { startDrafts, draftOf, draftSaved, formOf, keepForm } from './draft.js';
import { startLook } from './look.js';
import { startMenus } from './menus.js';

window.plateRoom = {
  recall: name => window.localStorage.getItem(`plate-room.${name}`),
  keep: (name, value) => window.localStorage.setItem(`plate-room.${name}`, value),
  keepCookie: (name, value) => { document.cookie = `${name}=${value}; path=/; samesite=lax; max-age=${value ? 31536000 : 0}`; },
  watchStation,
  forgetStation,
  tell,
  focusScan: () => document.querySelector('.scan-field')?.focus(),
  widthOf,
  watchTimeline,
  forgetTimeline,
  showBar,
  scrollToNow,
  watchLayout,
  forgetLayout,
  draftOf,
  draftSaved,
  formOf,
  keepForm,
};

startLook();
startMenus();
startDrafts();
startCountdowns();
fillBadge();

const lost = document.getElementById('connection-lost');
Blazor.start({
  circuit: {
    reconnectionHandler: {
      onConnectionDown: () => { connected(false); comeBack(); },
      onConnectionUp: () => connected(true),
    },
  },
});

function connected(is) {
  lost.classList.toggle('shown', !is);
  window.dispatchEvent(new CustomEvent('plate-room-circuit', { detail: is }));
}

// Tries to take up the old circuit; when the server has forgotten it, a fresh page is loaded.
async function comeBack() {
  for (;;) {
    try {
      const resumed = await Blazor.reconnect();
      if (resumed) {
        connected(true);
        return;
      }
      // A reading that is half typed must not fall into the loading of the page.
      await mayLeave();
      location.reload();
      return;
    } catch {
      await new Promise(done => setTimeout(done, 1000));
    }
  }
}

// The end of a run is heard and seen: three tones, again every 20 s until the sheet is out, and the page's title changes.
const againAfterMs = 20000;
const loudestTimes = 30;
let audio = null;
let rests = 0;

export function watchAlarm(root) {
  const button = root.querySelector('.sound');
  const title = document.title;
  const rung = new Map();
  let on = window.localStorage.getItem('plate-room.sound') !== 'off';
  const show = () => {
    button.setAttribute('aria-pressed', String(on));
    button.querySelector('.sound-word').textContent = on ? 'Sound is on' : 'Sound is off';
  };
  const toggle = () => {
    on = !on;
    window.localStorage.setItem('plate-room.sound', on ? 'on' : 'off');
    show();
    if (on) {
      ring().catch(error => console.warn('No sound', error));
    }
  };
  // A browser gives no sound before the page was touched; a scan counts as a touch.
  const wake = () => {
    if (!audio) {
      audio = new AudioContext();
      restSoon();
    }
  };
  const look = () => {
    const over = [...root.querySelectorAll('time.countdown.over[data-alarm]')];
    root.classList.toggle('time-over', over.length > 0);
    const named = over.length > 0 ? `● Time is over · ${title}` : title;
    if (document.title !== named) {
      document.title = named;
    }
    const keys = new Set(over.map(e => e.dataset.alarm));
    for (const known of rung.keys()) {
      if (!keys.has(known)) {
        rung.delete(known);
      }
    }
    for (const key of keys) {
      const { times, at } = rung.get(key) ?? { times: 0, at: 0 };
      if (times < loudestTimes && Date.now() - at >= againAfterMs) {
        rung.set(key, { times: times + 1, at: Date.now() });
        if (on) {
          ring().catch(error => console.warn('No sound', error));
        }
      }
    }
  };
  button.addEventListener('click', toggle);
  document.addEventListener('keydown', wake, true);
  document.addEventListener('pointerdown', wake, true);
  show();
  const timer = setInterval(look, 250);
  return () => {
    clearInterval(timer);
    button.removeEventListener('click', toggle);
    document.removeEventListener('keydown', wake, true);
    document.removeEventListener('pointerdown', wake, true);
    document.title = title;
  };
}

async function ring() {
  if (!audio || navigator.userActivation?.hasBeenActive === false) {
    return;
  }
  clearTimeout(rests);
  await audio.resume();
  for (let i = 0; i < 3; i++) {
    const tone = audio.createOscillator();
    const volume = audio.createGain();
    const from = audio.currentTime + i * 0.35;
    tone.frequency.value = 880;
    volume.gain.setValueAtTime(0.0001, from);
    volume.gain.exponentialRampToValueAtTime(0.4, from + 0.02);
    volume.gain.exponentialRampToValueAtTime(0.0001, from + 0.25);
    tone.connect(volume).connect(audio.destination);
    tone.start(from);
    tone.stop(from + 0.3);
    window.dispatchEvent(new CustomEvent('plate-room-tone'));
  }
  restSoon();
}

// Audio that runs computes silence a hundred times a second, on a tablet that has other things to do.
function restSoon() {
  clearTimeout(rests);
  rests = setTimeout(() => audio.suspend().catch(error => console.warn('The sound stays awake', error)), 2000);
}

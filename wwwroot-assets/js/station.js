// A machine's page in the browser: readings from anywhere on it, the answer, what waits, what is to be settled, and the sound
// at the end of a run. Everything that must work without the server is here.
import { watchQueue, keep, settle, isQuiet } from './scan-queue.js';
import { watchAlarm } from './alarm.js';
import { isBadge, changePerson } from './badge.js';

const repeatWithinMs = 2000;
const scannerKeyMs = 35;
const shortestScan = 6;
const slowAfterMs = 1500;
const stations = new Map();

export function watchStation(root, page) {
  const station = new Station(root, page);
  stations.set(root, station);
}

export function forgetStation(root) {
  stations.get(root)?.stop();
  stations.delete(root);
}

// Says something that did not come from a scan, such as the answer to a remake.
export function tell(kind, sentence) {
  stations.forEach(s => s.tell(kind, sentence));
}

// Resolves when no reading is half typed or half written: only then may the page be loaded again.
export async function mayLeave() {
  while (!isQuiet() || [...stations.values()].some(s => s.field.value !== '')) {
    await new Promise(done => setTimeout(done, 100));
  }
}

class Station {
  last = { code: '', at: 0 };
  lastSheet = '';
  burst = { keys: '', at: 0, before: '', field: null };
  told = 0;

  constructor(root, page) {
    this.root = root;
    this.page = page;
    this.field = root.querySelector('.scan-field');
    this.stops = new AbortController();
    const options = { signal: this.stops.signal };
    this.field.addEventListener('keydown', e => this.fieldKey(e), options);
    document.addEventListener('keydown', e => this.pageKey(e), { ...options, capture: true });
    root.addEventListener('click', e => this.click(e), options);
    window.addEventListener('plate-room-circuit', e => { this.circuit = e.detail; this.showLink(); }, options);
    this.circuit = true;
    this.stopQueue = watchQueue({ answered: (scan, answer) => this.answered(scan, answer), changed: state => this.changed(state) });
    this.stopAlarm = watchAlarm(root);
    this.field.focus();
  }

  stop() {
    this.stops.abort();
    this.stopQueue();
    this.stopAlarm();
  }

  fieldKey(event) {
    if (event.key === 'Enter' || (event.key === 'Tab' && !event.shiftKey && this.field.value.trim() !== '')) {
      event.preventDefault();
      const code = this.field.value.trim();
      this.field.value = '';
      this.scanned(code);
    }
  }

  // A reading made while something else has the focus still arrives: typed keys go to the field, and a scanner's burst into
  // another field is taken out of it again when it is one of our numbers.
  pageKey(event) {
    const active = document.activeElement;
    if (active === this.field || event.ctrlKey || event.altKey || event.metaKey) {
      return;
    }
    const typing = active && /^(INPUT|TEXTAREA|SELECT)$/.test(active.tagName) && active.type !== 'checkbox' && active.type !== 'radio';
    if (!typing) {
      if (event.key.length === 1 && event.key !== ' ') {
        this.field.focus();
      }
      return;
    }
    const now = performance.now();
    if (event.key.length === 1) {
      if (now - this.burst.at > scannerKeyMs || this.burst.field !== active) {
        this.burst = { keys: '', at: now, before: active.value, field: active };
      }
      this.burst.keys += event.key;
      this.burst.at = now;
      return;
    }
    if ((event.key === 'Enter' || event.key === 'Tab') && this.burst.field === active && now - this.burst.at <= scannerKeyMs * 2
      && this.burst.keys.length >= shortestScan && isOurs(clean(this.burst.keys))) {
      event.preventDefault();
      event.stopPropagation();
      active.value = this.burst.before;
      active.dispatchEvent(new Event('change', { bubbles: true }));
      this.scanned(this.burst.keys);
    }
  }

  click(event) {
    const button = event.target.closest('button');
    if (!button) {
      return;
    }
    if (button.dataset.scan) {
      this.read(this.cardSheet(), button.dataset.scan, button.dataset.confirmed === 'true');
    } else if (button.dataset.settle) {
      settle(button.dataset.settle);
    } else if (button.dataset.reload !== undefined) {
      mayLeave().then(() => location.reload());
      return;
    }
    if (button.dataset.scan || button.dataset.settle) {
      this.field.focus();
    }
  }

  scanned(code) {
    const now = Date.now();
    if (code === '' || (code === this.last.code && now - this.last.at < repeatWithinMs)) {
      return;
    }
    this.last = { code, at: now };
    this.read(code, 'Next', false);
  }

  async read(code, action, confirmed) {
    const number = clean(code);
    if (isBadge(number)) {
      this.badge(number);
      return;
    }
    const of = isOurs(number) && number[0] === 'S' ? '' : this.lastSheet || this.cardSheet();
    if (isOurs(number)) {
      this.lastSheet = number[0] === 'S' ? number : '';
    }
    const turn = ++this.told;
    this.newest = { number, turn };
    this.show('busy', '…', people(number) || 'Nothing was read');
    try {
      await keep({
        code: number, action, confirmed, of, equipment: this.root.dataset.equipment, by: this.root.dataset.by,
        ticked: number === this.cardSheet() ? [...this.root.querySelectorAll('[data-check]:checked')].map(c => c.dataset.check) : [],
      });
      if (this.told === turn && this.state?.link !== 'ok') {
        this.kept(number);
      }
      this.waitsFor = { number, turn };
      // An answer that takes its time: the person must not stand and wait for it.
      setTimeout(() => this.told === turn && this.kept(number), slowAfterMs);
    } catch (error) {
      console.error(error);
      this.last = { code: '', at: 0 };
      this.show('bad', '✕', `${people(number)} was NOT taken: this browser cannot keep it (${error?.message ?? error}). Write it down and tell the lead.`);
    }
  }

  // Without the server nobody can tell whose badge it is. What was read before stays on the tablet under the earlier person's name.
  badge(number) {
    this.told++;
    if (this.state?.link !== undefined && this.state.link !== 'ok') {
      this.show('bad', '✕', `A badge cannot be checked without a connection. Scans go on for ${this.root.dataset.by}.`);
      return;
    }
    this.show('busy', '…', 'A badge: type its PIN on the next page');
    mayLeave().then(() => changePerson(number));
  }

  answered(scan, answer) {
    this.behind = answer.behind ?? this.behind;
    this.showLink();
    if (answer.late) {
      // Many may arrive together: the page looks again once, and the bar counts.
      clearTimeout(this.lateLook);
      this.lateLook = setTimeout(() => this.look(answer), 300);
      this.turned(scan);
      this.show(answer.accepted ? 'good' : 'bad', answer.accepted ? '✓' : '✕', `Delivered: ${answer.sentence}`);
      return;
    }
    this.turned(scan);
    this.show(answer.accepted ? 'good' : 'bad', answer.accepted ? '✓' : '✕', answer.sentence);
    this.look(answer);
  }

  // The answer of an earlier reading is shown, but the newest one is still waited for: what becomes of it must be shown after.
  turned(scan) {
    const earlier = this.newest?.turn === this.told && scan.body.code !== this.newest.number;
    if (!earlier) {
      this.told++;
    }
  }

  tell(kind, sentence) {
    this.told++;
    this.show(kind, kind === 'good' ? '✓' : kind === 'bad' ? '✕' : '', sentence);
  }

  look(answer) {
    this.page.invokeMethodAsync('Delivered', answer.sheet ?? '', answer.accepted).catch(() => { /* Without its circuit the page looks when it is loaded again. */ });
  }

  changed(state) {
    this.state = state;
    if (state.link !== 'ok' && this.waitsFor && this.waitsFor.turn === this.told) {
      this.kept(this.waitsFor.number);
    }
    this.showLink();
    this.showRefused();
  }

  kept(number) {
    this.show('kept', '●', `Kept on this tablet: ${people(number)}. It is sent by itself when the connection is back.`);
  }

  show(kind, mark, sentence) {
    const told = this.root.querySelector('.told');
    told.className = `told ${kind}`;
    told.querySelector('.told-mark').textContent = mark;
    told.querySelector('.told-text').textContent = sentence;
  }

  showLink() {
    const bar = this.root.querySelector('.link-bar');
    const { link = 'ok', why = '', waiting = 0 } = this.state ?? {};
    const count = waiting === 1 ? '1 scan waits' : `${waiting} scans wait`;
    const lost = link === 'lost' || (!this.circuit && link === 'ok');
    const words = link === 'sign-in' ? `Not signed in: ${count} on this tablet. Sign in again; nothing is lost.`
      : link === 'trouble' ? `The server cannot take scans at the moment: ${count} on this tablet and ${waiting === 1 ? 'is' : 'are'} sent by ${waiting === 1 ? 'itself' : 'themselves'}.${why && ` ${why}`}`
      : lost ? `Offline. Go on scanning: ${count} on this tablet. The lists below are as they were.`
      : Math.abs(this.behind ?? 0) >= 60 ? `This tablet's clock is ${Math.round(Math.abs(this.behind) / 60)} min ${this.behind > 0 ? 'slow' : 'fast'}. The times of its scans are corrected; have it set.`
      : '';
    bar.hidden = words === '';
    bar.querySelector('.link-text').textContent = words;
    bar.querySelector('[data-reload]').hidden = link !== 'sign-in';
    this.root.classList.toggle('offline', lost || link === 'trouble' || link === 'sign-in');
  }

  showRefused() {
    const section = this.root.querySelector('.settle');
    const refused = (this.state?.refused ?? []).sort((a, b) => a.at - b.at);
    section.hidden = refused.length === 0;
    section.querySelector('ul').replaceChildren(...refused.map(r => {
      const item = document.createElement('li');
      const text = document.createElement('span');
      const at = new Date(r.at).toLocaleTimeString([], { hour: '2-digit', minute: '2-digit' });
      text.textContent = `${at}, ${people(r.code)} at ${r.equipment}, ${r.by}: ${r.sentence}`;
      const done = document.createElement('button');
      done.type = 'button';
      done.dataset.settle = r.id;
      done.textContent = 'Settled';
      done.setAttribute('aria-label', `Settled: ${people(r.code)} of ${at}`);
      item.append(text, done);
      return item;
    }));
  }

  cardSheet() {
    return this.root.querySelector('.sheet-card')?.dataset.sheet ?? '';
  }
}

// As the server cleans it: a scanner's prefix, blanks and hyphens, small letters; of an address only what stands last.
function clean(raw) {
  const text = raw.trim().replace(/^\][A-Za-z][0-9]/, '').replace(/[\s-]/g, '').toUpperCase();
  return text.length > 9 && /^HTTP/.test(text) ? text.slice(-9) : text.slice(0, 40);
}

function isOurs(number) {
  return /^[STDB][0-9A-HJKMNP-TV-X]{8}$/.test(number);
}

function people(number) {
  return isOurs(number) ? `${number.slice(0, 4)} ${number.slice(4, 8)} ${number.slice(8)}` : number;
}

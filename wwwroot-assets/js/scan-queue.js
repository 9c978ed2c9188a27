// Readings wait here, on this tablet's disk, until the server has answered for each of them. They go out one by one
// in the order in which they were read, each under the id that it got when it was read: the same id twice is one scan.
const databaseName = 'plate-room-scans';
const journalPrefix = 'plate-room.reading.';
const answerWithinMs = 8000;
const lateAfterMs = 3000;
const retryMs = [500, 1000, 2000, 3000];
const drawEveryMs = 200;

const page = newId();
const watchers = new Set();
const others = 'BroadcastChannel' in window ? new BroadcastChannel(databaseName) : null;
let opened = null;
let pumping = false;
let wanted = false;
let failures = 0;
let retry = 0;
let writing = 0;
let link = 'ok';
let why = '';
let drawing = 0;
let drawn = -Infinity;

others?.addEventListener('message', e => {
  if (e.data.page === page) {
    watchers.forEach(w => w.answered(e.data.scan, e.data.answer));
  }
  refresh();
});
addEventListener('online', () => { failures = 0; deliver(); });
addEventListener('offline', () => setLink('lost'));
document.addEventListener('visibilitychange', () => document.visibilityState === 'visible' && deliver());

// A watcher is told of each answer to a reading of this page, and of the link with the number that waits.
export function watchQueue(watcher) {
  watchers.add(watcher);
  refresh();
  deliver();
  return () => watchers.delete(watcher);
}

// Keeps a reading and sends it as soon as its turn comes. Resolves when it is on disk.
export async function keep(body) {
  const scan = { page, offline: link !== 'ok' || !navigator.onLine, read: Date.now(), monotonic: performance.now(), body: { ...body, id: newId() } };
  // The disk takes some milliseconds, and the page may be loaded again within them: until then the reading stands in the
  // journal, which is written before this line is left.
  const line = journalPrefix + scan.body.id;
  localStorage.setItem(line, JSON.stringify(scan));
  writing++;
  try {
    await run('waiting', 'readwrite', store => store.add(scan));
    localStorage.removeItem(line);
  } finally {
    writing--;
  }
  if (link !== 'ok') {
    refresh();
  }
  deliver();
  return scan;
}

export function deliver() {
  wanted = true;
  clearTimeout(retry);
  if (!pumping) {
    pumping = true;
    pump().catch(error => { console.error(error); again(); }).finally(() => {
      pumping = false;
      if (wanted) {
        deliver();
      }
    });
  }
}

// Is nothing on its way to the disk? A page may only be left then.
export function isQuiet() {
  return writing === 0;
}

export async function refusedScans() {
  return run('refused', 'readonly', store => store.getAll());
}

export async function settle(id) {
  await run('refused', 'readwrite', store => store.delete(id));
  refresh();
}

async function pump() {
  while (wanted) {
    wanted = false;
    for (;;) {
      const [next] = await run('waiting', 'readonly', store => store.getAll(null, 1));
      if (!next) {
        break;
      }
      const sentAt = Date.now();
      const age = ageOf(next, sentAt);
      const late = next.offline || age > lateAfterMs;
      const answer = await send(next, sentAt, age, late);
      if (answer.later) {
        // From now on it is late, also after a reload: whatever the server then says of it must be settled.
        if (!next.offline) {
          await run('waiting', 'readwrite', store => store.put({ ...next, offline: true }));
        }
        setLink(answer.later, answer.why);
        again();
        return;
      }
      failures = 0;
      answer.late = late;
      if (late) {
        await putAway(next, answer, sentAt - age);
      }
      setLink('ok');
      if (next.page === page) {
        watchers.forEach(w => w.answered(next, answer));
      } else {
        others?.postMessage({ page: next.page, scan: next, answer });
      }
      // Somebody stands and looks: the answer comes before the tablet's disk. Sent a second time it would be the same scan.
      if (!late) {
        await putAway(next, answer, sentAt - age);
      }
      if (late) {
        refresh();
      }
    }
  }
  refresh();
}

// What was refused while somebody looked was told there and then; what was refused later must be settled.
async function putAway(scan, answer, at) {
  await run(['waiting', 'refused'], 'readwrite', (waiting, refused) => {
    waiting.delete(scan.seq);
    if (answer.late && !answer.accepted) {
      refused.put({ id: scan.body.id, code: scan.body.code, equipment: scan.body.equipment, by: scan.body.by, at, sentence: answer.sentence, sheet: answer.sheet });
    }
  });
}

async function send(scan, sentAt, age, late) {
  let response;
  let reply;
  try {
    response = await fetch('api/v1/scans', {
      method: 'POST',
      credentials: 'same-origin',
      redirect: 'manual',
      cache: 'no-store',
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify({ ...scan.body, readAt: new Date(sentAt - age).toISOString(), sentAt: new Date(sentAt).toISOString(), offline: late }),
      signal: AbortSignal.timeout(answerWithinMs),
    });
    // A sign-in page instead of an answer: the scan has not been taken.
    if (response.type === 'opaqueredirect' || response.status === 401 || response.status === 403) {
      return { later: 'sign-in' };
    }
    reply = await response.json();
  } catch {
    return { later: response && response.status >= 200 && response.status < 300 ? 'trouble' : 'lost' };
  }
  if (response.ok && reply.outcome) {
    return { accepted: true, outcome: reply.outcome, sentence: reply.sentence, sheet: reply.sheet, behind: reply.clockBehindSeconds };
  }
  if (response.status === 409 && reply.code === 'scan-refused') {
    return { accepted: false, outcome: reply.outcome, sentence: reply.detail, sheet: reply.sheet, behind: reply.clockBehindSeconds };
  }
  // The server understood that it can never take this one: it goes to the list, with what the server says.
  if ([400, 404, 409, 413, 415, 422].includes(response.status)) {
    return { accepted: false, outcome: 'Unknown', sentence: reply.detail ?? reply.title ?? `The server refused it (${response.status}).`, sheet: null, behind: 0 };
  }
  // It says what is wrong with it.
  return { later: 'trouble', why: response.status === 503 || response.status === 507 ? reply.detail : undefined };
}

// How long ago it was read. The clock of this page cannot be set, but stands still while the tablet sleeps and begins anew
// with each load; the clock on the wall can be set. The larger of the two is right unless somebody set the clock forward.
function ageOf(scan, now) {
  const byWall = now - scan.read;
  const byPage = scan.page === page ? performance.now() - scan.monotonic : 0;
  return Math.round(Math.max(byWall, byPage, 0));
}

function again() {
  const wait = retryMs[Math.min(failures++, retryMs.length - 1)];
  clearTimeout(retry);
  retry = setTimeout(deliver, wait);
}

function setLink(to, reason = '') {
  if (link !== to || why !== reason) {
    [link, why] = [to, reason];
    refresh();
  }
}

// A long list of late answers is not drawn anew for each of them.
function refresh() {
  drawing ||= setTimeout(draw, Math.max(0, drawn + drawEveryMs - performance.now()));
}

async function draw() {
  [drawing, drawn] = [0, performance.now()];
  if (watchers.size === 0) {
    return;
  }
  const [waiting, refused] = await Promise.all([run('waiting', 'readonly', store => store.count()), refusedScans()]);
  watchers.forEach(w => w.changed({ link, why, waiting, refused }));
}

function open() {
  opened ??= new Promise((done, fail) => {
    const request = indexedDB.open(databaseName, 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore('waiting', { keyPath: 'seq', autoIncrement: true });
      request.result.createObjectStore('refused', { keyPath: 'id' });
    };
    request.onsuccess = () => {
      request.result.onclose = () => { opened = null; };
      recover(request.result).then(() => done(request.result), error => { opened = null; fail(error); });
    };
    request.onerror = () => { opened = null; fail(request.error); };
  });
  return opened;
}

// What an earlier load of the page read and could not write to the end goes first, in its order. One that was written all
// the same is sent twice under one id, which is one scan.
async function recover(database) {
  const lines = Object.keys(localStorage).filter(key => key.startsWith(journalPrefix));
  const scans = lines.map(line => JSON.parse(localStorage.getItem(line))).filter(scan => scan && scan.page !== page).sort((a, b) => a.read - b.read);
  if (scans.length === 0) {
    return;
  }
  await new Promise((done, fail) => {
    const transaction = database.transaction('waiting', 'readwrite', { durability: 'strict' });
    scans.forEach(scan => transaction.objectStore('waiting').add({ ...scan, offline: true }));
    transaction.oncomplete = done;
    transaction.onabort = () => fail(transaction.error);
  });
  scans.forEach(scan => localStorage.removeItem(journalPrefix + scan.body.id));
}

// One transaction; "strict" returns only when it is on disk, so that a power cut takes nothing.
async function run(names, mode, act) {
  const database = await open();
  return new Promise((done, fail) => {
    const transaction = database.transaction(names, mode, { durability: mode === 'readwrite' ? 'strict' : 'default' });
    const stores = [names].flat().map(name => transaction.objectStore(name));
    const request = act(...stores);
    transaction.oncomplete = () => done(request?.result);
    transaction.onabort = () => fail(transaction.error);
  });
}

export function newId() {
  if (crypto.randomUUID) {
    return crypto.randomUUID();
  }
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = [...bytes].map(b => b.toString(16).padStart(2, '0')).join('');
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}

// Fills the panel below the timeline from the data-* attributes of a bar.

export function fillDetails(bar) {
  const panel = document.getElementById('tl-details');
  const field = name => panel.querySelector(`[data-field="${name}"]`);
  const data = bar.dataset;
  put(field('number'), `Sheet ${data.sheet.slice(0, 4)} ${data.sheet.slice(4, 8)} ${data.sheet.slice(8)}`);
  put(field('what'), data.what);
  put(field('when'), data.when);
  put(field('dueby'), data.dueby);
  put(field('slack'), data.slack);
  const lateness = ['late', 'atrisk', 'ontime'].find(word => bar.classList.contains(word));
  put(field('lateness'), data.lateness);
  field('lateness').className = `lateness ${lateness}`;
  const tickets = field('tickets');
  // The same words again would be read aloud again.
  if (tickets.dataset.shown !== data.tickets) {
    tickets.dataset.shown = data.tickets;
    tickets.replaceChildren(...data.tickets.split('\n').map(ticketLine));
  }
  panel.querySelector('.tl-hint').hidden = true;
  panel.querySelector('.tl-filled').hidden = false;
}

export function clearDetails() {
  const panel = document.getElementById('tl-details');
  panel.querySelector('.tl-hint').hidden = false;
  panel.querySelector('.tl-filled').hidden = true;
}

export function focusTicket() {
  document.querySelector('#tl-details [data-field="tickets"] a')?.focus();
}

function ticketLine(line) {
  const [number, job] = line.split('\t');
  const item = document.createElement('li');
  const link = document.createElement('a');
  link.href = `/tickets/${number}`;
  link.className = 'number';
  link.textContent = `Ticket ${number.slice(0, 4)} ${number.slice(4, 8)} ${number.slice(8)}`;
  item.append(link, ` ${job}`);
  return item;
}

function put(element, text) {
  if (element.textContent !== text) {
    element.textContent = text;
  }
}

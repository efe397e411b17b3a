// Requests to the server that gave this page; every path is relative, so each carries the token of the page's own address.

/** The newest slider move wins: an older request is dropped here and by the server. */
const page = { client: crypto.randomUUID(), number: 0, flying: null };

async function post(what, body, signal) {
  const reply = await fetch(`api/${what}`, {
    method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body), signal,
  });
  return reply;
}

export async function start() {
  const reply = await fetch('api/start');
  if (!reply.ok) throw new Error('The server does not answer.');
  return reply.json();
}

/** {answer} | {problems} | {problem} | {dropped}. */
export async function solve(request) {
  if (page.flying) page.flying.abort();
  page.flying = new AbortController();
  const number = ++page.number;
  try {
    const reply = await post('solve', { ...request, client: page.client, number }, page.flying.signal);
    if (number !== page.number || reply.status === 409) return { dropped: true };
    const body = await reply.json();
    if (number !== page.number) return { dropped: true };
    if (reply.ok) return { answer: body };
    return body.problems ? { problems: body.problems } : { problem: body.problem || `The server answers ${reply.status}.` };
  } catch (error) {
    if (number !== page.number || error.name === 'AbortError') return { dropped: true };
    return { problem: 'The server does not answer. Is hoofload serve still running?' };
  }
}

export async function keep(request, wanted) {
  const reply = await post('export', { ...request, wanted, client: page.client });
  if (reply.ok) return { blob: await reply.blob() };
  const body = await reply.json().catch(() => ({}));
  return { problem: body.problems ? body.problems.map(problemText).join(' ') : body.problem || 'Not written.' };
}

export const study = (request) => long('study', request);
export const stance = (request) => long('stance', request);

/** Of a page one such work runs at a time: {answer} | {problems} | {problem} | {stopped}. */
async function long(what, request) {
  const reply = await post(what, { ...request, client: page.client }).catch(() => null);
  if (!reply) return { problem: 'The server does not answer. Is hoofload serve still running?' };
  if (reply.status === 409) return { stopped: true };
  const body = await reply.json().catch(() => ({}));
  if (reply.ok) return { answer: body };
  return body.problems ? { problems: body.problems } : { problem: body.problem || `The server answers ${reply.status}.` };
}

/** Also when the page is left: nobody waits for the draws any more. */
export function cancelStudy() {
  fetch('api/cancel', { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify({ client: page.client }), keepalive: true }).catch(() => {});
}

export async function lesson(question) {
  const reply = await post('lesson', { question, client: page.client });
  return reply.ok ? reply.json() : { answer: null, sentence: 'It could not be solved.' };
}

/** Calls `tell` with {done, of, what} until the returned function is called. */
export function watch(kind, tell) {
  let over = false; // a reply that comes after the end would overwrite what was said since
  const timer = setInterval(async () => {
    const reply = await fetch(`api/progress?of=${encodeURIComponent(page.client + kind)}`).catch(() => null);
    if (over || !reply || !reply.ok) return;
    const progress = await reply.json();
    if (!over) tell(progress);
  }, 300);
  return () => { over = true; clearInterval(timer); };
}

export function problemText(p) {
  return `${p.key}: ${p.problem}${p.value ? ` (${p.value})` : ''}.${p.allowed ? ` Allowed: ${p.allowed}.` : ''}`;
}

// The stance as a moving picture: the page's server solves its places, the page's own modules draw them.
// Usage: see browser.mjs; node stance.mjs FOLDER writes FOLDER/000.png and on.
// The places are those of the page's slider, 20 to 80 % of the stance; the foot's landing and its roll over the toe are outside.
import path from 'node:path';
import { begin, end, settled } from './browser.mjs';

const folder = process.argv[2];
const [from, to, step] = [20, 80, 5];
const width = 900;

/** Runs in the page: the answers of all places, or the first complaint. */
async function solveAll([from, to, step]) {
  const { firstState, plainRun, requestOf } = await import('./state.js');
  const known = await (await fetch('api/start')).json();
  const state = firstState(), packed = plainRun('plate, packed before nailing, 1 mm proud');
  Object.assign(packed.s, { 'shoe.type': 'full plate', 'shoe.material': 'polyurethane A90', 'packing.region': 'full sole', 'packing.order': 'before nailing', 'packing.proud': 1 });
  state.runs = [state.runs[0], packed];
  state.phase = 'midstance';
  globalThis.stance = [];
  for (let share = from, number = 1; share <= to; share += step, number += 1) {
    state.share = share;
    const reply = await fetch('api/solve', { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify({ ...requestOf(state, known.keys), client: 'stance', number }) });
    const answer = await reply.json();
    const unsolved = reply.ok ? answer.runs.flatMap((r) => r.unsolved) : [JSON.stringify(answer)];
    if (unsolved.length) return `at ${share} %: ${unsolved.join(' ')}`;
    globalThis.stance.push({ share, answer });
  }
  return '';
}

/** Runs in the page: one scale, one window and one length of ribbon a kPa for all places, so that frames can be compared. */
async function shareScales() {
  const all = globalThis.stance.map((s) => s.answer.scenes.sagittal);
  const widest = all.reduce((a, b) => (b.scale.levels.at(-1) > a.scale.levels.at(-1) ? b : a)).scale;
  const most = widest.levels.at(-1), parts = widest.colours.map((c) => c.match(/[0-9a-f]{2}/gi).map((x) => parseInt(x, 16)));
  const colourAt = (kPa) => {
    const at = Math.min(Math.max((kPa / most) * parts.length - 0.5, 0), parts.length - 1), k = Math.min(Math.floor(at), parts.length - 2);
    return `rgb(${parts[k].map((c, i) => Math.round(c + (at - k) * (parts[k + 1][i] - c))).join(',')})`;
  };
  const scenes = all.flatMap((a) => Object.values(a.runs)), windows = scenes.map((s) => s.window);
  const window = [0, 1, 2, 3].map((i) => Math[i < 2 ? 'min' : 'max'](...windows.map((w) => w[i])));
  const perKpa = Math.min(...scenes.map((s) => s.ribbon.mm_per_kpa));
  for (const s of scenes) { s.window = window; s.ribbon.mm_per_kpa = perKpa; }
  for (const { scale } of all) scale.colours = scale.colours.map((c, k) => colourAt((scale.levels[k] + scale.levels[k + 1]) / 2));
  globalThis.widest = widest;
  return all.map((a) => a.scale.levels.at(-1));
}

/** Runs in the page: it shows the k-th place and nothing else. */
async function showPlace([k, from, to]) {
  const { make } = await import('./dom.js');
  const { picture, scaleKey } = await import('./picture.js');
  const { share, answer } = globalThis.stance[k], { scale, runs } = answer.scenes.sagittal;
  const figures = answer.runs.map((run, r) => make('figure', {}, picture(runs[r], scale, run.name, 'us'), make('figcaption', {}, make('b', {}, `${'AB'[r]} `), run.name)));
  const place = make('progress', { max: to - from, value: share - from, 'aria-label': 'place' });
  place.style.cssText = 'width: 320px; vertical-align: middle; accent-color: #7a3b12';
  const row = make('div', { class: 'row-of-pictures' }, figures), head = make('p', {}, make('b', {}, `${share.toFixed(1)} % of the stance `), `${from} % `, place, ` ${to} %, at the walk, invented foot`);
  row.style.margin = '6px 0';
  head.style.margin = '0';
  const frame = make('div', { id: 'frame' }, head, row, scaleKey(globalThis.widest, 'All frames').map((x) => (typeof x === 'string' ? make('span', { class: 'key' }, x) : x)), make('p', { class: 'caution' }, answer.caution));
  frame.style.cssText = 'padding: 8px 12px; background: var(--paper)';
  document.body.replaceChildren(frame);
}

const running = await begin();
try {
  const page = await running.browser.newPage({ viewport: { width, height: 720 } });
  await page.goto(running.address);
  await settled(page);
  const complaint = await page.evaluate(solveAll, [from, to, step]);
  if (complaint) throw new Error(complaint);
  const tops = await page.evaluate(shareScales);
  console.log(`${tops.length} places; each frame's own scale ended at ${Math.min(...tops)} to ${Math.max(...tops)} kPa`);
  for (let k = 0; k < tops.length; k += 1) {
    await page.evaluate(showPlace, [k, from, to]);
    await page.locator('#frame').screenshot({ path: path.join(folder, `${String(k).padStart(3, '0')}.png`) });
  }
} finally {
  await end(running);
}

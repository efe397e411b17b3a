// What is uncertain, drawn on demand: how far each change spreads over the draws, apart from the mesh's error bar.
import { make, draw, table, byId } from './dom.js';
import { study, cancelStudy, watch, problemText } from './api.js';
import { echoes } from './changes.js';
import { letters, numberText, signedText, inWords } from './words.js';

const counts = [30, 50, 100, 200, 500];
const percentText = (share) => `${(100 * share).toFixed(0)} %`;

/** The spread as a bar, its middle as a stroke, the change of the pictures as a ring, zero as a line; the numbers stand beside it. */
function strip(d, reach) {
  const W = 150, H = 22, xOf = (v) => W / 2 + (v / reach) * (W / 2 - 6);
  return draw('svg', { class: 'strip', viewBox: `0 0 ${W} ${H}`, 'aria-hidden': 'true' },
    draw('line', { x1: W / 2, x2: W / 2, y1: 1, y2: H - 1, class: 'zero' }),
    draw('rect', { x: xOf(d.low), y: 7, width: Math.max(1, xOf(d.high) - xOf(d.low)), height: 8, class: d.distinguishable ? 'spread' : 'spread unsure' }),
    draw('line', { x1: xOf(d.median), x2: xOf(d.median), y1: 4, y2: 18, class: 'middle' }),
    draw('circle', { cx: xOf(d.change), cy: 11, r: 3.5, class: 'here' }));
}

/** Reading and draws stay within 1 % of A's reading: nothing to look at. */
const isStill = (d) => [d.low, d.high, d.change].every((v) => Math.abs(v) <= 0.01 * Math.abs(d.baseline));

function rowsOf(shown, of, runs, words) {
  return shown.map((d) => {
    const reach = Math.max(...shown.filter((x) => x.key === d.key).flatMap((x) => [x.low, x.high, x.change].map(Math.abs)), 1e-9);
    const k = runs.findIndex((r) => r.name === d.run);
    return [`${inWords(of[d.key].words, words)}, ${of[d.key].unit.replace('ue', 'µε').replace('cm^2', 'cm²')}`, `${letters[k]} − A`, strip(d, reach),
      signedText(d.low), signedText(d.median), signedText(d.high), d.p_better === null ? '–' : percentText(d.p_better),
      `${signedText(d.change)}${d.mesh_bar === null ? '' : ` ± ${numberText(d.mesh_bar)}`}`, inWords(d.remark, words)];
  });
}

function resultOf(answer, runs, start, words) {
  const of = Object.fromEntries(start.quantities.map((q) => [q.key, q]));
  const shown = answer.differences.filter((d) => of[d.key].leads === d.model && !echoes.has(d.key));
  const still = shown.filter(isStill).map((d) => `${inWords(of[d.key].words, words)} (${letters[runs.findIndex((r) => r.name === d.run)]})`);
  const rows = rowsOf(shown.filter((d) => !isStill(d)), of, runs, words);
  const head = ['quantity', 'options', 'spread', '5 %', 'half', '95 %', 'P(better)', 'change ± mesh bar', 'what can be said'];
  return [make('p', {}, `Over ${answer.draws} draws of foot, materials and loads, the same draw for all options: in nine of ten draws the change lies between the 5 % and the 95 %. P(better) is the share of the draws in which the option loads that part less. The mesh bar says how exactly the equations are solved; it is no part of the interval, and neither says how far the model is from a living foot.`),
    make('div', { class: 'wide', tabindex: '0', role: 'region', 'aria-label': 'Intervals' }, rows.length ? table(`Paired changes against A, ${answer.phase}`, head, rows, { id: 'drawn' }) : make('p', {}, 'Nothing changes by more than 1 % between the options, or fewer than 20 draws were solved (see below).')),
    still.length ? make('p', { class: 'key' }, `Within 1 % of A’s reading in nine of ten draws: ${still.join(', ')}.`) : null,
    make('ul', { class: 'key' }, answer.notes.map((t) => make('li', {}, t)))].filter(Boolean);
}

/** What the last draws said of one change, or nothing; `asked` must be the request that is shown now. */
export function intervalOf(drawn, asked, run, key, model) {
  if (!drawn || drawn.asked !== asked) return null;
  return drawn.answer.differences.find((d) => d.run === run && d.key === key && d.model === model) || null;
}

/**
 * `request` gives the request that is shown now; `told` is called with the draws when they are there, with null when a choice has
 * changed. Returns what writes the result anew, in other words for instance.
 */
export function connectIntervals(start, state, request, told) {
  const said = byId('study-status'), bar = byId('study-progress'), result = byId('study-result');
  byId('draws').replaceChildren(...counts.map((n) => make('option', { value: String(n), selected: n === state.draws }, String(n))));
  byId('draws').addEventListener('change', () => { state.draws = +byId('draws').value; told(null); });
  byId('keep-draws').addEventListener('change', () => { state.kept_draws = byId('keep-draws').checked; told(null); });
  let kept = null, stopping = false;
  const redraw = () => { if (kept && result.dataset.asked) result.replaceChildren(...resultOf(kept.answer, kept.runs, start, state.words)); };
  const running = (is) => { byId('study').disabled = is; byId('study-stop').disabled = !is; bar.hidden = !is; };
  byId('study').addEventListener('click', async () => {
    const body = request(), asked = JSON.stringify(body);
    running(true);
    said.textContent = 'Drawing: the pictures above can still be changed.';
    const began = performance.now();
    stopping = false;
    const stop = watch(' study', (p) => {
      if (!p.of || stopping) return;
      bar.max = p.of; bar.value = p.done;
      const left = p.done > 4 ? `, about ${Math.ceil(((performance.now() - began) / 1000) * (p.of / p.done - 1))} s left` : '';
      said.textContent = `${p.done} of ${p.of} parts solved${left}.`;
    });
    const { answer, problems, problem, stopped } = await study({ ...body, draws: state.draws });
    stop();
    running(false);
    if (stopped) { said.textContent = 'Stopped.'; return; }
    if (!answer) { said.textContent = problems ? problems.map(problemText).join(' ') : problem; return; }
    said.textContent = `${answer.draws} draws solved, ${answer.phase}.`;
    kept = { answer, runs: body.runs };
    result.dataset.asked = asked;
    redraw();
    told({ asked, answer });
  });
  byId('study-stop').addEventListener('click', () => { stopping = true; said.textContent = 'Stopping after the draw in hand.'; cancelStudy(); });
  addEventListener('pagehide', cancelStudy);
  return redraw;
}

/** After a move the numbers are those of another state: they go. */
export function dropOldIntervals(asked) {
  const result = byId('study-result');
  if (!result.dataset.asked || result.dataset.asked === asked) return;
  delete result.dataset.asked;
  result.replaceChildren(make('p', {}, 'The intervals belonged to another state of the page; draw again for this one.'));
}

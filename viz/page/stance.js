// The whole stance: solved once on demand, then looked through place by place without solving again.
import { make, table, byId } from './dom.js';
import { stance, cancelStudy, watch, problemText } from './api.js';
import { picture, scaleKey } from './picture.js';
import { letters, numberText, inWords } from './words.js';

const shownKeys = ['ddft_force', 'navicular_force', 'cop', 'ground_pressure_toe', 'ground_pressure_heel', 'sole_pressure_peak', 'corium_pressure_peak', 'lamella_stress_dorsal', 'bone_sink'];
const beat = 160; // ms between places while it plays

function tableAt(frame, runs, start, words) {
  const of = Object.fromEntries(start.quantities.map((q) => [q.key, q]));
  const rows = shownKeys.filter((key) => frame.values.some((v) => key in v)).map((key) => [`${inWords(of[key].words, words)}, ${of[key].unit}`, ...frame.values.map((v) => (key in v ? numberText(v[key]) : 'no equilibrium'))]);
  return table(`At ${frame.share} % of the stance, sagittal model`, ['quantity', ...runs.map((r, k) => `${letters[k]}, ${r.name}`)], rows, { id: 'stance-values' });
}

function picturesAt(answer, k, words) {
  const frame = answer.frames[k];
  return answer.runs.map((run, r) => {
    const caption = make('figcaption', {}, make('b', {}, `${letters[r]} `), run.name), scene = frame.scenes[r];
    if (!scene) return make('figure', {}, make('p', { class: 'unsolved' }, `Ended before: ${run.why}`), caption);
    const alt = `${run.name} at ${frame.share} % of the stance. Tendon ${numberText(frame.values[r].ddft_force)} N, force ${numberText(frame.values[r].cop)} mm ahead of the coffin joint.`;
    const svg = picture(scene, answer.scale, alt, words);
    svg.setAttribute('role', 'img');
    svg.removeAttribute('tabindex');
    return make('figure', {}, svg, caption);
  });
}

/** `request` gives the request that is shown now. Returns {drop(asked), redraw()}. */
export function connectStance(start, state, request) {
  const said = byId('stance-status'), bar = byId('stance-progress'), home = byId('stance-result');
  let kept = null, at = 0, playing = 0;
  const pictures = make('div', { class: 'row-of-pictures' }), values = make('div', { class: 'wide', tabindex: '0', role: 'region', 'aria-label': 'Values at this place' });
  const slider = make('input', { id: 'stance-place', type: 'range', min: 0, max: 1, step: 1, value: 0 }), shown = make('output', { id: 'stance-at', for: 'stance-place' });
  const play = make('button', { type: 'button', id: 'stance-play' }, 'Play');
  const show = (k) => {
    at = k;
    slider.value = String(k);
    shown.textContent = `${kept.answer.frames[k].share} %`;
    slider.setAttribute('aria-valuetext', `${kept.answer.frames[k].share} % of the stance`);
    pictures.replaceChildren(...picturesAt(kept.answer, k, state.words));
    values.replaceChildren(tableAt(kept.answer.frames[k], kept.answer.runs, start, state.words));
  };
  const rest = () => { clearInterval(playing); playing = 0; play.textContent = 'Play'; };
  slider.addEventListener('input', () => { rest(); show(+slider.value); });
  play.addEventListener('click', () => {
    if (playing) { rest(); return; }
    play.textContent = 'Pause';
    if (at === kept.answer.frames.length - 1) show(0);
    playing = setInterval(() => { if (at >= kept.answer.frames.length - 1) rest(); else show(at + 1); }, beat);
  });
  const fill = () => {
    const { answer } = kept, last = answer.frames.length - 1;
    slider.max = String(last);
    const ended = answer.runs.filter((r) => r.why).map((r) => make('li', {}, `${r.name}: ends after ${r.last === null ? 'nothing' : `${r.last} %`}: ${r.why}. Beyond it this model has no equilibrium; what follows is the roll over the toe, which a held load and a tendon of given length do not balance.`));
    home.replaceChildren(make('div', { class: 'control' }, make('label', { for: 'stance-place' }, 'Place in the stance ', shown), slider, play), pictures,
      ...scaleKey(answer.scale, 'From the side, one scale for the whole stance').map((k) => (typeof k === 'string' ? make('p', { class: 'key' }, k) : k)), values,
      ended.length ? make('ul', { class: 'key' }, ended) : make('p', { class: 'key' }, 'All places from 5 to 95 % have an equilibrium; at 0 and 100 % there is no load.'));
    show(Math.min(at, last));
  };
  const running = (is) => { byId('stance-solve').disabled = is; byId('stance-stop').disabled = !is; bar.hidden = !is; };
  byId('stance-solve').addEventListener('click', async () => {
    const body = request(), asked = JSON.stringify(body);
    rest();
    running(true);
    said.textContent = 'Solving the stance; the page can be used meanwhile.';
    const stop = watch(' stance', (p) => { if (p.of) { bar.max = p.of; bar.value = p.done; said.textContent = `${p.done} of ${p.of} places solved.`; } });
    const { answer, problems, problem, stopped } = await stance(body);
    stop();
    running(false);
    if (stopped) { said.textContent = 'Stopped.'; return; }
    if (!answer || !answer.frames.length) { said.textContent = answer ? answer.runs.map((r) => `${r.name}: ${r.why}`).join('; ') : problems ? problems.map(problemText).join(' ') : problem; return; }
    kept = { answer, asked };
    at = Math.floor(answer.frames.length / 2);
    said.textContent = `${answer.frames.length} places from 5 to ${answer.frames.at(-1).share} % are there.`;
    fill();
  });
  byId('stance-stop').addEventListener('click', () => { said.textContent = 'Stopping after the place in hand.'; cancelStudy(); });
  return {
    redraw: () => { if (kept) fill(); },
    drop: (asked) => {
      if (!kept || kept.asked === asked) return;
      kept = null;
      rest();
      said.textContent = '';
      home.replaceChildren(make('p', {}, 'The stance belonged to another state of the page; solve it again for this one.'));
    },
  };
}

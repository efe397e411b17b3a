// The page: state, solve, show. Everything else is in the files that it imports.
import * as api from './api.js';
import { make, byId } from './dom.js';
import { stateOf, fragmentOf, requestOf, plainRun, firstState } from './state.js';
import { showControls, showRadios, showScrub } from './controls.js';
import { picture, scaleKey } from './picture.js';
import { connectProbe } from './probe.js';
import { showProfiles, showLedgers } from './charts.js';
import { showChanges } from './changes.js';
import { showLesson } from './lesson.js';
import { connectStance } from './stance.js';
import { connectIntervals, dropOldIntervals, intervalOf } from './intervals.js';
import { letters, inWords, numberText } from './words.js';

const phases = [['swing', 'in the air'], ['standing', 'standing'], ['midstance', 'mid-stance'], ['breakover', 'breakover']];
const views = [['both', 'both'], ['sagittal', 'from the side'], ['axisymmetric', 'round the axis']];
const titles = { sagittal: 'From the side', axisymmetric: 'Round the axis' };
const files = [['case', 'Case file', 'toml'], ['csv', 'Table (CSV)', 'csv'], ['json', 'Result (JSON)', 'json'], ['picture', 'Picture (SVG)', 'svg'], ['report', 'Report (HTML)', 'html']];

const state = stateOf(location.hash.slice(1));
const restful = 350; // ms without a move
let start = null, timer = 0, last = null, drawn = null, redrawIntervals = () => {}, wholeStance = null;

const say = (text) => { byId('status').textContent = text; };

function altOf(run, model, phase) {
  const v = (run.models[model] || { values: {} }).values;
  const some = ['sole_pressure_peak', 'swing_sole_pressure', 'bone_share_lamellae', 'ddft_force', 'breakover_arm', 'rollover_arm'].filter((k) => k in v);
  const facts = some.map((k) => { const q = start.quantities.find((x) => x.key === k); return `${q.words} ${numberText(v[k])} ${q.unit}`; });
  return `${run.name}, ${phase}, ${titles[model].toLowerCase()}. ${facts.join(', ')}. Arrow keys move the probe.`;
}

function showPictures(answer) {
  const models = Object.keys(answer.scenes).filter((m) => state.view === 'both' || state.view === m).sort().reverse();
  const home = byId('pictures');
  home.className = answer.runs.length > 2 ? 'many' : 'two';
  const keys = [], rows = [];
  for (const m of models) {
    const { scale, runs } = answer.scenes[m];
    const shown = [], figures = answer.runs.map((run, k) => {
      const caption = make('figcaption', {}, make('b', {}, `${letters[k]} `), `${run.name} · ${titles[m].toLowerCase()}`);
      if (!runs[k]) return make('figure', {}, make('p', { class: 'unsolved' }, run.unsolved.join(' ') || 'Not solved.'), caption);
      const svg = picture(runs[k], scale, altOf(run, m, answer.phase), state.words);
      shown.push({ svg, scene: runs[k], run: k });
      return make('figure', { class: k === state.edit ? 'edited' : '' }, svg, caption);
    });
    rows.push(make('div', { class: 'row-of-pictures' }, figures));
    if (shown.length && !answer.moving) connectProbe(shown, state.words, (text) => { byId('probe').textContent = text; });
    keys.push(...scaleKey(scale, titles[m]));
  }
  if (state.view === 'axisymmetric' && !models.length) rows.push(make('p', {}, 'The axisymmetric model has no toe to break over: see it from the side.'));
  home.replaceChildren(...rows);
  byId('scale').replaceChildren(...keys.map((k) => (typeof k === 'string' ? make('p', { class: 'key' }, k) : k)));
  return models;
}

function show(answer) {
  last = answer;
  const models = showPictures(answer);
  const shownModels = models.length ? models : ['sagittal'];
  showProfiles(byId('profile'), answer.runs, shownModels);
  showLedgers(byId('ledger'), answer.runs, shownModels, state.words);
  showChanges(byId('changes'), answer, start, state.words, (run, key, model) => intervalOf(drawn, answer.asked, run, key, model));
  byId('notes').replaceChildren(make('h2', {}, 'Notes'), make('ul', {}, [
    'The foot and the horse that the page begins with are invented.',
    'Here: a coarse mesh without error bars, so that pictures follow the sliders; changes below 1 % of a reading, about what the bars come to, count as none. What you keep is solved anew and finer.',
    ...answer.runs.flatMap((r) => r.unsolved.map((u) => `${r.name}: ${u}`)), ...answer.warnings].map((t) => make('li', {}, inWords(t, state.words)))),
    make('p', { class: 'key' }, answer.provenance));
}

/** The whole stance is that of the feet, whatever phase is shown. */
const stanceRequest = () => requestOf({ ...state, phase: 'standing' }, start.keys);
const stanceAsked = () => JSON.stringify(stanceRequest());

/** While a slider moves the picture comes from the last state; where it rests it is solved as the link would be. */
async function solveNow(moving) {
  history.replaceState(null, '', `#${fragmentOf(state)}`);
  byId('link').value = location.href;
  document.body.classList.add('solving');
  document.body.classList.toggle('moving', Boolean(moving));
  say(last ? 'Solving; the last picture stays until then.' : 'Solving.');
  byId('progress').hidden = false;
  const began = performance.now();
  const stop = api.watch('', (p) => { if (p.of) { byId('progress').max = p.of; byId('progress').value = p.done; if (p.what) say(`Solving ${p.what}: ${p.done} of ${p.of} models done.`); } });
  const asked = JSON.stringify(requestOf(state, start.keys));
  const reply = await api.solve({ ...JSON.parse(asked), moving: Boolean(moving) });
  stop();
  if (reply.dropped) return;
  document.body.classList.remove('solving');
  byId('progress').hidden = true;
  const problems = reply.problems ? reply.problems.map(api.problemText) : reply.problem ? [reply.problem] : [];
  byId('problems').replaceChildren(...problems.map((p) => make('p', {}, p)));
  if (problems.length) document.body.classList.remove('moving');
  if (problems.length) return void say(last ? 'Not solved; the last picture is still shown.' : 'Not solved.');
  reply.answer.asked = asked;
  dropOldIntervals(asked);
  wholeStance.drop(stanceAsked());
  show(reply.answer);
  const took = performance.now() - began;
  document.body.dataset.took = took.toFixed(0);
  if (moving) Object.assign(document.body.dataset, { followed: took.toFixed(0), solver: String(reply.answer.solver_ms) });
  document.body.dataset.shown = fragmentOf(state);
  if (reply.answer.moving) {
    say(`Following the slider, ${(took / 1000).toFixed(2)} s; solved anew where it rests.`);
    timer = setTimeout(() => solveNow(false), restful);
    return;
  }
  document.body.classList.remove('moving');
  say(`Solved: ${state.phase}, ${reply.answer.runs.length} options, ${(took / 1000).toFixed(1)} s.`);
}

function changed(rebuild, moving) {
  if (rebuild) showControls(state, start, changed);
  clearTimeout(timer);
  timer = setTimeout(() => solveNow(moving), moving ? 0 : 40);
}

function showAll() {
  const again = () => { showAll(); changed(false); };
  showRadios('edit', 'edit', state.runs.map((r, k) => [String(k), `${letters[k]} ${r.name}`]), String(state.edit), (k) => { state.edit = +k; again(); byId(`edit-${k}`).focus(); });
  byId('name').value = state.runs[state.edit].name;
  byId('remove').disabled = state.edit === 0 || state.runs.length < 3;
  byId('add').disabled = state.runs.length >= start.most_runs;
  showRadios('phase', 'phase', phases, state.phase, (p) => { state.phase = p; showScrub(state, changed); changed(false); });
  showRadios('view', 'view', views, state.view, (v) => { state.view = v; if (last) show(last); changed(false); });
  showScrub(state, changed);
  showControls(state, start, changed);
  byId('words').value = state.words;
  byId('theme').value = state.theme;
  byId('draws').value = String(state.draws);
  byId('keep-draws').checked = state.kept_draws;
  document.documentElement.dataset.theme = state.theme;
}

function uniqueName(name) {
  let free = name;
  for (let k = 2; state.runs.some((r, i) => i !== state.edit && r.name === free); k += 1) free = `${name} ${k}`;
  return free;
}

function connect() {
  byId('add').addEventListener('click', () => {
    const copy = structuredClone(state.runs[state.edit]);
    state.runs.push(copy);
    state.edit = state.runs.length - 1;
    copy.name = uniqueName(`option ${letters[state.edit]}`);
    showAll();
    changed(false);
  });
  byId('remove').addEventListener('click', () => {
    state.runs.splice(state.edit, 1);
    state.edit = Math.min(state.edit, state.runs.length - 1);
    showAll();
    changed(false);
  });
  byId('name').addEventListener('change', () => {
    state.runs[state.edit].name = uniqueName(byId('name').value.trim() || plainRun('option').name);
    showAll();
    changed(false);
  });
  byId('words').addEventListener('change', () => { state.words = byId('words').value; showAll(); if (last) show(last); redrawIntervals(); wholeStance.redraw(); changed(false); });
  byId('theme').addEventListener('change', () => { state.theme = byId('theme').value; showAll(); changed(false); });
  byId('copy').addEventListener('click', async () => {
    byId('link').select();
    await navigator.clipboard.writeText(byId('link').value).catch(() => document.execCommand('copy'));
    byId('export-status').textContent = 'The link is copied.';
  });
  addEventListener('hashchange', () => {
    if (location.hash.slice(1) === fragmentOf(state)) return;
    Object.assign(state, stateOf(location.hash.slice(1)));
    showAll();
    changed(false);
  });
}

function showExports() {
  byId('exports').replaceChildren(...files.map(([wanted, label, ending]) => {
    const button = make('button', { type: 'button', id: `export-${wanted}` }, label);
    button.addEventListener('click', async () => {
      const told = byId('export-status');
      told.textContent = `${label}: solving.`;
      const stop = api.watch(' export', (p) => { if (p.of) told.textContent = `${label}: ${p.done} of ${p.of} models solved.`; });
      const shown = { model: state.view === 'axisymmetric' ? 'axisymmetric' : 'sagittal', run: state.edit };
      const { blob, problem } = await api.keep({ ...requestOf(state, start.keys), ...shown, draws: state.kept_draws ? state.draws : 0 }, wanted);
      stop();
      if (problem) { told.textContent = problem; return; }
      const link = make('a', { href: URL.createObjectURL(blob), download: `hoofload-${wanted}.${ending}` });
      link.click();
      URL.revokeObjectURL(link.href);
      told.textContent = `${label}: written.`;
    });
    return button;
  }));
}

async function begin() {
  try {
    start = await api.start();
  } catch (error) {
    say(error.message);
    return;
  }
  byId('caution').textContent = start.caution;
  if (state.runs.length === 0) Object.assign(state, firstState());
  connect();
  showAll();
  showExports();
  wholeStance = connectStance(start, state, stanceRequest);
  redrawIntervals = connectIntervals(start, state, () => requestOf(state, start.keys), (now) => {
    if (!now) { changed(false); return; }
    drawn = now;
    if (last) show(last);
  });
  showLesson(start, state);
  await solveNow(false);
}

begin();

// The readings of all options, what got worse and what got better against A.
import { make, table } from './dom.js';
import { letters, numberText, signedText, inWords } from './words.js';

/** Multiples of another quantity: they would say one thing twice. */
export const echoes = new Set(['ddft_moment_per_mass', 'navicular_force_per_mass', 'coffin_moment', 'ddft_force']);

function changeText(d, drawn) {
  if (!d) return '';
  if (drawn && !drawn.distinguishable) return ` (${signedText(d.change)}; not distinguishable, 5 to 95 %: ${signedText(drawn.low)} to ${signedText(drawn.high)})`;
  if (!d.distinguishable) return ' (≈ same)';
  const arrow = d.change > 0 ? '▲' : '▼';
  const spread = drawn ? `; 5 to 95 %: ${signedText(drawn.low)} to ${signedText(drawn.high)}` : '';
  return ` (${arrow} ${signedText(d.change)}${d.percent === null ? '' : `, ${signedText(d.percent)} %`}${spread})`;
}

function readings(answer, start, words, intervals) {
  const rows = [];
  for (const q of start.quantities) {
    const model = [q.leads, q.leads === 'sagittal' ? 'axisymmetric' : 'sagittal'].find((m) => answer.runs.some((r) => r.models[m] && q.key in r.models[m].values));
    if (!model) continue;
    rows.push([make('span', { title: q.definition }, inWords(q.words, words)), q.unit.replace('ue', 'µε').replace('cm^2', 'cm²'), model, ...answer.runs.map((r, k) => {
      const v = r.models[model] && r.models[model].values[q.key];
      if (v === undefined) return 'not solved';
      const d = answer.differences.find((x) => x.run === r.name && x.key === q.key && x.model === model);
      return numberText(v) + (k ? changeText(d, intervals(r.name, q.key, model)) : '');
    })]);
  }
  return rows;
}

function verdicts(answer, start, verdict, words, intervals) {
  const isSure = (d) => { const drawn = intervals(d.run, d.key, d.model); return !drawn || drawn.distinguishable; };
  const words_of = Object.fromEntries(start.quantities.map((q) => [q.key, q]));
  return answer.runs.slice(1).map((run, k) => {
    const list = answer.differences.filter((d) => d.run === run.name && d.verdict === verdict && d.distinguishable && isSure(d) && !echoes.has(d.key));
    const title = `${letters[k + 1]}, ${run.name}`;
    if (!list.length) return make('div', {}, make('h4', {}, title), make('p', {}, 'nothing that the solver can tell apart'));
    return make('div', {}, make('h4', {}, title), make('ul', {}, list.map((d) => make('li', {}, `${inWords(words_of[d.key].words, words)} ${signedText(d.change)} ${d.unit || words_of[d.key].unit}${d.percent === null ? '' : ` (${signedText(d.percent)} %)`}, ${d.model} model`))));
  });
}

/** `intervals(run, key, model)`: what the draws say of that change, or null. */
export function showChanges(home, answer, start, words, intervals) {
  const head = ['quantity', 'unit', 'model', ...answer.runs.map((r, k) => `${letters[k]}, ${r.name}`)];
  home.replaceChildren(
    make('h2', {}, 'What changed against A'),
    make('div', { class: 'verdicts' },
      make('section', { class: 'worse', 'aria-label': 'What got worse' }, make('h3', {}, '▲ More load: what got worse'), ...verdicts(answer, start, 'worse', words, intervals)),
      make('section', { class: 'better', 'aria-label': 'What got better' }, make('h3', {}, '▼ Less load: what got better'), ...verdicts(answer, start, 'better', words, intervals))),
    make('div', { class: 'wide', tabindex: '0', role: 'region', 'aria-label': 'All readings' }, table('All readings of this phase; changes against A in brackets', head, readings(answer, start, words, intervals), { id: 'readings' })));
}

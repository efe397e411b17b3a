// A guess first, then the numbers.
import { make, byId } from './dom.js';
import { lesson, watch } from './api.js';
import { signedText, inWords } from './words.js';

const guesses = [['rises', 'It rises'], ['falls', 'It falls'], ['stays', 'It stays about the same']];

function changesText(list, words) {
  return list.map((c) => `${inWords(c.words, words)} ${signedText(c.change)} ${c.unit}${c.percent === null ? '' : ` (${signedText(c.percent)} %)`}`);
}

function reveal(home, answer, guess, words) {
  const said = guesses.find(([g]) => g === guess)[1];
  const told = answer.answer ? guesses.find(([g]) => g === answer.answer)[1] : null;
  home.replaceChildren(make('h4', {}, 'What the solver says'),
    make('p', { id: 'lesson-answer' }, told ? `${told}. ${inWords(answer.sentence, words)} ± is the mesh bar.` : answer.sentence),
    make('p', {}, told ? `Your guess was: ${said}. ${answer.answer === guess ? 'The model agrees.' : 'The model says otherwise.'}` : ''),
    ...(answer.worse && answer.worse.length ? [make('h4', {}, 'What got worse with it'), make('ul', {}, changesText(answer.worse, words).map((t) => make('li', {}, t)))] : []));
}

/** `state.words` is read when the answer comes. */
export function showLesson(start, state) {
  const home = byId('lesson');
  const pick = make('select', { id: 'lesson-pick' }, start.lessons.map((l, k) => make('option', { value: String(k) }, `${l.title.replace('Lesson: ', '')} · ${l.phase}`)));
  const body = make('div', {});
  const show = () => {
    const k = +pick.value, l = start.lessons[k];
    const radios = guesses.map(([g, label]) => make('label', { class: 'choice' }, make('input', { type: 'radio', name: 'guess', value: g }), label));
    const button = make('button', { type: 'button', id: 'reveal' }, 'Solve and show');
    const said = make('div', { 'aria-live': 'polite', id: 'lesson-said' });
    button.addEventListener('click', async () => {
      const chosen = body.querySelector('input[name=guess]:checked');
      if (!chosen) return said.replaceChildren(make('p', {}, 'First say what you expect.'));
      button.disabled = true;
      said.replaceChildren(make('p', {}, 'Solving both feet.'));
      const stop = watch(' lesson', (p) => { if (p.of) said.firstElementChild.textContent = `Solving both feet: ${p.done} of ${p.of} models.`; });
      const answer = await lesson(k);
      stop();
      button.disabled = false;
      return reveal(said, answer, chosen.value, state.words);
    });
    body.replaceChildren(make('p', {}, `Left: ${l.left}. Right: ${l.right}. The reference foot.`), make('fieldset', {}, make('legend', {}, l.ask), make('div', { class: 'row' }, radios)), button, said,
      ...l.notes.map((n) => make('p', { class: 'key' }, n)));
  };
  pick.addEventListener('change', show);
  home.replaceChildren(make('h2', { id: 'lesson-h' }, 'Lesson: guess first'), make('label', { class: 'field' }, 'Question ', pick), body);
  show();
}
